package org.padtrue.load.placement;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.table.CellReader;
import org.padtrue.load.table.CellReader.UnitSource;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Table;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;

/**
 * The unit of a placement file and how it was known. Where nobody states it, millimetres are taken
 * if the placements then span a plausible board; else the user must say.
 *
 * <p>Plausible (common practice, from memory): panels are at most 700 mm long, strips more; 20
 * parts and more stand at least 0.3 mm and at most 50 mm apart on average.
 *
 * @param bareUnit unit of numbers without one
 * @param source how it was known, in words
 * @param assumed true when nobody stated it
 * @param problems that it cannot be told
 */
record UnitCheck(LengthUnit bareUnit, String source, boolean assumed, List<Problem> problems) {
  private static final double LONGEST_MM = 700;
  private static final double STRIP_WIDTH_MM = 60;
  private static final double WIDE_MM = 250;
  private static final double SPARSE_MM = 50;
  private static final double DENSE_MM = 0.3;
  private static final int MANY = 20;

  static UnitCheck of(
      String file, int headerLine, List<PlacementRow> rows, CellReader cells, Table table) {
    LengthUnit stated = cells.unit(Field.X);
    if (cells.used().contains(UnitSource.SUFFIX)) {
      LengthUnit suffix = cells.suffix();
      LengthUnit shown = suffix == null ? LengthUnit.MM : suffix;
      if (cells.used().size() == 1) {
        return new UnitCheck(
            stated == null ? shown : stated, "behind every value", false, List.of());
      }
    }
    if (stated == null && cells.someBare()) {
      return new UnitCheck(
          LengthUnit.MM,
          "behind some values only",
          false,
          List.of(
              Problem.at(
                  file,
                  headerLine,
                  "some positions have a unit behind them and others have none",
                  "say \"units\": \"mm\", \"mil\", \"inch\" or \"um\" in the job for those"
                      + " without")));
    }
    if (stated != null) {
      return new UnitCheck(stated, source(table, cells), false, List.of());
    }
    String trouble = implausible(rows);
    List<Problem> problems = new ArrayList<>();
    if (trouble != null) {
      problems.add(
          Problem.at(
              file,
              headerLine,
              "no unit is stated, and " + trouble,
              "say \"units\": \"mm\", \"mil\", \"inch\" or \"um\" in the job"));
    }
    return new UnitCheck(LengthUnit.MM, "stated nowhere, taken as mm", true, problems);
  }

  private static String source(Table table, CellReader cells) {
    if (table.header().unit(Field.X).isPresent()) {
      return "in the header";
    }
    return table.statedUnit().map(u -> "in line " + u.line()).orElse("in the job");
  }

  private static @Nullable String implausible(List<PlacementRow> rows) {
    double[] xs = values(rows, true);
    double[] ys = values(rows, false);
    if (xs.length < 2) {
      return null;
    }
    int count = rows.size();
    double w = spread(xs);
    double h = spread(ys);
    double longSide = Math.max(w, h);
    double shortSide = Math.min(w, h);
    double apart = Math.sqrt(w * h / count);
    boolean large =
        longSide > LONGEST_MM && shortSide > STRIP_WIDTH_MM || longSide > 3 * LONGEST_MM;
    boolean sparse = shortSide > WIDE_MM && apart > SPARSE_MM;
    boolean dense = count >= MANY && w > 0 && h > 0 && apart < DENSE_MM;
    if (large || sparse) {
      return String.format(
          Locale.ROOT, "the placements span %.4g x %.4g, which is much for mm", w, h);
    }
    return dense
        ? String.format(
            Locale.ROOT, "%d placements on %.3g x %.3g stand too close for mm", count, w, h)
        : null;
  }

  private static double[] values(List<PlacementRow> rows, boolean x) {
    double[] v = new double[rows.size()];
    int n = 0;
    for (PlacementRow r : rows) {
      double c = x ? r.filePose().xMm() : r.filePose().yMm();
      if (r.fitted() && !Double.isNaN(c)) {
        v[n++] = c;
      }
    }
    return Spread.sorted(v, n);
  }

  /** Range, without the outer 5 % at both ends where there are many: parts may be parked. */
  private static double spread(double[] sorted) {
    int cut = sorted.length < 8 ? 0 : Math.max(1, sorted.length / 20);
    double[] kept = Arrays.copyOfRange(sorted, cut, sorted.length - cut);
    return kept[kept.length - 1] - kept[0];
  }
}
