package org.padtrue.demo;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.padtrue.gauge.GaugeForm;

/**
 * Fills in the form of a gauge study with known errors (a seed with a typical draw): invented
 * readings for {@code samples/gauge}.
 */
final class RepeatsMaker {
  static final Path FILE = Path.of("samples", "gauge", "repeats.csv");
  static final double READING_SD = 0.006;
  static final double REGISTRATION_SD = 0.003;
  static final double OPERATOR_SD = 0.004;
  static final double PART_SD = 0.030;
  static final double ROTATION_SD = 0.08;
  static final double BIAS_X = 0.012;
  static final double BIAS_Y = -0.005;

  private static final long SEED = 3;
  private static final List<String> REFS =
      List.of(
          "1/1/R2", "1/1/R17", "1/2/C12", "1/2/LD1", "2/1/Q1", "2/2/U4", "3/1/C12", "3/1/LD2",
          "3/2/R12", "3/2/L1");
  private static final List<String> OPERATORS = List.of("A", "B", "C");

  private final Random random;
  private final Map<String, double[]> drawn = new HashMap<>();

  private RepeatsMaker(long seed) {
    random = new Random(seed);
  }

  /** The filled-in form. */
  static String text() {
    return text(SEED);
  }

  private static String text(long seed) {
    RepeatsMaker m = new RepeatsMaker(seed);
    StringBuilder b = new StringBuilder("# Invented readings; samples/README.md says how.\n");
    for (String line : GaugeForm.lines(REFS, OPERATORS, 3)) {
      boolean reading = Character.isDigit(line.charAt(0));
      b.append(reading ? m.filledIn(line) : line).append('\n');
    }
    return b.toString();
  }

  /** A line without its three empty cells, and the readings. */
  private String filledIn(String line) {
    String[] c = line.split(",");
    double[] part = values("part " + c[1], PART_SD, PART_SD, 0.25);
    double[] operator = values("operator " + c[2], OPERATOR_SD, OPERATOR_SD, 0.02);
    double[] session = values("session " + c[0], REGISTRATION_SD, REGISTRATION_SD, 0);
    // Camera and person look along the machine's axes: seen from a turned panel the other way.
    double way = c[4].equals("180") ? -1 : 1;
    double x = part[0] + session[0] + way * (BIAS_X + operator[0]) + normal(READING_SD);
    double y = part[1] + session[1] + way * (BIAS_Y + operator[1]) + normal(READING_SD);
    double r = part[2] + operator[2] + normal(ROTATION_SD);
    return line.substring(0, line.length() - 2)
        + String.format(Locale.ROOT, "%.3f,%.3f,%.2f", x, y, r);
  }

  private double[] values(String key, double sdX, double sdY, double sdRotation) {
    return drawn.computeIfAbsent(
        key, k -> new double[] {normal(sdX), normal(sdY), normal(sdRotation)});
  }

  private double normal(double sd) {
    return sd * random.nextGaussian();
  }

  /** Writes the sample; to be run in the project's folder. */
  public static void main(String[] args) throws IOException {
    Files.createDirectories(FILE.getParent());
    Files.write(FILE, text().getBytes(StandardCharsets.UTF_8));
  }
}
