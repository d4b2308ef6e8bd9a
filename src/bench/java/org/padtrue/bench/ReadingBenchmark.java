package org.padtrue.bench;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementOptions;

/**
 * Reading a placement file beside a plain CSV parser (FastCSV) on the same file, 100,000 rows: the
 * parser only splits and decodes, and adds up the lengths of the cells, so that it cannot leave any
 * out. One run, the two in turn; medians and their ratio.
 *
 * <pre>
 * mvn -q -Pbench compile exec:exec -Dexec.args="-cp %classpath org.padtrue.bench.ReadingBenchmark"
 * </pre>
 */
public final class ReadingBenchmark {
  private static final ThreadMXBean CLOCK = ManagementFactory.getThreadMXBean();
  private static final int ROWS = 100_000;
  private static final int WARM = 12;
  private static final int ROUNDS = 25;

  private ReadingBenchmark() {}

  private interface Task {
    long run() throws IOException;
  }

  /** Prints the table. */
  public static void main(String[] args) throws IOException {
    Path file = Files.createTempFile("placements", ".csv");
    try {
      Files.writeString(file, text());
      Task plain = () -> plain(file);
      Task own = () -> own(file);
      double[] a = new double[ROUNDS];
      double[] b = new double[ROUNDS];
      for (int i = -WARM; i < ROUNDS; i++) {
        double x = millis(plain);
        double y = millis(own);
        if (i >= 0) {
          a[i] = x;
          b[i] = y;
        }
      }
      double[] ratio = new double[ROUNDS];
      for (int i = 0; i < ROUNDS; i++) {
        ratio[i] = b[i] / a[i];
      }
      System.out.printf(Locale.ROOT, "%d rows, %d bytes%n", ROWS, Files.size(file));
      System.out.printf(Locale.ROOT, "plain parser %s ms%n", spread(a));
      System.out.printf(Locale.ROOT, "padtrue      %s ms%n", spread(b));
      System.out.printf(Locale.ROOT, "ratio        %s%n", spread(ratio));
    } finally {
      Files.deleteIfExists(file);
    }
  }

  private static String spread(double[] v) {
    double[] s = v.clone();
    Arrays.sort(s);
    return String.format(
        Locale.ROOT, "%.2f (%.2f to %.2f)", s[s.length / 2], s[0], s[s.length - 1]);
  }

  private static double millis(Task t) throws IOException {
    // processor time of this thread: both work on it alone, and other programs do not count
    long start = CLOCK.getCurrentThreadCpuTime();
    if (t.run() < ROWS) {
      throw new IllegalStateException("rows are missing");
    }
    return (CLOCK.getCurrentThreadCpuTime() - start) / 1e6;
  }

  private static long plain(Path file) {
    long n = 0;
    try (CsvReader<CsvRecord> r = CsvReader.builder().ofCsvRecord(file)) {
      for (CsvRecord row : r) {
        for (String cell : row.getFields()) {
          n += cell.length();
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return n;
  }

  private static long own(Path file) {
    return PlacementFile.read(file, PlacementOptions.withDefaults()).rows().size();
  }

  private static String text() {
    Random random = new Random(16);
    StringBuilder b = new StringBuilder("Ref,Val,Package,PosX (mm),PosY (mm),Rot,Side\n");
    String[] packages = {"R_0603_1608Metric", "C_0402_1005Metric", "SOIC-8_3.9x4.9mm_P1.27mm"};
    for (int i = 0; i < ROWS; i++) {
      b.append('R').append(i + 1).append(",\"10k\",\"");
      b.append(packages[random.nextInt(packages.length)]).append("\",");
      b.append(
          String.format(
              Locale.ROOT,
              "%.4f,%.4f,%.1f,%s%n",
              600 * random.nextDouble(),
              400 * random.nextDouble(),
              90.0 * random.nextInt(4),
              random.nextBoolean() ? "top" : "bottom"));
    }
    return b.toString();
  }
}
