package org.padtrue.bench;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.padtrue.drift.DriftOptions;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.Conditions;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedParameter;
import org.padtrue.history.LoggedPlacement;
import org.padtrue.log.DriftStudy;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Levels;

/**
 * The log at size: 2,000 articles of 500 placements and 44 parameters. Prints what `record` adds
 * above its fit and what the study of drift takes, beside a plain SELECT of the same rows in the
 * same run. Run its main with a folder that has half a gigabyte free.
 */
public final class LogBenchmark {
  private static final int ARTICLES = 2_000;
  private static final int PLACEMENTS = 500;
  private static final int TYPES = 10;
  private static final int ROUNDS = 5;

  private LogBenchmark() {}

  /** Builds the log and prints medians of five. */
  public static void main(String[] args) throws Exception {
    Path file = Path.of(args[0]).resolve("bench-log.db");
    Files.deleteIfExists(file);
    Random random = new Random(1);
    try (ArticleLog log = ArticleLog.open(file.toString())) {
      for (int i = 0; i < ARTICLES; i++) {
        log.record(article(i, random));
      }
    }
    Millis[] record = new Millis[ROUNDS];
    Millis[] study = new Millis[ROUNDS];
    Millis[] parameters = new Millis[ROUNDS];
    Millis[] everything = new Millis[ROUNDS];
    for (int r = 0; r < ROUNDS; r++) {
      LoggedArticle a = article(ARTICLES + r, random);
      record[r] =
          millis(
              () -> {
                try (ArticleLog log = ArticleLog.open(file.toString())) {
                  log.record(a);
                }
              });
      parameters[r] = millis(() -> select(file, "fit_parameter"));
      everything[r] = millis(() -> select(file, "placement"));
      study[r] =
          millis(
              () -> {
                try (ArticleLog log = ArticleLog.openToRead(file.toString())) {
                  DriftStudy.of(log, null, null, DriftOptions.withDefaults());
                }
              });
    }
    print("record, above its fit", record);
    print("SELECT of all parameters", parameters);
    print("SELECT of all placements", everything);
    print("study of drift", study);
    System.out.printf(
        Locale.ROOT,
        "study / SELECT of the parameters it reads: %.1f%nrecord / SELECT of all parameters:"
            + " %.2f%n",
        median(study) / median(parameters),
        median(record) / median(parameters));
    Files.deleteIfExists(file);
  }

  private interface Work {
    void run() throws Exception;
  }

  /** Time on the wall and processor time of all threads, in milliseconds. */
  private record Millis(double wall, double processor) {}

  /** Processor time too: what else the machine does hardly moves it. */
  private static Millis millis(Work w) throws Exception {
    OperatingSystemMXBean os = (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
    long processor = os.getProcessCpuTime();
    long wall = System.nanoTime();
    w.run();
    return new Millis((System.nanoTime() - wall) / 1e6, (os.getProcessCpuTime() - processor) / 1e6);
  }

  private static void select(Path file, String table) throws Exception {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement s = c.createStatement();
        ResultSet r = s.executeQuery("SELECT * FROM " + table)) {
      int columns = r.getMetaData().getColumnCount();
      long sum = 0;
      while (r.next()) {
        for (int k = 1; k <= columns; k++) {
          sum += String.valueOf(r.getObject(k)).length();
        }
      }
      if (sum == 0) {
        throw new IllegalStateException("nothing was read");
      }
    }
  }

  private static double median(Millis[] v) {
    return Arrays.stream(v).mapToDouble(Millis::wall).sorted().toArray()[v.length / 2];
  }

  private static void print(String what, Millis[] v) {
    double[] wall = Arrays.stream(v).mapToDouble(Millis::wall).sorted().toArray();
    double[] processor = Arrays.stream(v).mapToDouble(Millis::processor).sorted().toArray();
    System.out.printf(
        Locale.ROOT,
        "%-26s median of %d: %8.1f ms (%.1f to %.1f), %8.1f ms of processor time%n",
        what,
        v.length,
        wall[v.length / 2],
        wall[0],
        wall[v.length - 1],
        processor[v.length / 2]);
  }

  private static LoggedArticle article(int i, Random random) {
    List<LoggedPlacement> placements = new ArrayList<>();
    for (int k = 0; k < PLACEMENTS; k++) {
      placements.add(
          new LoggedPlacement(
              "P1",
              1 + k % 3,
              1,
              "R" + k,
              "T" + k % TYPES,
              Levels.of(Factor.NOZZLE, "N" + k % 4),
              k,
              k % 50,
              90 * (k % 4),
              0.02 * random.nextGaussian(),
              0.02 * random.nextGaussian(),
              random.nextGaussian(),
              Double.NaN,
              true,
              ""));
    }
    List<LoggedParameter> parameters = new ArrayList<>();
    for (String name : List.of("shiftX", "shiftY")) {
      parameters.add(new LoggedParameter("P1", name, "mm", 0.01 * random.nextGaussian(), 0.003));
    }
    for (String name : List.of("scaleXPpm", "scaleYPpm")) {
      parameters.add(new LoggedParameter("", name, "ppm", 30 * random.nextGaussian(), 25));
    }
    for (String level : levels()) {
      for (String axis : List.of("x", "y", "rotation")) {
        String unit = axis.equals("rotation") ? "deg" : "mm";
        parameters.add(
            new LoggedParameter(
                "", level + " " + axis, unit, 0.004 * random.nextGaussian(), 0.003));
      }
    }
    return new LoggedArticle(
        "J",
        "a" + i,
        "M1",
        Instant.parse("2026-01-01T00:00:00Z").plus(3L * i, ChronoUnit.HOURS),
        new Conditions("", "", 23 + random.nextGaussian(), Double.NaN, 60, Double.NaN),
        "paste",
        "fiducials",
        "",
        placements,
        parameters,
        List.of(),
        List.of());
  }

  private static List<String> levels() {
    List<String> all = new ArrayList<>();
    for (int t = 0; t < TYPES; t++) {
      all.add("part T" + t);
    }
    for (int n = 0; n < 4; n++) {
      all.add("nozzle N" + n);
    }
    return all;
  }
}
