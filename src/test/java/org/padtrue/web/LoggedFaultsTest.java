package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** What an article marks as wrong, recorded from a page and shown by the log. */
class LoggedFaultsTest {
  @TempDir Path dir;

  @Test
  void theLogShowsThem() throws IOException {
    String article =
        new String(Boards.article(3), StandardCharsets.UTF_8)
            .replaceAll("(?m)^U7,.*$", "U7,missing,,")
            .replaceAll("(?m)^U9,.*$", "U9,tombstone,,");
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put("board.csv", Boards.placements());
    files.put("first.csv", article.getBytes(StandardCharsets.UTF_8));
    try (WebServer s =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client c = new Client(s.address());
      c.get("/");
      c.files("/jobs", files);
      assertThat(c.post("/articles/first/record", Map.of("machine", "M1")).statusCode())
          .isEqualTo(303);
      assertThat(c.get("/log/1").body())
          .contains("Marked as faults")
          .contains("missing 1, tombstone 1")
          .contains("34 measured, 34 used")
          .contains("left out: missing")
          .contains("left out: tombstone")
          .doesNotContain("NaN");
      assertThat(c.get("/log").statusCode()).isEqualTo(200);
    }
  }
}
