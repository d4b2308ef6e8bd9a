package org.padtrue.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.padtrue.quantity.Angles;

/**
 * Makes the sample of a history: {@code samples/history}, 120 articles of the main job's board with
 * what {@link PlantedHistory} says. One seeded generator, so the files are always the same; a test
 * holds the committed files against it. Run {@link #main} after a change here.
 */
public final class HistoryMaker {
  static final Path FOLDER = Path.of("samples", "history");
  private static final long SEED = 20260105L;
  private static final Instant START = Instant.parse("2026-01-05T05:50:00Z");

  /** Minutes after the machine was started at which articles are measured, a day. */
  private static final double[] IN_DAY = {4, 18, 60, 200, 500, 620, 740, 860};

  private final Random random = new Random(SEED);

  private HistoryMaker() {}

  /** Writes the files into the folder of the sample. */
  public static void main(String[] args) throws IOException {
    Files.createDirectories(FOLDER.resolve("articles"));
    for (Map.Entry<String, String> f : files().entrySet()) {
      Files.writeString(FOLDER.resolve(f.getKey()), f.getValue());
    }
  }

  /** Text of every file by name. */
  static Map<String, String> files() {
    HistoryMaker m = new HistoryMaker();
    Map<String, String> files = new LinkedHashMap<>();
    files.put("job.json", job());
    List<Article> articles = new ArrayList<>();
    for (int i = 0; i < PlantedHistory.ARTICLES; i++) {
      Article a = m.article(i);
      articles.add(a);
      files.put("articles/" + a.file, a.text);
    }
    files.put("conditions.csv", conditions(articles));
    return files;
  }

  /** The main job, from its own folder, with the registration left to the log. */
  private static String job() {
    return SampleMaker.files()
        .getOrDefault("job.json", "")
        .replace("\"placements.csv\"", "\"../main-job/placements.csv\"")
        .replace("\"parts.json\"", "\"../main-job/parts.json\"")
        .replaceAll("\\s*\"panelRepeatability\": \\{[^}]*\\},", "");
  }

  private record Article(
      String file, Instant at, String shift, double temperature, double running, String text) {}

  private double gauss(double sd) {
    return sd * random.nextGaussian();
  }

  private Article article(int i) {
    int day = i / IN_DAY.length;
    int inDay = i % IN_DAY.length;
    double running = Math.rint(IN_DAY[inDay] + 6 * random.nextDouble());
    Instant at =
        START.plus(day + 2L * (day / 5), ChronoUnit.DAYS).plus((long) running, ChronoUnit.MINUTES);
    boolean early = inDay < 4;
    double temperature =
        Math.rint(
                10
                    * (22
                        + 2.5 * Math.sin(0.9 * day)
                        + 4 * Math.sin(Math.PI * Math.min(running, 700) / 1400)
                        + gauss(0.4)))
            / 10;
    Truth t = truth(i, at, temperature, running);
    return new Article(
        String.format(Locale.ROOT, "a-%03d.csv", i + 1),
        at,
        early ? "early" : "late",
        temperature,
        running,
        text(i, t));
  }

  /** The machine at one article, trims in force counted. */
  private record Truth(
      double shiftX,
      double shiftY,
      double rotation,
      double scaleX,
      double scaleY,
      double nozzleX,
      double[] type) {}

