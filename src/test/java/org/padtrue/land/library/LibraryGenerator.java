package org.padtrue.land.library;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * Makes {@code shared/parts.json} from {@code shared/outlines.csv}; run {@code main} in the
 * project's folder after a change to the table. A test holds the file against it.
 */
final class LibraryGenerator {
  private static final int COLUMNS = 22;
  private static final String WIDE = "wide:";

  private LibraryGenerator() {}

  /** Writes the library. */
  public static void main(String[] args) throws IOException {
    Files.writeString(Path.of("shared/parts.json"), generate(Path.of("shared/outlines.csv")));
  }

  static String generate(Path outlines) throws IOException {
    List<String> parts = new ArrayList<>();
    for (String line : Files.readAllLines(outlines, StandardCharsets.UTF_8)) {
      if (!line.startsWith("#") && !line.startsWith("name,")) {
        parts.add(part(line.split(",", COLUMNS)));
      }
    }
    return "{\"parts\": [\n" + String.join(",\n", parts) + "\n]}\n";
  }

  private record Box(double x, double y, double length, double width) {
    String json() {
      return "{\"x\": "
          + n(x)
          + ", \"y\": "
          + n(y)
          + ", \"length\": "
          + n(length)
          + ", \"width\": "
          + n(width)
          + "}";
    }

    Box outward(double by) {
      return new Box(x - by, y, length, width);
    }
  }

  private static String part(String[] c) {
    double[] v = new double[COLUMNS];
    for (int i = 5; i < COLUMNS - 1; i++) {
      v[i] = i == 15 || i == 16 ? 0 : Double.parseDouble(c[i]);
    }
    List<Box> ends = new ArrayList<>();
    List<Box> lands = new ArrayList<>();
    switch (c[1]) {
      case "two", "dual" -> dual(c, v, ends, lands);
      case "quad" -> quad(c, v, ends, lands);
      case "grid" -> grid(c, v, ends, lands);
      default -> throw new IllegalArgumentException(c[1]);
    }
    double centre = v[19];
    if (centre > 0) {
      ends.add(new Box(0, 0, centre, centre));
      lands.add(new Box(0, 0, centre, centre));
    }
    double spanX = Math.max(v[5], v[9]);
    double spanY = c[1].equals("quad") ? Math.max(v[6], v[9] + v[6] - v[5]) : v[6];
    double top = v[20] > 0 ? v[20] : v[7];
    return "{\"name\": \""
        + c[0]
        + "\", \"kind\": \""
        + (c[2].equals("flatLead") ? "gullWing" : c[2])
        + "\", \"symmetry\": "
        + c[3]
        + ", \"selfCentres\": "
        + c[4]
        + ",\n \"body\": {\"length\": "
        + n(v[5])
        + ", \"width\": "
        + n(v[6])
        + ", \"height\": "
        + n(v[7])
        + "},\n \"terminations\": ["
        + join(ends)
        + "],\n \"lands\": ["
        + join(lands)
        + "],\n \"envelope\": {\"length\": "
        + n(spanX)
        + ", \"width\": "
        + n(spanY)
        + ", \"zMin\": 0, \"zMax\": "
        + n(top)
        + "}}";
  }

  private static String join(List<Box> boxes) {
    return boxes.stream().map(Box::json).collect(Collectors.joining(", "));
  }

  private static LandRule.Goals goals(String[] c, double[] v) {
    return LandRule.Goals.of(c[2], v[9], v[14]);
  }

  private static LandRule rule(String[] c, double[] v) {
    return LandRule.of(goals(c, v), v[8], v[9], v[10], v[11], v[12], v[13]);
  }

  /**
   * Left column from above (pin 1 as wide as the tab where the table says so), then right column
   * from below.
   */
  private static void dual(String[] c, double[] v, List<Box> ends, List<Box> lands) {
    LandRule r = rule(c, v);
    double width = (v[12] + v[13]) / 2;
    double tab = v[18] > 0 ? (v[17] + v[18]) / 2 : width;
    double tabLand = v[18] > 0 ? LandRule.width(goals(c, v), v[17], v[18]) : r.x();
    boolean wideLead = c[15].startsWith(WIDE);
    double[] left = positions(c[15].replace(WIDE, ""), v[14]);
    for (int i = 0; i < left.length; i++) {
      boolean wide = wideLead && i == 0;
      column(ends, lands, -1, left[i], v, wide ? tab : width, r, wide ? tabLand : r.x());
    }
    if (wideLead) {
      tab = width;
      tabLand = r.x();
    }
    double[] right = positions(c[16], v[14]);
    if (!c[16].contains(";") && !c[16].equals("0")) {
      right = Arrays.stream(right).map(y -> -y).toArray();
    }
    for (double y : right) {
      column(ends, lands, 1, y, v, tab, r, tabLand);
    }
  }

  private static void column(
      List<Box> ends,
      List<Box> lands,
      int side,
      double y,
      double[] v,
      double width,
      LandRule r,
      double landWidth) {
    double term = (v[10] + v[11]) / 2;
    double span = (v[8] + v[9]) / 2;
    ends.add(new Box(side * (span - term) / 2, y, term, width));
    lands.add(new Box(side * (r.z() + r.g()) / 4, y, (r.z() - r.g()) / 2, landWidth));
  }

  /** A number is a count at the pitch, from above; else positions. */
  private static double[] positions(String text, double pitch) {
    if (text.contains(";") || text.equals("0")) {
      return Arrays.stream(text.split(";")).mapToDouble(Double::parseDouble).toArray();
    }
    int n = Integer.parseInt(text);
    double[] y = new double[n];
    for (int i = 0; i < n; i++) {
      y[i] = pitch * ((n - 1) / 2.0 - i);
    }
    return y;
  }

  /**
   * Left from above, bottom from the left, right from below, top from the right; on a body that is
   * longer along y the span grows alike.
   */
  private static void quad(String[] c, double[] v, List<Box> ends, List<Box> lands) {
    LandRule r = rule(c, v);
    double width = (v[12] + v[13]) / 2;
    for (int quarter = 0; quarter < 4; quarter++) {
      boolean row = quarter % 2 == 1;
      double out = row ? (v[6] - v[5]) / 2 : 0;
      List<Box> e = new ArrayList<>();
      List<Box> l = new ArrayList<>();
      for (double y : positions(c[row ? 16 : 15], v[14])) {
        column(e, l, -1, y, v, width, r, r.x());
      }
      for (int i = 0; i < e.size(); i++) {
        ends.add(turned(e.get(i).outward(out), quarter));
        lands.add(turned(l.get(i).outward(out), quarter));
      }
    }
  }

  private static Box turned(Box b, int quarters) {
    Box t = b;
    for (int i = 0; i < quarters; i++) {
      t = new Box(-t.y, t.x, t.width, t.length);
    }
    return t;
  }

  /** Rows from above, each from the left. */
  private static void grid(String[] c, double[] v, List<Box> ends, List<Box> lands) {
    double ball = LandRule.round((v[12] + v[13]) / 2);
    double land = LandRule.ballLand(ball);
    double[] at = positions(c[15], v[14]);
    for (double y : at) {
      for (double x : at) {
        ends.add(new Box(-x, y, ball, ball));
        lands.add(new Box(-x, y, land, land));
      }
    }
  }

  /** A number with at most four decimals and no trailing zeros. */
  private static String n(double v) {
    String s = String.format(Locale.ROOT, "%.4f", v);
    s = s.replaceAll("0+$", "").replaceAll("\\.$", "");
    return s.equals("-0") ? "0" : s;
  }
}
