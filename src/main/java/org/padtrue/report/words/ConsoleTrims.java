package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.result.TrimLine;

/**
 * The trim sheet on the console: each value beside its standard error, what takes out most first.
 */
final class ConsoleTrims {
  private static final int NAME = 24;
  private static final String ROW = "%-" + NAME + "s %13s %13s %15s %-5s %4s %7s";

  /** One value across x and y: neither a length nor a rotation. */
  private static final String WIDE = "%-" + NAME + "s %27s %15s %-5s %4s %7s";

  private ConsoleTrims() {}

  /** Lines of at most 87 columns, the first one the header. */
  static List<String> of(List<TrimLine> trims) {
    List<String> lines = new ArrayList<>();
    lines.add(row("values to ADD", "x, um", "y, um", "rotation, deg", "frame", "RMS", "outside"));
    for (TrimLine t : trims) {
      lines.addAll(line(t));
    }
    return lines;
  }

  private static List<String> line(TrimLine t) {
    TrimText v = TrimText.of(t);
    List<String> lines = new ArrayList<>();
    String unit = TrimText.units(t).get(0);
    String name = name(t.where(), unit.equals("mm") ? "" : ", " + unit);
    if (v.squareness().applies()) {
      lines.add(
          String.format(
                  Locale.ROOT,
                  WIDE,
                  name(t.where(), ", mrad"),
                  v.squareness().bare(),
                  "",
                  t.frame(),
                  v.rms(),
                  v.outside())
              .stripTrailing());
      return lines;
    }
    boolean values = moves(v.x()) || moves(v.y()) || moves(v.rotation());
    if (!v.turn().isEmpty()) {
      String turn = "turn by " + v.turn();
      lines.add(
          row(name, "", "", turn, t.frame(), values ? "" : v.rms(), values ? "" : v.outside()));
    }
    if (values || v.turn().isEmpty()) {
      lines.add(
          row(
              v.turn().isEmpty() ? name : "  and its offset",
              v.x().bare(),
              v.y().bare(),
              v.rotation().bare(),
              t.frame(),
              v.rms(),
              v.outside()));
    }
    return lines;
  }

  private static boolean moves(TrimText.Value v) {
    return v.applies() && !v.value().equals("0");
  }

  private static String row(String... cells) {
    return String.format(Locale.ROOT, ROW, (Object[]) cells).stripTrailing();
  }

  /** The name, and the unit where it is not that of the column. */
  private static String name(String where, String unit) {
    String s =
        where.replace("common to all parts", "of all parts").replace("zero of all", "of all");
    int most = NAME - unit.length();
    return (s.length() <= most ? s : s.substring(0, most - 3) + "...") + unit;
  }
}
