package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.cli.Program;
import org.padtrue.web.server.WebOptions;
import org.padtrue.words.WordScan;

/** Files looked at without a job, and two of them compared, by the command's code. */
class InspectWalkTest {
  @TempDir Path dir;
  private WebServer server;
  private Client client;

  @BeforeEach
  void serve() {
    server =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
    client = new Client(server.address());
  }

  @AfterEach
  void stop() {
    server.close();
  }

  /** The same board with y counted downwards, in another unit and in another order. */
  private static byte[] other() {
    List<String> lines =
        new String(Boards.placements(), StandardCharsets.UTF_8).lines().skip(1).toList();
    StringBuilder b = new StringBuilder("Designator;Comment;X (um);Y (um);Rotation\n");
    for (int k = lines.size() - 1; k >= 0; k--) {
      String[] c = lines.get(k).split(",");
      double x = 1000 * Double.parseDouble(c[2]);
      double y = -1000 * Double.parseDouble(c[3]);
      b.append(String.join(";", c[0], c[1], "" + x, "" + y, c[4])).append('\n');
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void twoFilesAreComparedAsTheCommandDoes() throws IOException {
    Path one = Files.write(dir.resolve("placements.csv"), Boards.placements());
    Path two = Files.write(dir.resolve("layout.csv"), other());
    String command = Program.run("inspect", one.toString(), two.toString());
    try (Browser b = Browser.open()) {
      b.go(server.address());
      b.driver.findElement(org.openqa.selenium.By.partialLinkText("Look at files")).click();
      b.see("#one");
      Look.at(b, "inspect");
      b.files("#one", one);
      b.files("#two", two);
      b.click("button.main");
      b.says("What differs");
      Look.at(b, "inspect-two");
      String page = b.body();
      // every line that the command says stands on the page
      for (String line : command.lines().toList()) {
        String text = line.length() > 12 && !line.startsWith(" ") ? line.substring(12) : line;
        String plain = text.strip().replaceAll("\\s+", " ");
        if (!plain.isEmpty() && !plain.contains("/") && !plain.contains("{")) {
          assertThat(page.replaceAll("\\s+", " ")).contains(plain);
        }
      }
      assertThat(page).contains("axes (y = down) in the job of one of the two");
      assertThat(command).contains("\"axes\": {\"y\": \"down\"}");
    }
    // nothing is kept
    assertThat(jobs()).isEmpty();
    assertThat(dir.resolve("ws/incoming")).isEmptyDirectory();
  }

  private List<Path> jobs() throws IOException {
    try (Stream<Path> s = Files.list(dir.resolve("ws/jobs"))) {
      return s.toList();
    }
  }

  @Test
  void whatCannotBeReadIsSaidInASentence() throws IOException {
    String script = "<script>alert(1)</script>";
    Map<String, String> bad =
        Map.of(
            "job.json", "{\"placements\": \"x.csv\"}",
            "empty.csv", "",
            "words.csv", script + ",x,y\n" + script + ",a,b\n",
            "bytes.csv", "\u0000\u0001\u0002");
    for (Map.Entry<String, String> f : bad.entrySet()) {
      HttpResponse<String> r =
          client.files(
              "/inspect", Map.of(f.getKey(), f.getValue().getBytes(StandardCharsets.UTF_8)));
      assertThat(r.statusCode()).as(f.getKey()).isIn(200, 400);
      assertThat(r.body()).as(f.getKey()).contains("problem").doesNotContain("<script>alert");
      assertThat(r.body()).doesNotContain(dir.toString());
      assertThat(WordScan.faultsOfPage(r.body())).as(f.getKey()).isEmpty();
    }
    assertThat(client.post("/inspect", Map.of("step", "x")).statusCode()).isEqualTo(400);
    HttpResponse<String> bare =
        client.send(
            client
                .request("/inspect")
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(Client.form(Map.of("step", "x")))
                .build());
    assertThat(bare.statusCode()).isEqualTo(403);
    assertThat(jobs()).isEmpty();
  }
}
