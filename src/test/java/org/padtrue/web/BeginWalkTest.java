package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.padtrue.cli.Program;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedTrim;
import org.padtrue.web.server.WebOptions;

/** Which panel an article is, what was entered before it, and several panels in one article. */
class BeginWalkTest {
  private static @Nullable Browser browser;

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

  @AfterAll
  static void quit() {
    if (browser != null) {
      browser.close();
    }
  }

  private static Browser browser() {
    if (browser == null) {
      browser = Browser.open();
    }
    return browser;
  }

  private static final String UNSAID = "Nobody has said yet which panel this is";

  /** Everything as proposed but SOT23, of which 30 um are left; scatter 4 um. */
  private static byte[] second() {
    Random random = new Random(11);
    StringBuilder b = new StringBuilder("ref,dx (um),dy (um),drotation\n");
    for (int k = 0; k < 36; k++) {
      double turn = Math.toRadians(90 * (k % 4));
      double own = k % 3 == 2 ? -30 : 0;
      b.append(
          String.format(
              Locale.ROOT,
              "%s,%.1f,%.1f,%.2f\n",
              Boards.ref(k),
              -own * Math.sin(turn) + 4 * random.nextGaussian(),
              own * Math.cos(turn) + 4 * random.nextGaussian(),
              0.05 * random.nextGaussian()));
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void anUploadedSecondPanelIsAskedWhichItIs() throws IOException {
    // a placement that the result leads back to, by its whole key
    assertThat(Client.to(client.post("/articles/first/plan", Map.of("placement", "P1/1/1/U3"))))
        .isEqualTo("/articles/first#row-P1/1/1/U3");
    // of a job's first panel nothing is asked
    assertThat(client.get("/articles/first/result").body()).doesNotContain(UNSAID);
    assertThat(Client.to(client.files("/jobs/placements/files", Map.of("second.csv", second()))))
        .isEqualTo("/articles/second/which");
    assertThat(client.get("/articles/second/result").body()).contains(UNSAID);
    assertThat(client.get("/").body()).contains("not said which panel");
    Browser b = browser();
    b.go(server.address() + "articles/second/which");
    b.says("Which panel is it?");
    // nothing is taken for granted
    assertThat(b.all("input[name=kind]:checked")).isEmpty();
    Look.at(b, "which");
    b.click("input[name=kind][value=after]");
    b.click("form.fields button.main");
    b.see(".verdict");
    b.says("Held against what the result of first predicted");
    b.go(server.address() + "jobs/placements");
    b.says("Which panel is it?");
    Look.at(b, "job-which");
    assertThat(client.get("/articles/second/result").body()).doesNotContain(UNSAID);
    // said otherwise
    assertThat(
            Client.to(
                client.post(
                    "/articles/second/after", Map.of("kind", "monitoring", "first", "first"))))
        .isEqualTo("/articles/second/result");
    assertThat(client.get("/articles/second/check").body())
        .contains("value=\"monitoring\" checked")
        .doesNotContain("Held against");
    assertThat(client.get("/").body()).contains("from second.csv, monitoring");
  }

  @Test
  void aPanelBegunAfterTrimsLeadsToTheCheck() {
    String at =
        Client.to(
            client.post("/jobs/placements/articles", Map.of("kind", "after", "first", "first")));
    assertThat(at).isEqualTo("/articles/first-trims-entered");
    String page = client.get(at).body();
    assertThat(page).contains("Did the trims hold?").doesNotContain(UNSAID);
    // the same placements are measured
    assertThat(page.split("<tr id=\"row-", -1)).hasSize(37);
    at = Client.to(client.post("/jobs/placements/articles", Map.of("kind", "monitoring")));
    assertThat(at).isEqualTo("/articles/monitoring");
    assertThat(client.get(at).body()).contains("To the result").doesNotContain(UNSAID);
    at = Client.to(client.post("/jobs/placements/plan", Map.of("count", "9", "name", "x")));
    assertThat(client.get(at).body()).contains(UNSAID);
  }

  @Test
  void theLogTakesTheTrimsThatWereEntered() throws IOException {
    client.files("/jobs/placements/files", Map.of("second.csv", second()));
    client.post("/articles/second/after", Map.of("kind", "after", "first", "first"));
    String form = client.get("/articles/second/entered").body();
    // SOT23: 20 um instead of 50; the panel as proposed
    int sot = form.indexOf("part type SOT23") < 0 ? -1 : line(form, "part type SOT23");
    Map<String, String> said = new java.util.LinkedHashMap<>();
    for (int k = 0; form.contains("name=\"entered" + k + "\""); k++) {
      said.put("entered" + k, "yes");
      for (String axis : List.of("x", "y", "rotation", "squareness")) {
        String head = "name=\"" + axis + k + "\" maxlength=\"20\" value=\"";
        int i = form.indexOf(head);
        if (i >= 0) {
          String rest = form.substring(i + head.length());
          said.put(axis + k, rest.substring(0, rest.indexOf('"')));
        }
      }
    }
    said.put("y" + sot, "20 um");
    assertThat(client.post("/articles/second/entered", said).statusCode()).isEqualTo(303);
    assertThat(client.get("/articles/second/record").body())
        .contains("as entered (1 line otherwise than proposed)", "value=\"first\" selected");
    assertThat(
            client
                .post("/articles/second/record", Map.of("machine", "M7", "trimsOf", "first"))
                .statusCode())
        .isEqualTo(303);
    try (ArticleLog log = ArticleLog.openToRead(dir.resolve("log.db").toString())) {
      List<LoggedTrim> trims = log.article(1).orElseThrow().trims();
      assertThat(trims)
          .filteredOn(t -> t.name().equals("part SOT23 y"))
          .singleElement()
          .extracting(LoggedTrim::increment)
          .isEqualTo(0.02);
      // the panel shift as the sheet proposes it: 60 um to the left
      assertThat(trims)
          .filteredOn(t -> t.name().equals("shiftX"))
          .singleElement()
          .satisfies(t -> assertThat(t.increment()).isBetween(-0.066, -0.054));
    }
  }

  private static int line(String form, String where) {
    String before = form.substring(0, form.indexOf(where));
    String number = before.substring(before.lastIndexOf("name=\"entered") + 13);
    return Integer.parseInt(number.substring(0, number.indexOf('"')));
  }

  @Test
  void severalPanelsAreListedTypedAndAnalysedAsTheCommandDoes() throws IOException {
    String at =
        Client.to(
            client.post(
                "/jobs/placements/articles",
                Map.of("name", "Two", "kind", "first", "count", "12", "panels", "2")));
    List<String> keys = keys(client.get(at).body());
    assertThat(keys).hasSize(24);
    assertThat(keys.subList(0, 12)).allMatch(k -> k.startsWith("P1/"));
    assertThat(keys.subList(12, 24))
        .containsExactlyElementsOf(
            keys.subList(0, 12).stream().map(k -> k.replace("P1/", "P2/")).toList());
    Browser b = browser();
    b.go(server.address() + at.substring(1));
    b.says("Panel P1");
    b.says("Panel P2");
    Random random = new Random(5);
    b.size(1280, 1000);
    for (String k : keys.subList(0, 11)) {
      entry(at, k, 0.05 + 0.006 * random.nextGaussian(), 0.006 * random.nextGaussian());
    }
    b.go(server.address() + at.substring(1));
    for (int k = 0; k < 2; k++) {
      b.keys(
          String.format(Locale.ROOT, "%.3f", 0.05 + 0.006 * random.nextGaussian()),
          Keys.ENTER,
          String.format(Locale.ROOT, "%.3f", 0.006 * random.nextGaussian()),
          Keys.ENTER,
          Keys.ENTER);
    }
    b.says("Everything typed is on disk.");
    // the map shows the panel in work: one of its twelve is measured
    assertThat(b.all(".map .place.measured")).hasSize(1);
    Look.at(b, "measure-panels");
    random = new Random(6);
    for (String k : keys.subList(13, 24)) {
      entry(at, k, 0.058 + 0.006 * random.nextGaussian(), 0.006 * random.nextGaussian());
    }
    JsonNode page = new ObjectMapper().readTree(client.get(at + "/analysis.json").body());
    assertThat(page.path("panels")).hasSize(2);
    // the map of each panel
    assertThat(client.get(at + "/result").body()).contains("data-place=\"P1/1/1/U1\"", "Panel P2");
    assertThat(client.get(at + "/result?panel=P2").body())
        .contains("data-place=\"P2/1/1/U1\"", "panel offset of P2")
        .doesNotContain("data-place=\"P1/");
    assertThat(client.get(at + "/result?panel=%3Cscript%3E").body())
        .contains("data-place=\"P1/")
        .doesNotContain("<script>&");
    // one more placement is measured on both, or on the one that is named
    client.post(at + "/plan", Map.of("placement", "U36"));
    client.post(at + "/plan", Map.of("placement", "P2/1/1/U35"));
    assertThat(keys(client.get(at).body())).contains("P2/1/1/U35").contains("P1/1/1/U36");
    page = new ObjectMapper().readTree(client.get(at + "/analysis.json").body());
    // the command gives the same of the file
    Path own = Files.createDirectories(dir.resolve("own"));
    Files.writeString(own.resolve("two.csv"), client.get(at + "/article.csv").body());
    Program.run(
        "analyse",
        dir.resolve("ws/jobs/placements/job.json").toString(),
        own.resolve("two.csv").toString(),
        "--json-only",
        "--out",
        own.toString());
    JsonNode command = new ObjectMapper().readTree(Files.readString(own.resolve("analysis.json")));
    for (String key : List.of("groups", "batchTrim", "placements")) {
      assertThat(page.get(key)).as(key).isEqualTo(command.get(key));
    }
  }

  private void entry(String at, String key, double dx, double dy) {
    HttpResponse<String> r =
        client.post(
            at + "/entries",
            Map.of(
                "placement",
                key,
                "x",
                String.format(Locale.ROOT, "%.4f", dx),
                "y",
                String.format(Locale.ROOT, "%.4f", dy),
                "rotation",
                "",
                "unit",
                "mm",
                "as",
                "deviation"));
    assertThat(r.statusCode()).as(r.body()).isEqualTo(200);
  }

  private static List<String> keys(String page) {
    return Stream.of(page.split("data-key=\"", -1))
        .skip(1)
        .map(s -> s.substring(0, s.indexOf('"')))
        .toList();
  }

  @Test
  void aFormByPanelIsAnArticleWhenFilledIn() throws IOException {
    String q = "?count=10&within=&scatter=&rotationScatter=&earlier=&panels=3";
    String csv = client.get("/jobs/placements/plan/to-measure.csv" + q).body();
    List<String> lines = csv.lines().filter(l -> !l.startsWith("#")).toList();
    assertThat(lines).hasSize(31);
    assertThat(lines.get(0))
        .isEqualTo("order,panel,column,row,ref,part,x,y,rotation,dx,dy,drotation");
    StringBuilder filled = new StringBuilder(lines.get(0) + "\n");
    Random random = new Random(2);
    for (String l : lines.subList(1, 31)) {
      filled.append(
          String.format(
              Locale.ROOT,
              "%s%.4f,%.4f,0\n",
              l.substring(0, l.length() - 2),
              0.05 + 0.01 * random.nextGaussian(),
              0.01 * random.nextGaussian()));
    }
    client.files(
        "/jobs/placements/files",
        Map.of("three.csv", filled.toString().getBytes(StandardCharsets.UTF_8)));
    JsonNode page = new ObjectMapper().readTree(client.get("/articles/three/analysis.json").body());
    assertThat(page.path("panels")).hasSize(3);
    String form = client.get("/jobs/placements/plan/form" + q).body();
    assertThat(form).contains("Panel P1", "Panel P2", "Panel P3");
    Browser b = browser();
    b.go(server.address() + "jobs/placements/plan/form" + q);
    b.see("h2");
    b.paper("plan-form-panels-print");
    b.go(server.address() + "jobs/placements/plan" + q);
    b.says("on each of 3 panels");
    Look.at(b, "plan-panels");
  }

  @Test
  void whatCannotBeIsRefusedAndNothingIsMade() throws IOException {
    client.files("/jobs/placements/files", Map.of("second.csv", second()));
    List<String> before = everything();
    String script = "\"><script>alert(1)</script>";
    for (Map<String, String> bad :
        List.of(
            Map.of("kind", script),
            Map.of("kind", "after"),
            Map.of("kind", "after", "first", "nobody"),
            Map.of("kind", "after", "first", "../first"),
            Map.of("kind", "after", "first", script),
            Map.of("panels", "0"),
            Map.of("panels", "21"),
            Map.of("panels", "-1"),
            Map.of("panels", script),
            Map.of("panels", "9".repeat(30)))) {
      for (String path : List.of("/jobs/placements/articles", "/jobs/placements/plan")) {
        HttpResponse<String> r = client.post(path, bad);
        assertThat(r.statusCode()).as(path + bad).isIn(400, 404);
        assertThat(r.body()).doesNotContain("<script>alert");
      }
    }
    for (Map<String, String> bad :
        List.of(
            Map.of("kind", script),
            Map.of("kind", "after"),
            Map.of("kind", "after", "first", "second"))) {
      assertThat(client.post("/articles/second/after", bad).statusCode())
          .as(bad.toString())
          .isEqualTo(400);
    }
    assertThat(
            client
                .post("/articles/first/next", Map.of("entered", "x", "panels", "99"))
                .statusCode())
        .isEqualTo(400);
    // a panel that the article does not have
    String at =
        Client.to(client.post("/jobs/placements/articles", Map.of("name", "one", "count", "8")));
    assertThat(
            client
                .post(
                    at + "/entries",
                    Map.of("placement", "P2/1/1/U1", "x", "0", "y", "0", "unit", "mm"))
                .statusCode())
        .isEqualTo(400);
    assertThat(everything()).filteredOn(f -> !f.contains("/one/")).isEqualTo(before);
  }

  private List<String> everything() throws IOException {
    try (Stream<Path> s = Files.walk(dir.resolve("ws"))) {
      List<String> all = new java.util.ArrayList<>();
      for (Path p : s.filter(Files::isRegularFile).sorted().toList()) {
        all.add(dir.relativize(p) + " " + Files.size(p));
      }
      return all;
    }
  }
}
