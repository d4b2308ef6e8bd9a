package org.padtrue.web.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.history.ArticleLog;
import org.padtrue.web.InventedLog;
import org.padtrue.web.PageClient;
import org.padtrue.web.WebServer;
import org.padtrue.web.server.WebOptions;

/** The pages of drift over HTTP. */
class DriftPagesTest {
  private static final int ARTICLES = 60;

  @TempDir static Path dir;
  private static String url;
  private static WebServer server;
  private static PageClient client;

  @BeforeAll
  static void start() {
    url = dir.resolve("log.db").toString();
    InventedLog.drifting(url, ARTICLES);
    server = WebServer.start(WebOptions.local(dir.resolve("ws"), url, 0));
    client = new PageClient(server);
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  private static List<String> all(String regex, String page) {
    Matcher m = Pattern.compile(regex).matcher(page);
    List<String> found = new ArrayList<>();
    while (m.find()) {
      found.add(m.group(1));
    }
    return found;
  }

  @Test
  void theAnswerComesFirstThenTheSeries() {
    String page = client.page("/drift");
    int answer = page.indexOf("What drifts, and what to do");
    int caution = page.indexOf("Change offsets only as a qualified person");
    int plot = page.indexOf("<svg");
    assertThat(answer).isPositive().isLessThan(caution);
    assertThat(caution).isLessThan(plot);
    assertThat(page.substring(answer, plot))
        .contains("nozzle N2")
        .contains("scaleXPpm")
        .contains("leave them alone");
    assertThat(page).contains("60 articles, 2026-01-05 to 2026-01-24, 8 series");
    assertThat(all("<strong>(drifts)</strong>", page)).hasSize(2);
  }

  @Test
  void everyArticleOfASeriesIsALinkWithItsWords() {
    String page = client.page("/drift/series?name=scaleXPpm");
    assertThat(all("<a href=\"/log/(\\d+)\"><title>", page)).hasSize(ARTICLES);
    assertThat(page).contains("<title>Article 1, 2026-01-05 06:10: +").contains(" ppm</title>");
    // observed is named only where a trim is in force
    assertThat(all("<title>(Article \\d+)[^<]*observed", page))
        .hasSize(ARTICLES - InventedLog.TRIMMED);
    assertThat(all(">(trim [^<]*)<", page)).containsExactly("trim \u221260 ppm");
    assertThat(client.page("/log/1")).contains("Article 1");
  }

  /** Beyond the limits: another shape and words, not colour alone. */
  @Test
  void whatIsBeyondLimitsHasAnotherShapeAndSaysSo() {
    String page = client.page("/drift/series?name=nozzle+N2+x");
    List<String> diamonds = all("<title>([^<]*)</title><path class=\"dot out\"", page);
    List<String> circles = all("<title>([^<]*)</title><circle class=\"dot\"", page);
    assertThat(diamonds).isNotEmpty().allMatch(t -> t.contains("beyond the limits: "));
    assertThat(circles).hasSize(ARTICLES - diamonds.size()).noneMatch(t -> t.contains("beyond"));
    List<String> numbers = all("class=\"number\"[^>]*>(\\d+)<", page);
    assertThat(numbers).isNotEmpty().hasSameSizeAs(all("<li>([^<]+)", page));
    assertThat(page).contains(">step +").contains("Look at nozzle N2");
    assertThat(client.page("/drift/series?name=nozzle+N1+x"))
        .contains("Steady; leave it alone.")
        .doesNotContain("dot out");
  }

  /** Nothing is reckoned again until the log has grown; then the page has the new article. */
  @Test
  void aStudyIsKeptUntilTheLogGrows(@TempDir Path own) {
    String log = own.resolve("own.db").toString();
    InventedLog.drifting(log, 12);
    try (WebServer s = WebServer.start(WebOptions.local(own.resolve("ws"), log, 0))) {
      PageClient c = new PageClient(s);
      assertThat(c.page("/drift")).contains("12 articles");
      assertThat(c.page("/drift")).isEqualTo(c.page("/drift"));
      try (ArticleLog l = ArticleLog.open(log)) {
        l.record(InventedLog.article(12, "M1", InventedLog.JOB, ""));
      }
      assertThat(c.page("/drift")).contains("13 articles");
      try (ArticleLog l = ArticleLog.open(log)) {
        l.record(InventedLog.article(99, "M<b>9", "J<i>", ""));
      }
      String other = c.page("/drift");
      assertThat(other).contains("Drift of machine M&lt;b&gt;9").doesNotContain("<b>9");
      assertThat(other).contains("This cannot be told yet");
      assertThat(c.page("/drift?machine=M1")).contains("Drift of machine M1");
      assertThat(c.get("/drift?machine=M1&job=none").statusCode()).isEqualTo(404);
      assertThat(c.get("/drift?machine=M7").body()).contains("has no machine 'M7'");
      assertThat(c.get("/drift/series?machine=M1&name=none").statusCode()).isEqualTo(404);
    }
  }

  @Test
  void withoutALogThePagesSayHowOneComesAbout(@TempDir Path own) {
    String none = own.resolve("none.db").toString();
    try (WebServer s = WebServer.start(WebOptions.local(own.resolve("ws"), none, 0))) {
      PageClient c = new PageClient(s);
      assertThat(c.page("/log")).contains("Nothing is recorded yet.").contains("padtrue record");
      assertThat(c.page("/drift")).contains("Nothing is recorded yet.").contains("eight articles");
      assertThat(c.get("/log/1").statusCode()).isEqualTo(404);
      assertThat(c.get("/drift/series?name=x").statusCode()).isEqualTo(404);
      assertThat(own.resolve("none.db")).doesNotExist();
    }
  }
}
