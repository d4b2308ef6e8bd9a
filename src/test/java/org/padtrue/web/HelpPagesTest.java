package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.FieldSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.web.help.Handbook;
import org.padtrue.web.server.WebOptions;

/** The handbook under Help: every page, its links and pictures, and nothing else. */
class HelpPagesTest {
  static final List<String> NAMES = Handbook.NAMES;
  private static final Path SOURCE = Path.of("src/site/markdown");
  private static final Pattern HEADING = Pattern.compile("(?m)^#{1,3} (.+)$");
  private static final Pattern TABLE = Pattern.compile("(?m)^\\|(?:-+:?\\|)+$");
  private static final Pattern TO = Pattern.compile("(?:href|src)=\"([^\"]+)\"");

  @TempDir static Path dir;
  private static WebServer server;
  private static PageClient client;

  @BeforeAll
  static void start() {
    server =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
    client = new PageClient(server);
  }

  @AfterAll
  static void stop() {
    server.close();
  }

  private static String address(String name) {
    return name.equals("index") ? "/help" : "/help/" + name;
  }

  private static String body(String page) {
    return page.substring(page.indexOf("<main"));
  }

  @ParameterizedTest
  @FieldSource("NAMES")
  void aPageShowsItsHeadingsTablesAndMenu(String name) throws Exception {
    // code blocks hold lines that only look like headings
    String source = Files.readString(SOURCE.resolve(name + ".md")).replaceAll("(?s)```.*?```", "");
    String page = client.page(address(name));
    HEADING
        .matcher(source)
        .results()
        .map(m -> m.group(1).replace("'", "&#39;"))
        .forEach(h -> assertThat(page.replace("'", "&#39;")).contains(">" + h + "</h"));
    assertThat(page.split("<table>", -1).length - 1)
        .isEqualTo((int) TABLE.matcher(source).results().count());
    assertThat(page).doesNotContain(".md\"", "|---", "style=", "<script>");
    for (String other : NAMES) {
      assertThat(page).contains("<a href=\"" + address(other) + "\"");
    }
    assertThat(page).contains("<a href=\"" + address(name) + "\" aria-current=\"page\"");
    assertThat(page).contains("<a href=\"/help\" aria-current=\"page\">Help</a>");
  }

  @ParameterizedTest
  @FieldSource("NAMES")
  void whatAPageLeadsToIsThere(String name) {
    Set<String> to = new TreeSet<>();
    String page = body(client.page(address(name)));
    TO.matcher(page).results().forEach(m -> to.add(m.group(1)));
    for (String t : to) {
      if (t.startsWith("#")) {
        assertThat(page).contains("id=\"" + t.substring(1) + "\"");
      } else {
        assertThat(t).startsWith("/help");
        assertThat(client.get(t).statusCode()).as(t).isEqualTo(200);
      }
    }
  }

  @Test
  void picturesAreServedAsPictures() {
    HttpResponse<String> r = client.get("/help/images/panel.png");
    assertThat(r.statusCode()).isEqualTo(200);
    assertThat(r.headers().firstValue("Content-Type")).contains("image/png");
    assertThat(r.body().getBytes(StandardCharsets.UTF_8).length).isGreaterThan(10_000);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/help/nothing",
        "/help/index.md",
        "/help/INDEX",
        "/help/images",
        "/help/images/nothing.png",
        "/help/images/..%2findex.md",
        "/help/..%2fschema%2fjob.schema.json",
        "/help/%2e%2e%2fsamples%2fREADME",
        "/help/method/more"
      })
  void anyOtherNameIsNoPage(String path) {
    HttpResponse<String> r = client.get(path);
    assertThat(r.statusCode()).isBetween(400, 404);
    assertThat(r.body()).doesNotContain("<h1>Handbook", "$schema");
    if (r.statusCode() == 404) {
      assertThat(r.body()).contains("There is no such").contains("To the jobs");
    }
  }

  @Test
  void otherPagesLeadToHelp() {
    assertThat(client.page("/")).contains("<a href=\"/help\">Help</a>");
    assertThat(client.page("/log")).contains("<a href=\"/help\">Help</a>");
  }
}
