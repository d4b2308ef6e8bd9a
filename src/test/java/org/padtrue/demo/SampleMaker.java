package org.padtrue.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.padtrue.quantity.Angles;

/**
 * Makes the sample of the main job: {@code samples/main-job}. One seeded generator, so the files
 * are always the same; a test holds the committed files against it. Run {@link #main} after a
 * change here.
 */
public final class SampleMaker {
  static final Path FOLDER = Path.of("samples", "main-job");
  private static final long SEED = 20260303L;

  private static final long SECOND_SEED = 20260304L;

  private final Random random;

  private SampleMaker(long seed) {
    random = new Random(seed);
  }

  /** Writes the files into the folder of the sample. */
  public static void main(String[] args) throws IOException {
    Files.createDirectories(FOLDER);
    for (Map.Entry<String, String> f : files().entrySet()) {
      Files.writeString(FOLDER.resolve(f.getKey()), f.getValue());
    }
  }

  /** Text of every file by name. */
  static Map<String, String> files() {
    Map<String, String> files = new LinkedHashMap<>();
    files.put("job.json", job());
    files.put("placements.csv", Layout.HEADER + "\n" + Layout.CSV);
    files.put("parts.json", PartSheet.json());
    files.put("article-1.csv", new SampleMaker(SEED).firstArticle());
    files.put("article-2.csv", new SampleMaker(SECOND_SEED).secondArticle());
    return files;
  }

  private static String job() {
    StringBuilder boards = new StringBuilder();
    for (int[] b : new int[][] {{1, 1}, {1, 2}, {3, 2}}) {
      boards.append(
          String.format(
              Locale.ROOT,
              "%s{\"column\": %d, \"row\": %d, \"x\": %.0f, \"y\": %.0f}",
              boards.length() == 0 ? "" : ",\n               ",
              b[0],
              b[1],
              originX(b[0]),
              originY(b[1])));
    }
    StringBuilder fiducials = new StringBuilder();
    for (int i = 0; i < Layout.FIDUCIALS.length; i++) {
      double[] f = Layout.FIDUCIALS[i];
      fiducials.append(
          String.format(
              Locale.ROOT,
              "%s{\"name\": \"F%d\", \"x\": %.0f, \"y\": %.0f, \"diameter\": 1}",
              i == 0 ? "" : ",\n                  ",
              i + 1,
              f[0],
              f[1]));
    }
    return """
        {
          "name": "Tide gauge logger, main board",
          "units": "mm", "side": "top", "stage": "paste",
          "placements": "placements.csv",
          "parts": "parts.json",
          "panel": {
            "columns": 3, "rows": 2,
            "boards": [BOARDS],
            "fiducials": [FIDUCIALS]
          },
          "acceptanceClass": 2,
          "machine": {
            "resolution": 0.01, "rotationResolution": 0.01,
            "panelRepeatability": {"x": 0.012, "y": 0.012, "rotation": 0.006},
            "accepts": ["registration", "rotation", "scale", "common", "rotationZero",
                        "part", "nozzle", "placement"]
          },
          "measurement": {"reference": "fiducials", "uncertainty": 0.006, "rotationUncertainty": 0.08}
        }
        """
        .replace("BOARDS", boards)
        .replace("FIDUCIALS", fiducials);
  }

  static double originX(int column) {
    return Layout.RAIL + (column - 1) * Layout.PITCH_X;
  }

  static double originY(int row) {
    return Layout.RAIL + (row - 1) * Layout.PITCH_Y;
  }

  private double gauss(double sd) {
    return sd * random.nextGaussian();
  }

  /** A pose in the panel frame. */
  private record Seen(String id, Layout.Part part, double x, double y, double rotation) {
    Seen at(double newX, double newY) {
      return new Seen(id, part, newX, newY, rotation);
    }
  }

  private String firstArticle() {
    List<Seen> seen = new ArrayList<>();
    for (int row = 1; row <= Layout.ROWS; row++) {
      for (int column = 1; column <= Layout.COLUMNS; column++) {
        for (Layout.Part p : Layout.parts()) {
          seen.add(placed(column, row, p));
        }
      }
    }
    spoil(seen);
    seen.removeIf(s -> Planted.NOT_MEASURED.contains(s.id));
    return text("First panel of the batch", "24.5", seen);
  }

  /** The next panel, placed with the trims in force; the slip is in {@link TypedTrims#SLIP}. */
  private String secondArticle() {
    List<Seen> seen = new ArrayList<>();
    double[] registration = {
      gauss(Math.sqrt(2) * Planted.REPEATABILITY),
      gauss(Math.sqrt(2) * Planted.REPEATABILITY),
      gauss(Math.sqrt(2) * Planted.ROTATION_REPEATABILITY)
    };
    for (int row = 1; row <= Layout.ROWS; row++) {
      for (int column = 1; column <= Layout.COLUMNS; column++) {
        for (Layout.Part p : Layout.parts()) {
          double[] aim =
              TypedTrims.aim(
                  originX(column) + p.x(),
                  originY(row) + p.y(),
                  p.rotation(),
                  p.type(),
                  p.nozzle());
          seen.add(placed(column, row, p, aim, registration));
        }
      }
    }
    return text("Second panel of the batch, placed with the trims entered", "24.8", seen);
  }

