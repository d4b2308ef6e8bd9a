package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.cli.Program;
import org.padtrue.imaging.CloseUpMaker;
import org.padtrue.web.server.WebOptions;
import org.padtrue.words.WordScan;

/** What the command takes for measuring in pictures, the page takes too, with the same answer. */
class PictureWaysTest {
  private static final String AT = "/articles/first-article/pictures";

  @TempDir Path dir;
  private WebServer server;
  private Client client;
  private Path shots;

  @BeforeEach
  void serve() throws IOException {
    server =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
    client = new Client(server.address());
    shots = Files.createDirectories(dir.resolve("shots"));
    new CloseUpMaker(shots).write(3);
    client.files(
        "/jobs",
        Map.of(
            "job.json", Files.readAllBytes(shots.resolve("job.json")),
            "parts.json", Files.readAllBytes(shots.resolve("parts.json")),
            "placements.csv", Files.readAllBytes(shots.resolve("placements.csv"))));
    client.post("/jobs/close-ups/articles", Map.of("count", "4"));
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private Map<String, byte[]> sent() throws IOException {
    Map<String, byte[]> all = new TreeMap<>();
    try (Stream<Path> s = Files.list(shots)) {
      for (Path p : s.filter(f -> f.toString().matches(".*(png|shots\\.csv)")).toList()) {
        all.put(p.getFileName().toString(), Files.readAllBytes(p));
      }
    }
    return all;
  }

  private static void waited(Client c, String state) {
    for (int k = 0; k < 300; k++) {
      if (c.get(state).body().startsWith("done")) {
        return;
      }
      try {
        Thread.sleep(100);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
    throw new IllegalStateException("not done after 30 s");
  }

  /** Rows of an article by placement: dx, dy, rotation, u. */
  private static Map<String, String> rows(String csv, List<String> columns) {
    Map<String, String> rows = new TreeMap<>();
    List<String> lines = csv.lines().filter(l -> !l.startsWith("#")).toList();
    List<String> head = List.of(lines.get(0).split(",", -1));
    for (String l : lines.subList(1, lines.size())) {
      List<String> c = List.of(l.replace("\"", "").split(",", -1));
      String ref = c.get(head.indexOf("ref"));
      StringBuilder b = new StringBuilder();
      columns.forEach(k -> b.append(c.get(head.indexOf(k))).append(' '));
      rows.put(ref, b.toString());
    }
    return rows;
  }

  @Test
  void closeUpsByATaughtLookAreMeasuredAsTheCommandDoes() throws IOException {
    Map<String, String> asked = new LinkedHashMap<>();
    asked.put("closeUps", "yes");
    asked.put("distance", "far");
    asked.put("teach", "U1");
    assertThat(client.files(AT, sent(), asked).statusCode()).isEqualTo(303);
    waited(client, AT + "/state");
    String page = client.get(AT).body();
    assertThat(page)
        .contains("scale and direction by 3 close-ups")
        .contains("R0603 was measured relative to its taught sample 1/1/U1")
        .contains("was taken as exact")
        .contains("Measure by the looks taught for this job: R0603");
    assertThat(WordScan.faultsOfPage(page)).isEmpty();
    assertThat(client.post(AT + "/accept", Map.of("doubtful", "yes")).statusCode()).isEqualTo(303);
    String article = client.get("/articles/first-article/article.csv").body();
    // what the command says of the same pictures
    Program.run(
        "detect",
        shots.resolve("job.json").toString(),
        shots.resolve("shots.csv").toString(),
        "--close-ups",
        "--distance",
        "far",
        "--teach",
        "U1",
        "--doubtful",
        "--quiet",
        "--out",
        shots.resolve("a.csv").toString());
    String command = Files.readString(shots.resolve("a.csv"));
    assertThat(command).contains("# type offset not known: R0603");
    assertThat(article).contains("# type offset not known: R0603");
    Map<String, String> theirs = rows(command, List.of("x", "y", "rotation"));
    Map<String, String> nominal =
        rows(Files.readString(shots.resolve("placements.csv")), List.of("x", "y", "rotation"));
    rows(article, List.of("dx (mm)", "dy (mm)", "drotation"))
        .forEach(
            (ref, values) -> {
              double[] d = numbers(values);
              double[] n = numbers(nominal.get(ref));
              double[] t = numbers(theirs.get(ref));
              for (int k = 0; k < 2; k++) {
                assertThat(n[k] + d[k]).as(ref).isBetween(t[k] - 1.1e-5, t[k] + 1.1e-5);
              }
            });
    // the look is kept with the job, for its next article
    assertThat(dir.resolve("ws/jobs/close-ups/taught/R0603.png")).isNotEmptyFile();
  }

  private static double[] numbers(String text) {
    return Stream.of(text.strip().split(" ")).mapToDouble(Double::parseDouble).toArray();
  }

  @Test
  void aCameraIsFoundFromAGridKeptSentAndDeleted() throws IOException {
    Map<String, byte[]> grid = new TreeMap<>();
    for (int i : new int[] {1, 2, 3, 5, 7}) {
      String name = "left0" + i + ".jpg";
      try (InputStream in =
          getClass().getResourceAsStream("/org/padtrue/imaging/chessboard/" + name)) {
        grid.put(name, in.readAllBytes());
      }
    }
    Map<String, String> asked = Map.of("grid", "9x6", "pitch", "25", "name", "Bench camera");
    assertThat(client.files("/cameras/calibrate", grid, asked).statusCode()).isEqualTo(303);
    waited(client, "/cameras/state");
    assertThat(WordScan.faultsOfPage(client.get("/cameras").body())).isEmpty();
    assertThat(client.get("/cameras").body())
        .contains("Kept as bench-camera.", "from 5 of 5 pictures of 640 x 480 px");
    String json = client.get("/cameras/bench-camera.json").body();
    assertThat(json).contains("padtrue/camera/1");
    client.files("/cameras", Map.of("bench-camera.json", json.getBytes(StandardCharsets.UTF_8)));
    assertThat(client.get(AT).body())
        .contains("<option>bench-camera</option>", "<option>bench-camera-2</option>");
    assertThat(client.post("/cameras/bench-camera-2/delete", Map.of()).statusCode()).isEqualTo(303);
    assertThat(client.get(AT).body()).doesNotContain("bench-camera-2");
    try (Browser b = Browser.open()) {
      b.go(server.address() + "cameras");
      b.see("h1");
      Look.at(b, "cameras");
      b.go(server.address() + AT.substring(1));
      b.click("details summary");
      b.see("#teach");
      b.script("document.querySelector('#distance').scrollIntoView();");
      Look.at(b, "picture-options");
    }
  }

  @Test
  void whatCannotBeIsRefusedAndNothingIsKept() throws IOException {
    String script = "\"><script>alert(1)</script>";
    List<String> before = everything();
    for (Map<String, String> bad :
        List.of(
            Map.of("distance", "-5"),
            Map.of("distance", script),
            Map.of("distance", "NaN"),
            Map.of("scale", "40"),
            Map.of("closeUps", "yes", "scale", "0"),
            Map.of("closeUps", "yes", "scale", script),
            Map.of("closeUps", "yes", "turned", "1e9"),
            Map.of("closeUps", "yes", "axisU", "-1"),
            Map.of("closeUps", "yes", "panels", "yes"),
            Map.of("camera", "../../secret"),
            Map.of("camera", script),
            Map.of("teach", script),
            Map.of("teach", "U1@0x0"),
            Map.of("teach", "x".repeat(3000)))) {
      HttpResponse<String> r = client.files(AT, Map.of("a.png", new byte[] {1}), bad);
      assertThat(r.statusCode()).as(bad.toString().substring(0, 10)).isIn(400, 404);
      assertThat(r.body()).doesNotContain("<script>alert");
    }
    for (Map<String, String> bad :
        List.of(
            Map.of("grid", "9", "pitch", "5"),
            Map.of("grid", "2x2", "pitch", "5"),
            Map.of("grid", script, "pitch", "5"),
            Map.of("grid", "9x6", "pitch", "0"),
            Map.of("grid", "9x6", "pitch", script))) {
      HttpResponse<String> r =
          client.files("/cameras/calibrate", Map.of("a.png", new byte[] {1}), bad);
      assertThat(r.statusCode()).as(bad.toString()).isEqualTo(400);
    }
    assertThat(client.files("/cameras", Map.of("c.json", "{}".getBytes(StandardCharsets.UTF_8))))
        .extracting(HttpResponse::statusCode)
        .isEqualTo(400);
    assertThat(client.get("/cameras/..%2f..%2fsecret.json").statusCode()).isIn(400, 404);
    assertThat(client.post("/cameras/nobody/delete", Map.of()).statusCode()).isEqualTo(404);
    assertThat(client.post(AT + "/device", Map.of("name", "x")).statusCode()).isEqualTo(400);
    // a list that leads out of the folder is no picture list
    Map<String, byte[]> list =
        Map.of(
            "shots.csv", "file,ref\n../../about.properties,U1\n".getBytes(StandardCharsets.UTF_8));
    client.files(AT, list, Map.of("closeUps", "yes", "scale", "40"));
    waited(client, AT + "/state");
    assertThat(client.get(AT).body()).contains("which was not sent along");
    for (String path :
        List.of("/cameras", "/cameras/calibrate", "/cameras/x/delete", AT + "/device")) {
      HttpResponse<String> bare =
          client.send(
              client
                  .request(path)
                  .header("Content-Type", "application/x-www-form-urlencoded")
                  .POST(Client.form(Map.of("name", "x")))
                  .build());
      assertThat(bare.statusCode()).as(path).isEqualTo(403);
    }
    assertThat(everything()).filteredOn(f -> !f.contains("/pictures/shots.csv")).isEqualTo(before);
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
