package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.Study;
import org.padtrue.web.server.WebOptions;

/**
 * Two hundred browsers look at an article of 800 placements while one person types: each loads the
 * measuring page and the result and then asks for news every three seconds, as the page does.
 * Readers and server share this machine.
 */
class ReadersTest {
  private static final int READERS = 200;
  private static final int PLACEMENTS = 800;
  private static final int SECONDS = Study.runs("readers", 8, 60);

  @TempDir Path dir;

  private static byte[] placements() {
    StringBuilder b = new StringBuilder("Ref,Part,X (mm),Y (mm),Rotation\n");
    String[] parts = {"R0603", "C0603", "SOT23", "R0402"};
    for (int k = 0; k < PLACEMENTS; k++) {
      b.append(
          String.format(
              Locale.ROOT,
              "U%d,%s,%.2f,%.2f,%d\n",
              k + 1,
              parts[k % 4],
              5 + 4.5 * (k % 40),
              4 + 5.5 * (k / 40),
              90 * (k % 3)));
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] article() {
    Random random = new Random(1);
    StringBuilder b = new StringBuilder("ref,dx (um),dy (um),drotation\n");
    for (int k = 0; k < PLACEMENTS; k++) {
      b.append(
          String.format(
              Locale.ROOT,
              "U%d,%.1f,%.1f,%.2f\n",
              k + 1,
              50 + 12 * random.nextGaussian(),
              -20 + 12 * random.nextGaussian(),
              0.1 * random.nextGaussian()));
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void readersAndAWriterAreAnsweredSoon() throws Exception {
    try (WebServer s =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client c = new Client(s.address());
      c.files("/jobs", Map.of("placements.csv", placements(), "panel.csv", article()));
      assertThat(c.get("/articles/panel/result").statusCode()).isEqualTo(200);
      AtomicBoolean over = new AtomicBoolean();
      ExecutorService pool = Executors.newFixedThreadPool(READERS);
      List<Future<List<Double>>> readers = new ArrayList<>();
      for (int k = 0; k < READERS; k++) {
        int first = k;
        readers.add(pool.submit(() -> reads(s.address(), first, over)));
      }
      double[] acknowledged = writes(s.address());
      over.set(true);
      List<Double> all = new ArrayList<>();
      for (Future<List<Double>> f : readers) {
        all.addAll(f.get());
      }
      pool.shutdown();
      double[] read = all.stream().mapToDouble(Double::doubleValue).sorted().toArray();
      System.out.printf(
          Locale.ROOT,
          "%d readers, %d placements: %d answers, median %.3f s, 95 %% within %.3f s; %d entries"
              + " acknowledged, median %.3f s, slowest %.3f s%n",
          READERS,
          PLACEMENTS,
          read.length,
          read[read.length / 2],
          read[read.length * 95 / 100],
          acknowledged.length,
          acknowledged[acknowledged.length / 2],
          acknowledged[acknowledged.length - 1]);
      assertThat(read[read.length / 2]).isLessThan(1);
      assertThat(acknowledged[acknowledged.length / 2]).isLessThan(0.5);
    }
  }

  private static List<Double> reads(String address, int k, AtomicBoolean over) throws Exception {
    List<Double> took = new ArrayList<>();
    Random random = new Random(k);
    // people do not come within one instant
    Thread.sleep(random.nextInt(3000));
    Client own = new Client(address);
    took.add(timed(own, k % 2 == 0 ? "/articles/panel" : "/articles/panel/result"));
    int since = 0;
    while (!over.get()) {
      Thread.sleep(2800 + random.nextInt(400));
      took.add(timed(own, "/articles/panel/entries?since=" + since));
      took.add(timed(own, "/articles/panel/fit"));
      since++;
    }
    return took;
  }

  private static double timed(Client c, String path) {
    long t = System.nanoTime();
    assertThat(c.get(path).statusCode()).as(path).isEqualTo(200);
    return (System.nanoTime() - t) / 1e9;
  }

  private static double[] writes(String address) throws Exception {
    Client c = new Client(address);
    String token = c.token();
    Random random = new Random(2);
    List<Double> took = new ArrayList<>();
    long end = System.nanoTime() + SECONDS * 1_000_000_000L;
    while (System.nanoTime() < end) {
      long t = System.nanoTime();
      var r =
          c.send(
              c.request("/articles/panel/entries")
                  .header("Content-Type", "application/x-www-form-urlencoded")
                  .header("X-Token", token)
                  .POST(
                      Client.form(
                          Map.of(
                              "placement",
                              "P1/1/1/U" + (1 + random.nextInt(PLACEMENTS)),
                              "x",
                              "0.05",
                              "y",
                              "-0.02",
                              "rotation",
                              "",
                              "unit",
                              "mm",
                              "as",
                              "deviation")))
                  .build());
      assertThat(r.statusCode()).isEqualTo(200);
      took.add((System.nanoTime() - t) / 1e9);
      Thread.sleep(300);
    }
    double[] d = took.stream().mapToDouble(Double::doubleValue).toArray();
    Arrays.sort(d);
    return d;
  }
}
