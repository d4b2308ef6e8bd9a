package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.Study;
import org.padtrue.web.server.WebOptions;

/**
 * kill -9 while the forms of the loop are sent: what was acknowledged is there, nothing is half
 * there. {@code -Dpadtrue.full=true} kills 30 times.
 */
class KilledInTheLoopTest {
  private static final int KILLS = Study.runs("kills", 1, 30);
  private static final String GAUGE = "/jobs/placements/gauge/study-1";

  @TempDir Path dir;

  @Test
  void nothingAcknowledgedIsLostAndEveryPageStands() throws Exception {
    Path ws = dir.resolve("ws");
    Random random = new Random(8);
    Map<String, String> kept = new LinkedHashMap<>();
    int port = 0;
    int sent = 0;
    for (int k = 0; k < KILLS; k++) {
      ServeProcess.Running s = ServeProcess.start(ws, port);
      port = s.port();
      Client c = new Client(s.address());
      if (k == 0) {
        c.files(
            "/jobs", Map.of("placements.csv", Boards.placements(), "first.csv", Boards.article(1)));
        c.files("/jobs/placements/files", Map.of("second.csv", Boards.article(2)));
        c.post("/jobs/placements/gauge", Map.of("operators", "Ann, Bo", "trials", "2"));
      }
      int before = sent;
      AtomicBoolean dead = new AtomicBoolean();
      Thread killer = killer(s, dead, 500 + random.nextInt(700));
      while (!dead.get()) {
        try {
          sent += send(c, sent, kept) ? 1 : 0;
        } catch (UncheckedIOException e) {
          break;
        }
      }
      killer.join();
      assertThat(sent).isGreaterThan(before);
    }
    try (WebServer s = WebServer.start(WebOptions.local(ws, ws + "/log.db", 0))) {
      Client c = new Client(s.address());
      for (String page :
          new String[] {
            "/",
            "/jobs/placements",
            "/articles/first/first-article",
            "/articles/second/which",
            "/articles/second/check",
            "/cameras",
            GAUGE,
            "/log/events"
          }) {
        assertThat(c.get(page).statusCode()).as(page).isEqualTo(200);
      }
      kept.forEach((page, text) -> assertThat(c.get(page).body()).as(page).contains(text));
    }
    System.out.printf("killed %d times among %d forms of the loop: none lost%n", KILLS, sent);
  }

  private static Thread killer(ServeProcess.Running s, AtomicBoolean dead, int after) {
    Thread t =
        new Thread(
            () -> {
              try {
                Thread.sleep(after);
                s.kill();
                dead.set(true);
              } catch (InterruptedException e) {
                throw new IllegalStateException(e);
              }
            });
    t.start();
    return t;
  }

  /** One form after another; what it says is looked for later. */
  private static boolean send(Client c, int n, Map<String, String> kept) {
    String text = "said-" + n;
    switch (n % 6) {
      case 0 -> {
        boolean ok =
            c.post("/articles/first/first-article", Map.of("partNumber", text)).statusCode() == 303;
        // a form that was not acknowledged may be there or not
        keep(kept, "/articles/first/first-article", "said-", ok);
        return ok;
      }
      case 1 -> {
        String dx = "0." + (1000 + n % 9000);
        boolean ok =
            c.post(GAUGE + "/1", Map.of("unit", "mm", "dx0", dx, "dy0", "0.1")).statusCode() == 303;
        keep(kept, GAUGE, "1 of 10", ok);
        return ok;
      }
      case 2 -> {
        boolean ok =
            c.post("/log/events", Map.of("machine", "M1", "what", "service", "note", text))
                    .statusCode()
                == 303;
        keep(kept, "/log/events?machine=M1", text, ok);
        return ok;
      }
      case 3 -> {
        Map<String, String> two = Map.of("name", text, "count", "8", "panels", "2");
        boolean ok = c.post("/jobs/placements/articles", two).statusCode() == 303;
        keep(kept, "/jobs/placements", text, ok);
        return ok;
      }
      case 4 -> {
        // tied to the first one and let go again
        boolean after = n % 12 == 4;
        Map<String, String> said =
            after ? Map.of("kind", "after", "first", "first") : Map.of("kind", "monitoring");
        return c.post("/articles/second/after", said).statusCode() == 303;
      }
      default -> {
        boolean ok =
            c.post("/jobs/placements/plan", Map.of("count", "8", "name", text)).statusCode() == 303;
        keep(kept, "/jobs/placements", text, ok);
        return ok;
      }
    }
  }

  private static void keep(Map<String, String> kept, String page, String text, boolean ok) {
    if (ok) {
      kept.put(page, text);
    }
  }
}
