package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** A question at the door, asked and answered on pages. */
class DoorPagesTest {
  @TempDir Path dir;

  private Path only(String what) throws IOException {
    try (Stream<Path> s = Files.list(dir.resolve("ws").resolve(what))) {
      List<Path> all = s.toList();
      assertThat(all).hasSize(1);
      return all.get(0);
    }
  }

  /** A row of deviations, 8 mm to the right. */
  private static String moved(String row) {
    String[] c = row.split(",", -1);
    if (c[0].equals("ref")) {
      return row;
    }
    c[1] = String.valueOf(Double.parseDouble(c[1]) + 8000);
    return String.join(",", c);
  }

  @Test
  void theAnswerIsKeptInTheJob() throws IOException {
    String far =
        new String(Boards.article(3), StandardCharsets.UTF_8)
            .lines()
            .map(DoorPagesTest::moved)
            .collect(Collectors.joining("\n"));
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put("board.csv", Boards.placements());
    files.put("first.csv", far.getBytes(StandardCharsets.UTF_8));
    try (WebServer s =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client c = new Client(s.address());
      c.get("/");
      assertThat(c.files("/jobs", files).statusCode()).isEqualTo(303);
      String article = "/articles/" + only("articles").getFileName();
      String page = c.get(article + "/result").body();
      assertThat(page)
          .containsPattern(
              "first.csv: as given everything sits \\+8\\.0\\d\\d mm in x and [-+]0\\.0\\d\\d mm in"
                  + " y from nominal, farther than the longest part measured \\(5 mm\\); look at"
                  + " unit, origin and side of what was measured\\.<")
          .contains("It is really so")
          .doesNotContain("--as-is")
          .doesNotContain("What to change");
      assertThat(c.fit(String.valueOf(only("articles").getFileName())))
          .contains("what was measured looks like a mistake");

      // the log takes no nonsense either
      HttpResponse<String> r = c.post(article + "/record", Map.of("machine", "M1"));
      assertThat(r.statusCode()).isEqualTo(400);
      assertThat(r.body()).contains("say so where the article's result is shown");
      assertThat(dir.resolve("log.db")).doesNotExist();

      assertThat(c.post(article + "/as-is", Map.of("key", "turned")).statusCode()).isEqualTo(400);
      r = c.post(article + "/as-is", Map.of("key", "shift"));
      assertThat(Client.to(r)).isEqualTo(article + "/result");
      assertThat(c.get(article + "/result").body()).contains("What to change");
      assertThat(Files.readString(only("jobs").resolve("job.json")))
          .contains("\"shift\"")
          .contains("\"placements\"");
    }
  }
}
