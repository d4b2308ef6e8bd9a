package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** Clients that send a byte a second hold up nobody. */
class SlowBodiesTest {
  /** More than the server has threads. */
  private static final int CLIENTS = 300;

  private static final double MOST_SECONDS_FOR_OTHERS = 5;
  private static final int SECONDS = 5;

  @TempDir Path dir;

  @Test
  void othersAreServed() throws Exception {
    try (WebServer server =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client c = new Client(server.address());
      c.files("/jobs", Map.of("placements.csv", Boards.placements()));
      String head =
          "POST /jobs HTTP/1.1\r\nHost: localhost:"
              + server.port()
              + "\r\nCookie: "
              + c.cookie()
              + "\r\n"
              + "Content-Type: application/x-www-form-urlencoded\r\n"
              + "Content-Length: 100000\r\n\r\n";
      List<Socket> slow = new ArrayList<>();
      try {
        for (int k = 0; k < CLIENTS; k++) {
          Socket s = new Socket("127.0.0.1", server.port());
          slow.add(s);
          s.getOutputStream().write(head.getBytes(StandardCharsets.ISO_8859_1));
        }
        double worst = 0;
        for (int t = 0; t < SECONDS; t++) {
          long start = System.nanoTime();
          assertThat(c.get("/").statusCode()).isEqualTo(200);
          assertThat(c.get("/jobs/placements").statusCode()).isEqualTo(200);
          worst = Math.max(worst, (System.nanoTime() - start) / 1e9);
          drip(slow);
          Thread.sleep(1000);
        }
        System.out.printf("%d slow clients: others waited %.2f s at most%n", CLIENTS, worst);
        assertThat(worst).isLessThan(MOST_SECONDS_FOR_OTHERS);
      } finally {
        for (Socket s : slow) {
          s.close();
        }
      }
    }
  }

  private static void drip(List<Socket> slow) throws IOException {
    for (Socket s : slow) {
      s.getOutputStream().write('x');
    }
  }
}