  private String text(String what, String temperature, List<Seen> seen) {
    StringBuilder out =
        new StringBuilder("# " + what + ", measured on paste before reflow\n")
            .append("# temperature = " + temperature + "\n")
            .append("column,row,ref,x,y,rotation\n");
    for (int i = 0; i < Layout.FIDUCIALS.length; i++) {
      double[] f = Layout.FIDUCIALS[i];
      out.append(
          String.format(
              Locale.ROOT,
              ",,F%d,%.3f,%.3f,%n",
              i + 1,
              f[0] + gauss(Planted.READING),
              f[1] + gauss(Planted.READING)));
    }
    for (Seen s : seen) {
      out.append(line(s));
    }
    return out.toString().replace("\r\n", "\n");
  }

  private static String line(Seen s) {
    String rotation =
        Planted.NO_ROTATION.contains(s.id)
            ? ""
            : String.format(
                Locale.ROOT, "%.2f", Angles.wrap(Math.rint(s.rotation * 100) / 100) + 0.0);
    return s.id.replaceFirst("/", ",").replaceFirst("/", ",")
        + String.format(Locale.ROOT, ",%.3f,%.3f,%s%n", s.x, s.y, rotation);
  }

  private Seen placed(int column, int row, Layout.Part p) {
    double[] aim = {originX(column) + p.x(), originY(row) + p.y(), p.rotation()};
    return placed(column, row, p, aim, new double[3]);
  }

  /**
   * Where a part ends up.
   *
   * @param aim where the machine aims: x, y, rotation in the panel frame
   * @param registration what this panel is shifted and turned by more than the first
   */
  private Seen placed(int column, int row, Layout.Part p, double[] aim, double[] registration) {
    double x = aim[0];
    double y = aim[1];
    double phi = Math.toRadians(Planted.ROTATION + registration[2]);
    double dx =
        Planted.SHIFT_X
            + registration[0]
            + ((1 + Planted.SCALE_X) * Math.cos(phi) - 1) * x
            - (1 + Planted.SCALE_Y) * Math.sin(phi) * y;
    double dy =
        Planted.SHIFT_Y
            + registration[1]
            + (1 + Planted.SCALE_X) * Math.sin(phi) * x
            + ((1 + Planted.SCALE_Y) * Math.cos(phi) - 1) * y;
    double[] type = Planted.TYPES.getOrDefault(p.type(), new double[3]);
    double[] nozzle = Planted.NOZZLES.getOrDefault(p.nozzle(), new double[3]);
    double ox = type[0] + nozzle[0];
    double oy = type[1] + nozzle[1];
    double c = Angles.cosDeg(p.rotation());
    double s = Angles.sinDeg(p.rotation());
    double error = Math.hypot(Planted.SCATTER, Planted.READING);
    double turn =
        Planted.ROTATION
            + registration[2]
            + type[2]
            + nozzle[2]
            + Planted.LIBRARY_TURN.getOrDefault(p.type(), 0)
            + gauss(Math.hypot(Planted.ROTATION_SCATTER, Planted.ROTATION_READING));
    return new Seen(
        column + "/" + row + "/" + p.ref(),
        p,
        x + dx + c * ox - s * oy + gauss(error),
        y + dy + s * ox + c * oy + gauss(error),
        Angles.wrap(aim[2] + turn));
  }

  /** The gross errors, one of each kind; see {@link Planted#GROSS}. */
  private static void spoil(List<Seen> seen) {
    Map<String, Integer> at = new LinkedHashMap<>();
    for (int i = 0; i < seen.size(); i++) {
      at.put(seen.get(i).id, i);
    }
    int diode = at.get("3/1/D2");
    Seen d = seen.get(diode);
    seen.set(diode, new Seen(d.id, d.part, d.x, d.y, Angles.wrap(d.rotation + 180)));

    int a = at.get("1/2/C14");
    int b = at.get("1/2/C15");
    Seen first = seen.get(a);
    Seen second = seen.get(b);
    seen.set(a, new Seen(first.id, first.part, second.x, second.y, second.rotation));
    seen.set(b, new Seen(second.id, second.part, first.x, first.y, first.rotation));

    int slip = at.get("2/2/R16");
    Seen r = seen.get(slip);
    seen.set(slip, r.at(r.x / 10, r.y));

    int swap = at.get("2/1/R12");
    Seen t = seen.get(swap);
    seen.set(swap, t.at(t.x, digitsSwapped(t.y)));
  }

  /** The digits on both sides of the decimal point in each other's place: 13.246 becomes 12.346. */
  private static double digitsSwapped(double v) {
    String s = String.format(Locale.ROOT, "%.3f", v);
    int point = s.indexOf('.');
    char[] c = s.toCharArray();
    char keep = c[point - 1];
    c[point - 1] = c[point + 1];
    c[point + 1] = keep;
    return Double.parseDouble(new String(c));
  }
}
