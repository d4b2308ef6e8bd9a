package org.padtrue.web.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
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
import org.padtrue.history.LoggedArticle;
import org.padtrue.web.Client;
import org.padtrue.web.InventedLog;
import org.padtrue.web.PageClient;
import org.padtrue.web.WebServer;
import org.padtrue.web.server.WebOptions;

/** The pages of the log over HTTP: list, article, comparison, sign-off. */
class LogPagesTest {
  private static final String HOSTILE = "\"><script>alert('x')</script>";

  @TempDir static Path dir;
  private static String url;
  private static WebServer server;
  private static PageClient client;

  @BeforeAll
  static void start() {
    url = dir.resolve("log.db").toString();
    InventedLog.drifting(url, 60);
    try (ArticleLog log = ArticleLog.open(url)) {
      log.record(InventedLog.article(70, "M2", "Other board", "a note about paste"));
      LoggedArticle a = InventedLog.article(71, HOSTILE, HOSTILE, HOSTILE);
      log.record(a);
    }
    server = WebServer.start(WebOptions.local(dir.resolve("ws"), url, 0));
    client = new PageClient(server);
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  /** Numbers of the articles that a page of the list has, in its order. */
  private static List<Integer> listed(String page) {
    Matcher m = Pattern.compile("name=\"id\" value=\"(\\d+)\"").matcher(page);
    List<Integer> all = new ArrayList<>();
    while (m.find()) {
      all.add(Integer.parseInt(m.group(1)));
    }
    return all;
  }

  @Test
  void theListIsNewestFirstInPagesOfFifty() {
    String first = client.page("/log");
    List<Integer> one = listed(first);
    assertThat(one).hasSize(50).startsWith(62, 61, 60, 59).endsWith(13);
    assertThat(first).contains("62 articles, newest first").contains("Page 1 of 2");
    assertThat(first).contains("href=\"/log?page=2\"").doesNotContain("rel=\"prev\"");
    assertThat(listed(client.page("/log?page=2"))).startsWith(12).endsWith(1);
    assertThat(listed(client.page("/log?page=999"))).endsWith(1);
  }

  @Test
  void theListIsFilteredAndKeepsWhatWasAskedFor() {
    assertThat(listed(client.page("/log?machine=M2"))).containsExactly(61);
    assertThat(listed(client.page("/log?job=Other+board"))).containsExactly(61);
    assertThat(listed(client.page("/log?text=ABOUT+Paste"))).containsExactly(61);
    assertThat(listed(client.page("/log?text=a7.csv"))).containsExactly(8);
    // three a day from 06:10 UTC: the third day begins with article 7, at whatever clock
    List<Integer> days = listed(client.page("/log?machine=M1&from=2026-01-06&to=2026-01-06"));
    assertThat(days).hasSizeBetween(2, 3).isSubsetOf(2, 3, 4, 5, 6, 7);
    assertThat(listed(client.page("/log?shift=late&operator=operator+2&machine=M1")))
        .hasSize(10)
        .allMatch(id -> (id - 1) % 2 == 1 && (id - 1) % 3 == 1);
    String page = client.page("/log?machine=M1&from=2026-01-06&text=note");
    assertThat(page)
        .contains("<option value=\"M1\" selected>M1</option>")
        .contains("name=\"from\" type=\"date\" value=\"2026-01-06\"")
        .contains("maxlength=\"80\" value=\"note\"");
    assertThat(client.page("/log?from=yesterday"))
        .contains("'yesterday' is no day; write it like 2026-03-02.");
    assertThat(client.page("/log?text=nowhere")).contains("No article is like that.");
    assertThat(client.page("/log?machine=M1&page=1")).contains("/log?machine=M1&amp;page=2");
  }

  @Test
  void anArticleShowsWhatWasRecorded() {
    String page = client.page("/log/" + (InventedLog.TRIMMED + 1));
    assertThat(page)
        .contains("Invented board on machine M1")
        .contains("early")
        .contains("operator 2")
        .contains("460 min")
        .contains("6 measured, 5 used")
        .contains("note 40")
        .contains("00ff".repeat(16))
        .contains("left out: a gross error")
        .contains("every job of the machine")
        .contains("\u221260");
    assertThat(page).contains("href=\"/log/compare?a=40&amp;b=41\"");
    // a trim that was not entered here is not shown here
    assertThat(client.page("/log/40")).contains("None were recorded.");
    assertThat(client.get("/log/999").statusCode()).isEqualTo(404);
    assertThat(client.get("/log/999").body()).contains("There is no article number 999");
    assertThat(client.get("/log/1x").statusCode()).isEqualTo(404);
  }

  @Test
  void nothingThatWasRecordedBecomesMarkup() {
    for (String path :
        List.of("/log", "/log/62", "/log/compare?a=61&b=62", "/log?text=%3Cscript%3Ealert")) {
      String page = client.page(path);
      assertThat(page).doesNotContain("<script>alert");
      // as a text, and as the value of an attribute
      assertThat(page)
          .containsPattern("\"&gt;&lt;script&gt;|&#34;>&lt;script>|value=\"&lt;script>");
    }
  }

  /** The words are compared, as colour alone tells nobody. */
  @Test
  void twoArticlesAreComparedTermByTerm() {
    String page = client.page("/log/compare?a=1&b=60");
    Matcher rows =
        Pattern.compile("<th scope=\"row\">([^<]+)</th><td>(?:<strong>)?([^<]+)").matcher(page);
    List<String> differing = new ArrayList<>();
    List<String> alike = new ArrayList<>();
    while (rows.find()) {
      (rows.group(2).startsWith("differs: ") ? differing : alike).add(rows.group(1));
    }
    assertThat(differing)
        .contains("nozzle N2, x (turns with the part)", "scale x")
        .doesNotContain("scale y");
    assertThat(alike).contains("scale y", "nozzle N1, x (turns with the part)");
    assertThat(page).contains(differing.size() + " of 8 terms that can be compared differ");
    assertThat(client.page("/log/compare?a=5&b=5")).contains("Nothing differs: all 8 terms");
    assertThat(client.page("/log/compare?a=1&b=61")).contains("different machines");
  }

  @Test
  void theListLeadsToTheComparisonOfTwoTicked() {
    HttpResponse<String> r = client.get("/log/compare?id=9&id=7");
    assertThat(r.statusCode()).isEqualTo(303);
    assertThat(Client.to(r)).isEqualTo("/log/compare?a=7&b=9");
    assertThat(client.get("/log/compare?id=9").body()).contains("1 box is ticked");
    assertThat(client.get("/log/compare?id=9&id=8&id=7").statusCode()).isEqualTo(400);
    assertThat(client.get("/log/compare").body()).contains("go to the log and tick two");
    assertThat(client.get("/log/compare?a=1&b=999").statusCode()).isEqualTo(404);
  }

  @Test
  void signOffsAreAddedAndWithdrawnAndAllStayVisible() {
    assertThat(client.bare("/log/3/sign-off", "name", "A", "role", "B").statusCode())
        .isEqualTo(403);
    assertThat(client.post("/log/3/sign-off", "name", " ", "role", "quality").body())
        .contains("A sign-off needs your name and your role.");
    HttpResponse<String> r =
        client.post(
            "/log/3/sign-off", "name", "A. Example", "role", "quality", "note", "for\r\nlot 7");
    assertThat(r.statusCode()).isEqualTo(303);
    assertThat(Client.to(r)).isEqualTo("/log/3#sign-offs");
    client.post("/log/3/sign-off", "name", HOSTILE, "role", HOSTILE, "note", HOSTILE);
    String page = client.page("/log/3");
    assertThat(page).contains("A. Example").contains("for\nlot 7").contains("holds");
    assertThat(page).doesNotContain("<script>alert");
    assertThat(client.page("/log?text=a2.csv")).contains("and 1 more");
    Matcher m = Pattern.compile("/log/3/sign-off/(\\d+)/withdraw").matcher(page);
    assertThat(m.find()).isTrue();
    String path = "/log/3/sign-off/" + m.group(1) + "/withdraw";
    assertThat(client.post(path, "name", "C. Example", "role", "lead").body())
        .contains("a withdrawal needs a reason");
    assertThat(client.post(path.replace("/3/", "/4/"), "name", "C", "role", "l").statusCode())
        .isEqualTo(404);
    client.post(path, "name", "C. Example", "role", "lead", "note", "wrong reel");
    String after = client.page("/log/3");
    assertThat(after)
        .contains("A. Example")
        .contains("Withdraws sign-off " + m.group(1))
        .contains("withdrawn by")
        .contains("wrong reel")
        .doesNotContain(path);
    assertThat(client.post(path, "name", "C", "role", "l", "note", "again").body())
        .contains("has been withdrawn already");
  }

  /** Corrected after it was signed off: both articles say so. */
  @Test
  void aLaterCorrectionIsVisibleOnBothArticles(@TempDir Path own) {
    String log = own.resolve("own.db").toString();
    InventedLog.drifting(log, 2);
    try (WebServer s = WebServer.start(WebOptions.local(own.resolve("ws"), log, 0))) {
      PageClient c = new PageClient(s);
      c.post("/log/2/sign-off", "name", "A. Example", "role", "quality");
      try (ArticleLog l = ArticleLog.open(log)) {
        l.correct(2, InventedLog.article(1, "M1", InventedLog.JOB, "n"), "wrong shift");
      }
      assertThat(c.page("/log/2"))
          .contains("Corrected by number 3")
          .contains("wrong shift")
          .contains("the sign-off is for what stands here, not for number 3")
          .contains("href=\"/log/3\"")
          .doesNotContain("Sign off article");
      assertThat(c.page("/log/3"))
          .contains("Corrects number 2: wrong shift. That one was signed off (A. Example, quality)")
          .contains("does not cover what stands here")
          .contains("href=\"/log/2\"")
          .contains("Nobody has signed this article off.");
      assertThat(c.page("/log")).contains("corrects 2").contains("corrected by 3");
      assertThat(c.post("/log/2/sign-off", "name", "A", "role", "q").body())
          .contains("has been corrected by number 3; sign off number 3");
    }
  }

  @Test
  void fieldsThatAreTooLongAreRefused() {
    assertThat(client.post("/log/2/sign-off", "name", "a".repeat(81), "role", "q").body())
        .contains("'name' holds more than 80 characters.");
    assertThat(client.get("/log?text=" + "a".repeat(3000)).statusCode()).isEqualTo(400);
    assertThat(client.page("/log/2")).contains("Nobody has signed this article off.");
  }
}
