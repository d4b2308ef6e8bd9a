package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;
import org.padtrue.words.WordScan;

/** Pages of the sample, scanned for what nobody of the trade says. */
class WordsOnPagesTest {
  private static final Path SAMPLE = Path.of("samples/main-job");
  private static final Pattern DRIFT_SERIES = Pattern.compile("href=\"(/drift/[^\"]+)\"");

  @TempDir private Path dir;

  private static void plain(Client c, String path) {
    String html = c.get(path).body();
    assertThat(WordScan.faultsOfPage(html)).as(path).isEmpty();
  }

  @Test
  void jobMeasureResultLog() throws IOException {
    Map<String, byte[]> files = new LinkedHashMap<>();
    for (String f : List.of("job.json", "placements.csv", "parts.json", "article-1.csv")) {
      files.put(f, Files.readAllBytes(SAMPLE.resolve(f)));
    }
    try (WebServer s =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client c = new Client(s.address());
      plain(c, "/");
      assertThat(c.files("/jobs", files).statusCode()).isEqualTo(303);
      String article = "/articles/" + only("articles");
      plain(c, "/jobs/" + only("jobs"));
      plain(c, article);
      plain(c, article + "/result");
      String result = WordScan.text(c.get(article + "/result").body());
      assertThat(result)
          .contains("measured minus nominal, plus = right, up, counter-clockwise as placed")
          .contains("takes out 81 \u00b5m RMS of the next panel")
          .contains("published for chips")
          .contains("Measurement system conditionally acceptable");
      plain(c, article + "/result?off=scale&class=3");
      assertThat(c.post(article + "/record", Map.of("machine", "M1")).statusCode()).isEqualTo(303);
      plain(c, "/log");
      plain(c, "/log/1");
    }
  }

  @Test
  void drift() {
    String url = dir.resolve("log.db").toString();
    InventedLog.drifting(url, 60);
    try (WebServer s = WebServer.start(WebOptions.local(dir.resolve("ws"), url, 0))) {
      Client c = new Client(s.address());
      plain(c, "/drift");
      plain(c, "/log/compare?a=1&b=2");
      Matcher m = DRIFT_SERIES.matcher(c.get("/drift").body());
      assertThat(m.find()).isTrue();
      plain(c, m.group(1).replace("&amp;", "&"));
    }
  }

  private String only(String what) throws IOException {
    try (Stream<Path> all = Files.list(dir.resolve("ws").resolve(what))) {
      return all.findFirst().orElseThrow().getFileName().toString();
    }
  }
}
