package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;
import org.padtrue.cli.Program;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedArticle;
import org.padtrue.web.server.WebOptions;
import org.padtrue.words.WordScan;

/** Record, gauge study, events and corrections on pages; and what of them is refused. */
class LoopPagesTest {
  private static final String SCRIPT = "\"><script>alert(1)</script>";

  @TempDir Path dir;
  private WebServer server;
  private Client client;

  @BeforeEach
  void serve() throws IOException {
    server =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
    client = new Client(server.address());
    client.files(
        "/jobs", Map.of("placements.csv", Boards.placements(), "first.csv", Boards.article(1)));
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private List<String> everything() throws IOException {
    try (Stream<Path> s = Files.walk(dir.resolve("ws"))) {
      List<String> all = new ArrayList<>();
      for (Path p : s.filter(Files::isRegularFile).sorted().toList()) {
        all.add(dir.relativize(p) + " " + Files.size(p));
      }
      return all;
    }
  }

  private void plain(String path) {
    String html = client.get(path).body();
    assertThat(WordScan.faultsOfPage(html)).as(path).isEmpty();
    assertThat(html).as(path).doesNotContain("<script>alert");
  }

  /** A panel placed with the trims, so that there is a check to put into the record. */
  private void second() throws IOException {
    Random random = new Random(4);
    StringBuilder b = new StringBuilder("ref,dx (um),dy (um),drotation\n");
    for (int k = 0; k < 36; k++) {
      b.append(Boards.ref(k) + ",")
          .append(Math.round(80 * random.nextGaussian()) / 10.0)
          .append(',')
          .append(Math.round(80 * random.nextGaussian()) / 10.0)
          .append(",0.0\n");
    }
    client.files(
        "/jobs/placements/files",
        Map.of("second.csv", b.toString().getBytes(StandardCharsets.UTF_8)));
    assertThat(client.post("/articles/second/after", Map.of("first", "first")).statusCode())
        .isEqualTo(303);
  }

  @Test
  void theRecordHoldsWhatWasSaidAndIsThatOfTheCommand() throws IOException {
    second();
    String at = "/articles/first/first-article";
    Map<String, String> f = new LinkedHashMap<>();
    f.put("partNumber", "4711-3");
    f.put("verifiedBy", "A. Person");
    f.put("comments", "two\nlines");
    f.put("tool1", "Measuring microscope");
    f.put("toolId1", "M-12");
    f.put("toolMeasures1", "x");
    f.put("nonconformances", "U3 = NC-17");
    f.put("check", "second");
    f.put("coverage", "3");
    assertThat(client.post(at, f).statusCode()).isEqualTo(303);
    assertThat(client.files(at + "/files", Map.of("photo.jpg", new byte[] {1, 2})).statusCode())
        .isEqualTo(303);
    plain(at);
    assertThat(client.get(at).body())
        .contains("4711-3", "Measuring microscope", "U3 = NC-17", "photo.jpg", "NC-17");
    JsonNode page = new ObjectMapper().readTree(client.get(at + ".json").body());
    assertThat(page.path("check").path("verdict").asText()).isEqualTo("held");
    // the same from the command, from what the pages hand out
    Path own = dir.resolve("own");
    Files.createDirectories(own);
    Files.writeString(
        own.resolve("analysis.json"), client.get("/articles/first/analysis.json").body());
    Files.writeString(own.resolve("check.json"), client.get("/articles/second/check.json").body());
    Program.run(
        "firstarticle",
        dir.resolve("ws/jobs/placements/job.json").toString(),
        own.resolve("analysis.json").toString(),
        "--identification",
        dir.resolve("ws/articles/first/record/identification.json").toString(),
        "--check",
        own.resolve("check.json").toString(),
        "--coverage",
        "3",
        "--quiet",
        "--out",
        own.toString());
    assertThat(client.get(at + ".csv").body())
        .isEqualTo(Files.readString(own.resolve("first-article.csv")));
    JsonNode command =
        new ObjectMapper().readTree(Files.readString(own.resolve("first-article.json")));
    for (String key : List.of("identification", "characteristics", "check", "trims", "measuring")) {
      assertThat(page.get(key)).as(key).isEqualTo(command.get(key));
    }
    assertThat(client.get(at + ".pdf?paper=letter").body()).startsWith("%PDF-");
    assertThat(
            client
                .post(at + "/files/remove", Map.of("file", "../identification.json"))
                .statusCode())
        .isEqualTo(400);
    assertThat(client.post(at + "/files/remove", Map.of("file", "photo.jpg")).statusCode())
        .isEqualTo(303);
    assertThat(client.get(at).body()).doesNotContain("photo.jpg");
  }

  @Test
  void aHostileRecordIsRefusedOrText() throws IOException {
    String at = "/articles/first/first-article";
    client.get(at);
    List<String> before = everything();
    for (Map<String, String> bad :
        List.of(
            Map.of("rule", SCRIPT),
            Map.of("coverage", "99"),
            Map.of("coverage", "NaN"),
            Map.of("check", "first"),
            Map.of("check", "../../x"),
            Map.of("toolId1", "M-12"),
            Map.of("tool1", "a", "toolMeasures1", SCRIPT),
            Map.of("nonconformances", "U3"),
            Map.of("partNumber", "x".repeat(3000)),
            Map.of("comments", "x".repeat(900_000)))) {
      HttpResponse<String> r = client.post(at, bad);
      assertThat(r.statusCode()).as(bad.toString().substring(0, 8)).isIn(400, 404);
      assertThat(r.body()).doesNotContain("<script>alert");
    }
    assertThat(everything()).isEqualTo(before);
    client.post(at, Map.of("partNumber", SCRIPT, "nonconformances", "U99 = " + SCRIPT));
    plain(at);
    assertThat(client.get(at).body()).contains("which the analysis does not have");
  }

  /** Begins a study of ten placements and gives its address. */
  private String study() {
    String at =
        Client.to(
            client.post(
                "/jobs/placements/gauge", Map.of("operators", "Ann, Bo, Cy", "trials", "3")));
    assertThat(at).isEqualTo("/jobs/placements/gauge/study-1");
    return at;
  }

  /** Types all nine sessions: placements differ by 40 um, readings scatter by 1 um. */
  private void type(String at) {
    Map<String, double[]> places = new LinkedHashMap<>();
    Random random = new Random(3);
    List<String> rows = client.get(at + "/readings.csv").body().lines().skip(1).toList();
    for (int session = 1; session <= 9; session++) {
      Map<String, String> f = new LinkedHashMap<>();
      f.put("unit", "um");
      for (int i = 0; i < rows.size(); i++) {
        String[] c = rows.get(i).split(",");
        if (c[0].equals(Integer.toString(session))) {
          double[] p =
              places.computeIfAbsent(
                  c[1], k -> new double[] {40 * random.nextGaussian(), 40 * random.nextGaussian()});
          f.put("dx" + i, Double.toString(Math.round(10 * (p[0] + random.nextGaussian())) / 10.0));
          f.put("dy" + i, Double.toString(Math.round(10 * (p[1] + random.nextGaussian())) / 10.0));
        }
      }
      assertThat(Client.to(client.post(at + "/" + session, f)))
          .isEqualTo(session < 9 ? at + "/" + (session + 1) : at);
    }
  }

  @Test
  void aGaugeStudyIsTypedAndJudgedAsTheCommandJudges() throws IOException {
    String at = study();
    plain(at);
    assertThat(client.get(at).body()).contains("Nothing was read yet.");
    type(at);
    plain(at);
    assertThat(client.get(at).body()).contains("Measurement system acceptable");
    Path csv = dir.resolve("repeats.csv");
    Files.writeString(csv, client.get(at + "/readings.csv").body());
    Program.run(
        "gauge",
        csv.toString(),
        "--job",
        dir.resolve("ws/jobs/placements/job.json").toString(),
        "--out",
        dir.resolve("g").toString(),
        "--quiet");
    assertThat(client.get(at + "/gauge.json").body())
        .isEqualTo(Files.readString(dir.resolve("g/gauge.json")));
    plain("/jobs/placements/gauge");
    plain(at + "/form");
  }

  @Test
  void aHostileStudyIsRefused() throws IOException {
    for (Map<String, String> bad :
        List.of(
            Map.of("operators", ""),
            Map.of("operators", "A, A"),
            Map.of("operators", "A", "trials", "1000"),
            Map.of("operators", "A", "trials", "x"),
            Map.of("operators", "A", "count", "-1"),
            Map.of("operators", "x".repeat(500)))) {
      assertThat(client.post("/jobs/placements/gauge", bad).statusCode()).isEqualTo(400);
    }
    String at = study();
    List<String> before = everything();
    for (Map<String, String> bad :
        List.of(
            Map.of("unit", "parsec"),
            Map.of("unit", "mm", "dx0", "1"),
            Map.of("unit", "mm", "dx0", SCRIPT, "dy0", "1"),
            Map.of("unit", "mm", "dx0", "1000", "dy0", "1"),
            Map.of("unit", "mm", "rotation0", "5"),
            Map.of("unit", "mm", "dx0", "1", "dy0", "1", "rotation0", "400"))) {
      HttpResponse<String> r = client.post(at + "/1", bad);
      assertThat(r.statusCode()).as(bad.toString()).isEqualTo(400);
      assertThat(r.body()).doesNotContain("<script>alert");
    }
    for (String path : List.of("/99", "/x", "/..%2f..", "/form/x")) {
      assertThat(client.get(at + path).statusCode()).as(path).isIn(400, 404);
    }
    assertThat(everything()).isEqualTo(before);
  }

  @Test
  void eventsAndCorrectionsAreAddedAndNothingIsChanged() {
    assertThat(
            client
                .post("/articles/first/record", Map.of("machine", "M7", "shift", "early"))
                .statusCode())
        .isEqualTo(303);
    plain("/log/1/correct");
    assertThat(client.post("/log/1/correct", Map.of("shift", "late")).body())
        .contains("Write why it is corrected");
    assertThat(
            Client.to(
                client.post(
                    "/log/1/correct",
                    Map.of("shift", "late", "trims", "shiftX = 0.03", "reason", "wrong shift"))))
        .isEqualTo("/log/2");
    assertThat(client.post("/log/1/correct", Map.of("reason", "again")).body())
        .contains("has been corrected by number 2 already");
    assertThat(client.get("/log/1/correct").statusCode()).isEqualTo(400);
    assertThat(client.get("/log/99/correct").statusCode()).isEqualTo(404);
    assertThat(client.post("/log/2/correct", Map.of("reason", "x", "trims", SCRIPT)).statusCode())
        .isEqualTo(400);
    try (ArticleLog log = ArticleLog.openToRead(dir.resolve("log.db").toString())) {
      LoggedArticle a = log.article(1).orElseThrow();
      LoggedArticle b = log.article(2).orElseThrow();
      assertThat(a.conditions().shift()).isEqualTo("early");
      assertThat(b.conditions().shift()).isEqualTo("late");
      assertThat(b.machine()).isEqualTo("M7");
      assertThat(b.measuredAt()).isEqualTo(a.measuredAt());
      assertThat(b.placements()).isEqualTo(a.placements());
      assertThat(b.trims()).hasSize(1);
    }
    plain("/log/events");
    assertThat(client.post("/log/events", Map.of("machine", "M7", "what", "reel")).body())
        .contains("Write the part type");
    for (Map<String, String> bad :
        List.of(
            Map.of("what", "service"),
            Map.of("machine", "M7", "what", SCRIPT),
            Map.of("machine", "M7", "what", "service", "at", "yesterday"),
            Map.of("machine", "x".repeat(90), "what", "service"))) {
      assertThat(client.post("/log/events", bad).statusCode()).isEqualTo(400);
    }
    client.post("/log/events", Map.of("machine", "M7", "what", "reel", "level", "R0603"));
    client.post("/log/events", Map.of("machine", "M7", "what", "nozzle", "level", "N2"));
    client.post("/log/events", Map.of("machine", "M7", "what", "service", "note", SCRIPT));
    plain("/log/events");
    assertThat(client.get("/log/events").body()).contains("new reel of R0603", "nozzle N2 changed");
    try (ArticleLog log = ArticleLog.openToRead(dir.resolve("log.db").toString())) {
      assertThat(log.events("M7")).hasSize(3);
    }
  }

  @Test
  void noFormIsTakenWithoutItsToken() throws IOException {
    second();
    String at = study();
    client.post("/articles/first/record", Map.of("machine", "M7"));
    List<String> before = everything();
    for (String path :
        List.of(
            "/articles/second/entered",
            "/articles/first/first-article",
            "/articles/first/first-article/files",
            "/articles/first/first-article/files/remove",
            "/jobs/placements/plan",
            "/jobs/placements/gauge",
            at + "/1",
            "/log/events",
            "/log/1/correct")) {
      HttpResponse<String> r =
          client.send(
              client
                  .request(path)
                  .header("Content-Type", "application/x-www-form-urlencoded")
                  .POST(Client.form(Map.of("name", "x", "operators", "A", "reason", "x")))
                  .build());
      assertThat(r.statusCode()).as(path).isEqualTo(403);
    }
    assertThat(everything()).isEqualTo(before);
  }

  @Test
  void everyPageIsLookedAt() throws IOException {
    second();
    String at = study();
    type(at);
    client.post("/articles/first/record", Map.of("machine", "M7"));
    client.post("/log/events", Map.of("machine", "M7", "what", "reel", "level", "R0603"));
    try (Browser b = Browser.open()) {
      String base = server.address().substring(0, server.address().length() - 1);
      Map<String, String> pages = new LinkedHashMap<>();
      pages.put("record-sheet", "/articles/first/first-article");
      pages.put("gauge", at);
      pages.put("gauge-session", at + "/2");
      pages.put("gauge-list", "/jobs/placements/gauge");
      pages.put("gauge-form", at + "/form");
      pages.put("events", "/log/events");
      pages.put("correction", "/log/1/correct");
      for (Map.Entry<String, String> p : pages.entrySet()) {
        b.go(base + p.getValue());
        b.see("h1");
        Look.at(b, p.getKey());
      }
      b.go(base + at + "/form");
      b.paper("gauge-form-print");
      b.go(base + "/articles/first/result");
      b.see(".trims");
      b.paper("result-print");
      assertThat(b.driver.findElement(By.tagName("h1")).getText()).isEqualTo("first");
    }
  }
}
