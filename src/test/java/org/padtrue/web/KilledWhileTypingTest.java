package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.Study;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.Entry;
import org.padtrue.web.server.WebOptions;

/** kill -9 of the server while entries come in: what was acknowledged is there afterwards. */
class KilledWhileTypingTest {
  private static final int KILLS = Study.runs("kills", 2, 50);

  @TempDir Path dir;

  @Test
  void noAcknowledgedEntryIsLost() throws Exception {
    Path ws = dir.resolve("ws");
    Random random = new Random(5);
    Map<String, Double> acknowledged = new LinkedHashMap<>();
    int port = 0;
    int entries = 0;
    for (int k = 0; k < KILLS; k++) {
      ServeProcess.Running s = ServeProcess.start(ws, port);
      port = s.port();
      Client c = new Client(s.address());
      if (k == 0) {
        c.files("/jobs", Map.of("placements.csv", Boards.placements()));
        c.post("/jobs/placements/articles", Map.of("name", "A", "count", "12"));
      }
      AtomicBoolean killed = new AtomicBoolean();
      CountDownLatch first = new CountDownLatch(1);
      Thread killer = killer(s, killed, first, 100 + random.nextInt(600));
      entries += type(c, killed, first, acknowledged, random);
      killer.join();
      BenchArticle a = BenchArticle.open("a", ws.resolve("articles/a"));
      acknowledged.forEach(
          (key, dx) ->
              assertThat(a.journal().since(0))
                  .as(key)
                  .anyMatch(e -> e.placement().equals(key) && e.dxMm() == dx));
    }
    // a line cut short by a crash is left out and does not spoil the next
    Path journal = ws.resolve("articles/a/entries.log");
    String text = Files.readString(journal);
    Files.writeString(journal, text + text.substring(0, 40));
    BenchArticle cut = BenchArticle.open("a", ws.resolve("articles/a"));
    long before = cut.journal().last();
    cut.journal().append(java.util.List.of(Entry.measured("P1/1/1/U1", 0.5, 0, 0, "")));
    assertThat(BenchArticle.open("a", ws.resolve("articles/a")).journal().last())
        .isEqualTo(before + 1);
    System.out.printf("killed %d times among %d acknowledged entries: none lost%n", KILLS, entries);
    assertThat(entries).isGreaterThanOrEqualTo(KILLS);
  }

  /** Kills so many ms after the first entry was acknowledged, however long a busy machine takes. */
  private static Thread killer(
      ServeProcess.Running s, AtomicBoolean killed, CountDownLatch first, int after) {
    Thread t =
        new Thread(
            () -> {
              try {
                first.await(30, TimeUnit.SECONDS);
                Thread.sleep(after);
                s.kill();
                killed.set(true);
              } catch (InterruptedException e) {
                throw new IllegalStateException(e);
              }
            });
    t.start();
    return t;
  }

  private static int type(
      Client c,
      AtomicBoolean killed,
      CountDownLatch first,
      Map<String, Double> acknowledged,
      Random random) {
    int n = 0;
    String token;
    try {
      token = c.token();
    } catch (java.io.UncheckedIOException e) {
      return 0;
    }
    while (!killed.get()) {
      String key = "P1/1/1/" + Boards.ref(random.nextInt(36));
      double dx = random.nextInt(2000) / 10000.0;
      Map<String, String> fields =
          Map.of(
              "placement",
              key,
              "x",
              Double.toString(dx),
              "y",
              "0",
              "rotation",
              "",
              "unit",
              "mm",
              "as",
              "deviation");
      try {
        var r =
            c.send(
                c.request("/articles/a/entries")
                    .header("Content-Type", "application/x-www-form-urlencoded")
                    .header("X-Token", token)
                    .POST(Client.form(fields))
                    .build());
        if (r.statusCode() == 200 && r.body().startsWith("saved")) {
          acknowledged.put(key, dx);
          n++;
          first.countDown();
        }
      } catch (java.io.UncheckedIOException e) {
        return n;
      }
    }
    return n;
  }

  @Test
  void twoHundredReadersAreAnswered() throws Exception {
    try (WebServer s =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client c = new Client(s.address());
      c.files(
          "/jobs", Map.of("placements.csv", Boards.placements(), "panel.csv", Boards.article(1)));
      String[] pages = {
        "/", "/jobs/placements", "/articles/panel", "/articles/panel/result", "/articles/panel/fit"
      };
      var pool = java.util.concurrent.Executors.newFixedThreadPool(200);
      java.util.List<java.util.concurrent.Future<Integer>> answers = new java.util.ArrayList<>();
      for (int k = 0; k < 200; k++) {
        int reader = k;
        answers.add(
            pool.submit(
                () -> {
                  Client own = new Client(s.address());
                  int good = 0;
                  for (String p : pages) {
                    good +=
                        own.get(pages[(reader + p.length()) % pages.length]).statusCode() == 200
                            ? 1
                            : 0;
                  }
                  return good;
                }));
      }
      int good = 0;
      for (var a : answers) {
        good += a.get();
      }
      pool.shutdown();
      assertThat(good).isEqualTo(200 * pages.length);
    }
  }

  /** The record to sign comes as a PDF of the article in work. */
  @Test
  void theRecordIsPrinted() throws IOException {
    try (WebServer s =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client c = new Client(s.address());
      c.files(
          "/jobs", Map.of("placements.csv", Boards.placements(), "panel.csv", Boards.article(1)));
      var r = c.get("/articles/panel/first-article.pdf?paper=letter");
      assertThat(r.statusCode()).isEqualTo(200);
      assertThat(r.headers().firstValue("Content-Type")).contains("application/pdf");
      assertThat(r.body()).startsWith("%PDF-").contains("/MediaBox [0.0 0.0 612.0 792.0]");
    }
  }

  /** What a page weighs with all it needs. */
  @Test
  void pagesAreLight() throws IOException {
    try (WebServer s =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client c = new Client(s.address());
      c.files(
          "/jobs", Map.of("placements.csv", Boards.placements(), "panel.csv", Boards.article(1)));
      int shared = 0;
      for (String asset : new String[] {"app.css", "app.js", "map.js", "measure.js", "result.js"}) {
        shared += c.get("/assets/" + asset).body().length();
      }
      System.out.printf("style and scripts together: %d bytes%n", shared);
      assertThat(shared).isLessThan(80_000);
      for (String p :
          new String[] {"/", "/jobs/placements", "/articles/panel", "/articles/panel/result"}) {
        var r = c.get(p);
        assertThat(r.statusCode()).as(p).isEqualTo(200);
        int weight = r.body().length();
        System.out.printf("%-25s %d bytes%n", p, weight);
        assertThat(weight).as(p).isLessThan(200_000);
      }
    }
  }
}
