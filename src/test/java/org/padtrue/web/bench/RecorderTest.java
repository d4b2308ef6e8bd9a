package org.padtrue.web.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedTrim;
import org.padtrue.web.Client;
import org.padtrue.web.PageClient;
import org.padtrue.web.RecordableJob;
import org.padtrue.web.WebServer;
import org.padtrue.web.server.WebOptions;

/** Articles in work become articles of the log. */
class RecorderTest {
  @TempDir Path dir;
  private String url;
  private WebServer server;
  private PageClient client;

  @BeforeEach
  void start() throws IOException {
    RecordableJob.in(dir);
    url = dir.resolve("log.db").toString();
    server = WebServer.start(WebOptions.local(dir.resolve("ws"), url, 0));
    client = new PageClient(server);
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private LoggedArticle logged(long id) {
    try (ArticleLog log = ArticleLog.openToRead(url)) {
      return log.article(id).orElseThrow();
    }
  }

  @Test
  void anArticleInWorkIsRecordedWithItsCircumstances() {
    assertThat(client.page("/articles/first/record"))
        .contains("Record first")
        .contains("all trims of second, ");
    HttpResponse<String> r =
        client.post(
            "/articles/first/record",
            "machine",
            "M7",
            "at",
            "2026-03-02T06:10Z",
            "shift",
            "early",
            "operator",
            "A. Example",
            "temperature",
            "23,5",
            "minutesRunning",
            "25",
            "note",
            "first of the batch",
            "trims",
            "scaleXPpm = -120\r\npart A x = 0,02");
    assertThat(r.statusCode()).as(r.body()).isEqualTo(303);
    assertThat(Client.to(r)).isEqualTo("/log/1");
    LoggedArticle a = logged(1);
    assertThat(a.job()).isEqualTo("Board");
    assertThat(a.machine()).isEqualTo("M7");
    assertThat(a.measuredAt()).isEqualTo(Instant.parse("2026-03-02T06:10:00Z"));
    assertThat(a.conditions().temperatureC()).isEqualTo(23.5);
    assertThat(a.conditions().humidityPercent()).isNaN();
    assertThat(a.conditions().operator()).isEqualTo("A. Example");
    assertThat(a.notes()).isEqualTo("first of the batch");
    assertThat(a.placements()).hasSize(36);
    assertThat(a.trims())
        .extracting(LoggedTrim::name, LoggedTrim::increment)
        .containsExactly(
            org.assertj.core.groups.Tuple.tuple("scaleXPpm", -120.0),
            org.assertj.core.groups.Tuple.tuple("part A x", 0.02));
    assertThat(a.attachments()).extracting(t -> t.file()).containsExactly("first.csv");
    assertThat(client.page("/log/1")).contains("first of the batch");
  }

  @Test
  void theSameArticleTwiceIsRefusedWithTheLogsSentence() {
    client.post("/articles/first/record");
    HttpResponse<String> again = client.post("/articles/first/record", "machine", "M2");
    assertThat(again.statusCode()).isEqualTo(400);
    assertThat(again.body())
        .contains("the same article is in the log already as number 1 (machine M1, measured ")
        .contains("nothing was recorded");
    assertThat(client.page("/log")).contains("1 article, newest first");
  }

  /** The trims of the first article's result stand with the second, once. */
  @Test
  void trimsOfAnEarlierArticleAreRecordedWithTheNext() {
    client.post("/articles/first/record");
    HttpResponse<String> r = client.post("/articles/second/record", "trimsOf", "first");
    assertThat(r.statusCode()).as(r.body()).isEqualTo(303);
    LoggedTrim shift =
        logged(2).trims().stream().filter(t -> t.name().equals("shiftX")).findFirst().orElseThrow();
    assertThat(shift.increment()).isCloseTo(-0.12, within(0.01));
    assertThat(shift.sourceHash()).matches("[0-9a-f]{64}");
    assertThat(client.post("/articles/second/record", "trimsOf", "second").statusCode())
        .isEqualTo(400);
    assertThat(client.post("/articles/second/record", "trimsOf", "nowhere").statusCode())
        .isEqualTo(404);
  }

  @Test
  void whatCannotBeUnderstoodIsAskedForAgainAndNothingIsRecorded() {
    String[][] wrong = {
      {"temperature", "warm", "'warm' in temperature is no number"},
      {"humidity", "140", "beyond 0 to 100"},
      {"at", "yesterday", "is not a time; write it like 2026-03-02T06:10"},
      {"at", "2126-03-02T06:10", "lies ahead"},
      {"trims", "scale = 1", "'scale = 1' is no trim"},
      {"trims", "shiftX", "is no trim; write one a line"},
      {"machine", "m".repeat(81), "holds more than 80 characters"}
    };
    for (String[] w : wrong) {
      HttpResponse<String> r = client.post("/articles/first/record", w[0], w[1]);
      assertThat(r.statusCode()).isEqualTo(400);
      assertThat(r.body()).contains(w[2]);
    }
    assertThat(client.bare("/articles/first/record").statusCode()).isIn(401, 403);
    assertThat(Path.of(url)).doesNotExist();
  }
}
