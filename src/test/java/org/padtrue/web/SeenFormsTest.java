package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.WebElement;
import org.padtrue.web.server.WebOptions;

/** Two people have one form open: nothing is kept over what one of them has not seen. */
class SeenFormsTest {
  private static final String RECORD = "/articles/first/first-article";
  private static final String SESSION = "/jobs/placements/gauge/study-1/1";

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
    client.post("/jobs/placements/gauge", Map.of("operators", "Ann", "trials", "2", "count", "3"));
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private String hidden(String page, String name) {
    Matcher m =
        Pattern.compile("name=\"" + name + "\" value=\"([^\"]*)\"")
            .matcher(client.get(page).body());
    assertThat(m.find()).as(name).isTrue();
    return m.group(1);
  }

  @Test
  void theSecondOfTwoIsToldAndMayChoose() {
    String seen = hidden(RECORD, "seen");
    Map<String, String> ann = Map.of("seen", seen, "partNumber", "4711", "serialNumber", "7");
    Map<String, String> bo = Map.of("seen", seen, "partNumber", "4712", "serialNumber", "7");
    assertThat(client.post(RECORD, ann).statusCode()).isEqualTo(303);
    HttpResponse<String> r = client.post(RECORD, bo);
    assertThat(r.statusCode()).isEqualTo(409);
    assertThat(r.body())
        .contains("another page kept \u201c4711\u201d; you typed \u201c4712\u201d")
        .contains("Keep mine over theirs")
        .contains("value=\"4712\"");
    assertThat(r.body()).doesNotContain("kept \u201c7\u201d");
    // nothing was stored over it
    assertThat(client.get(RECORD).body()).contains("value=\"4711\"").doesNotContain("4712");
    // the same said twice is no clash
    assertThat(client.post(RECORD, ann).statusCode()).isEqualTo(303);
    // knowing it, Bo keeps his
    Map<String, String> again = new LinkedHashMap<>(bo);
    again.put("seen", hidden(RECORD, "seen"));
    assertThat(client.post(RECORD, again).statusCode()).isEqualTo(303);
    assertThat(client.get(RECORD).body()).contains("value=\"4712\"");
    assertThat(client.get(RECORD + "/seen").body()).isNotEqualTo(seen);
    assertThat(client.post(RECORD, Map.of("seen", "\"><script>")).statusCode()).isEqualTo(409);
  }

  @Test
  void readingsOfOneSessionAreKeptEachForItself() {
    String none = hidden(SESSION, "seen0");
    assertThat(none).isEqualTo(",,");
    assertThat(client.post(SESSION, reading(none, "0.010", "", "")).statusCode()).isEqualTo(303);
    // another reading, by a page that has not seen the first: both stand
    assertThat(client.post(SESSION, reading(none, "", "0.020", "")).statusCode()).isEqualTo(303);
    assertThat(client.get(SESSION).body()).contains("value=\"0.01\"", "value=\"0.02\"");
    // the same reading otherwise: told, and nothing of it is stored
    HttpResponse<String> r = client.post(SESSION, reading(none, "0.013", "", "0.030"));
    assertThat(r.statusCode()).isEqualTo(409);
    assertThat(r.body())
        .contains("another page kept dx 0.01, dy 0 mm; you typed dx 0.013, dy 0 mm")
        .contains("value=\"0.013\"");
    assertThat(client.get(SESSION).body()).doesNotContain("0.013").doesNotContain("value=\"0.03\"");
    Map<String, String> knowing = new LinkedHashMap<>(reading(none, "0.013", "", "0.030"));
    for (int i = 0; i < 3; i++) {
      knowing.put("seen" + i, hidden(SESSION, "seen" + i));
    }
    knowing.put("dx1", "0.020");
    knowing.put("dy1", "0");
    assertThat(client.post(SESSION, knowing).statusCode()).isEqualTo(303);
    assertThat(client.get(SESSION).body()).contains("0.013", "value=\"0.03\"", "value=\"0.02\"");
  }

  /** A form of three readings; empty: not read. */
  private static Map<String, String> reading(String seen, String a, String b, String c) {
    Map<String, String> f = new LinkedHashMap<>();
    f.put("unit", "mm");
    String[] dx = {a, b, c};
    for (int i = 0; i < 3; i++) {
      f.put("seen" + i, seen);
      f.put("dx" + i, dx[i]);
      f.put("dy" + i, dx[i].isEmpty() ? "" : "0");
    }
    return f;
  }

  @Test
  void theFirstOneIsToldToo() throws IOException {
    try (Browser b = Browser.open()) {
      b.go(server.address() + RECORD.substring(1));
      WebElement part = b.see("#partNumber");
      part.sendKeys("mine");
      client.post(RECORD, Map.of("seen", hidden(RECORD, "seen"), "partNumber", "theirs"));
      b.says("Another page has kept something here since this one was opened.");
      b.click("form[data-seen] button.main");
      b.says("Nothing of yours is stored yet");
      Look.at(b, "record-clash");
      b.click("form[data-seen] button.main");
      b.until(() -> b.all("#partNumber").get(0).getAttribute("value").equals("mine"));
      b.go(server.address() + SESSION.substring(1));
      b.see("input[name=dx0]").sendKeys("12 um");
      b.see("input[name=dy0]").sendKeys("0");
      client.post(SESSION, reading(",,", "0.010", "", ""));
      b.says("Another page has kept something here since this one was opened.");
      b.click("form[data-seen] button.main");
      b.says("another page kept dx 0.01");
      Look.at(b, "gauge-clash");
    }
  }
}