  private Truth truth(int i, Instant at, double temperature, double running) {
    double days = ChronoUnit.SECONDS.between(START, at) / 86400.0;
    double warm = PlantedHistory.PPM_PER_KELVIN * (temperature - PlantedHistory.REFERENCE_C);
    boolean trimmed = i >= PlantedHistory.TRIMMED_FROM;
    double[] type = PlantedHistory.TYPE_OFFSET.clone();
    String[] axes = {"x", "y", "rotation"};
    for (int k = 0; k < 3; k++) {
      type[k] += trimmed ? trim("part " + PlantedHistory.TYPE + " " + axes[k]) : 0;
    }
    return new Truth(
        PlantedHistory.SHIFT_X + gauss(PlantedHistory.REPEATABILITY),
        PlantedHistory.SHIFT_Y
            + gauss(PlantedHistory.REPEATABILITY)
            + PlantedHistory.WARM_UP * Math.exp(-running / PlantedHistory.WARM_UP_MINUTES),
        PlantedHistory.ROTATION + gauss(PlantedHistory.ROTATION_REPEATABILITY),
        PlantedHistory.SCALE_X_PPM
            + PlantedHistory.CREEP_PPM_PER_DAY * days
            + warm
            + (trimmed ? trim("scaleXPpm") : 0),
        PlantedHistory.SCALE_Y_PPM + warm,
        i >= PlantedHistory.NOZZLE_FROM ? PlantedHistory.NOZZLE_STEP : 0,
        type);
  }

  private static double trim(String name) {
    return PlantedHistory.TRIMS.getOrDefault(name, 0.0);
  }

  /** Every third placement of every board, another third on the next; a quick look has fewer. */
  private String text(int i, Truth t) {
    StringBuilder out = new StringBuilder("column,row,ref,dx,dy,drotation\n");
    List<Layout.Part> parts = Layout.parts();
    int every = i % 6 == 5 ? 12 : 3;
    for (int row = 1; row <= Layout.ROWS; row++) {
      for (int column = 1; column <= Layout.COLUMNS; column++) {
        int board = (row - 1) * Layout.COLUMNS + column - 1;
        for (int k = board % every; k < parts.size(); k += every) {
          out.append(line(column, row, parts.get(k), t));
        }
      }
    }
    return out.toString();
  }

  private String line(int column, int row, Layout.Part p, Truth t) {
    double x = SampleMaker.originX(column) + p.x();
    double y = SampleMaker.originY(row) + p.y();
    double phi = Math.toRadians(t.rotation);
    double dx = t.shiftX + 1e-6 * t.scaleX * x - phi * y;
    double dy = t.shiftY + phi * x + 1e-6 * t.scaleY * y;
    boolean type = p.type().equals(PlantedHistory.TYPE);
    double ox = (type ? t.type[0] : 0) + (p.nozzle().equals(PlantedHistory.NOZZLE) ? t.nozzleX : 0);
    double oy = type ? t.type[1] : 0;
    double c = Angles.cosDeg(p.rotation());
    double s = Angles.sinDeg(p.rotation());
    double error = Math.hypot(PlantedHistory.SCATTER, PlantedHistory.READING);
    double turn =
        t.rotation
            + (type ? t.type[2] : 0)
            + gauss(Math.hypot(PlantedHistory.ROTATION_SCATTER, PlantedHistory.ROTATION_READING));
    return String.format(
        Locale.ROOT,
        "%d,%d,%s,%.3f,%.3f,%.2f\n",
        column,
        row,
        p.ref(),
        dx + c * ox - s * oy + gauss(error) + 0.0,
        dy + s * ox + c * oy + gauss(error) + 0.0,
        turn + 0.0);
  }

  private static String conditions(List<Article> articles) {
    Map<String, Double> trims = new TreeMap<>(PlantedHistory.TRIMS);
    StringBuilder out = new StringBuilder("article,at,machine,shift,temperature,minutesRunning");
    trims.keySet().forEach(n -> out.append(",trim ").append(n));
    out.append('\n');
    for (int i = 0; i < articles.size(); i++) {
      Article a = articles.get(i);
      out.append(
          String.format(
              Locale.ROOT,
              "%s,%s,M1,%s,%.1f,%.0f",
              a.file,
              a.at,
              a.shift,
              a.temperature,
              a.running));
      boolean entered = i == PlantedHistory.TRIMMED_FROM;
      trims.forEach((n, v) -> out.append(',').append(entered ? v.toString() : ""));
      out.append('\n');
    }
    return out.toString();
  }
}
