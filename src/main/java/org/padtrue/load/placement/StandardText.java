package org.padtrue.load.placement;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.load.standard.StandardData;
import org.padtrue.load.standard.StandardRow;
import org.padtrue.load.table.Table;
import org.padtrue.load.table.TableSpec;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.problem.Problem;

/**
 * A standard file's parts as a placement table: the columns {@code ref, part, x, y, rotation, side,
 * value, fitted}, mm, as seen from the top, numbers to the nanometre.
 *
 * <p>All that works on placement files works on this text; corrected, it is what {@code apply}
 * writes. Rows keep the lines of the standard file, for messages.
 */
final class StandardText {
  private static final int SAMPLE = 3;

  private final StandardData data;
  private final StringBuilder text = new StringBuilder();
  private final List<PlacementRow> rows = new ArrayList<>();
  private final int[] spans;
  private final RefCounts refs = new RefCounts();
  private final boolean anyNotFitted;

  private StandardText(StandardData data) {
    this.data = data;
    this.spans = new int[6 * data.rows().size()];
    this.anyNotFitted = data.rows().stream().anyMatch(r -> !r.fitted());
  }

  static PlacementFile of(StandardData data, PlacementOptions options) {
    return new StandardText(data).file(options);
  }

  private PlacementFile file(PlacementOptions options) {
    List<Problem> problems = new ArrayList<>(data.problems());
    String origin = data.name().replaceAll(".*[/\\\\]", "").replaceAll("\\p{Cntrl}", " ");
    text.append("# placements of ").append(origin).append(" (").append(data.format());
    text.append("); units: mm; bottom as seen from the top\n");
    text.append("ref,part,x,y,rotation,side,value").append(anyNotFitted ? ",fitted\n" : "\n");
    for (StandardRow r : data.rows()) {
      String bad = unprintable(r);
      if (bad.isEmpty()) {
        row(r);
      } else {
        problems.add(
            Problem.at(data.name(), r.line(), bad, "correct it in the program it is from"));
      }
    }
    TextFile file = TextFile.of(data.name(), text.toString());
    Table table = Table.of(file, TableSpec.placements(java.util.Map.of(), null));
    Drawings drawings = Drawings.find(rows);
    Parked parked = Parked.find(rows, drawings);
    return new PlacementFile(
        table,
        options,
        org.padtrue.quantity.LengthUnit.MM,
        rows,
        spans,
        understood(table, drawings, parked),
        problems,
        refs.repeated(),
        data,
        drawings,
        parked);
  }

  private static String unprintable(StandardRow r) {
    if (r.ref().isBlank() || r.part().isBlank()) {
      return "a part has no " + (r.ref().isBlank() ? "reference designator" : "part type");
    }
    String all = r.ref() + r.part() + r.value();
    if (all.chars().anyMatch(Character::isISOControl)) {
      return "the names of " + TextPieces.quoted(r.ref()) + " have control characters";
    }
    return r.ref().startsWith("#")
        ? "the ref " + TextPieces.quoted(r.ref()) + " begins with #"
        : "";
  }

  private void row(StandardRow r) {
    int at = 6 * rows.size();
    cell(r.ref());
    text.append(',');
    cell(r.part());
    text.append(',');
    double x = number(r.pose().xMm(), 3, at);
    text.append(',');
    double y = number(r.pose().yMm(), 3, at + 2);
    text.append(',');
    double turn = number(r.pose().rotationDeg(), 0, at + 4);
    text.append(',').append(r.side().name().toLowerCase(Locale.ROOT)).append(',');
    cell(r.value());
    if (anyNotFitted) {
      text.append(r.fitted() ? ",yes" : ",no");
    }
    text.append('\n');
    if (r.fitted()) {
      refs.add(r.ref());
    }
    rows.add(
        new PlacementRow(
            r.ref(),
            r.part(),
            r.side(),
            new Pose(x, y, turn),
            r.fitted(),
            Levels.NONE,
            Double.NaN,
            r.line()));
  }

  private double number(double v, int leastDecimals, int at) {
    BigDecimal d = new BigDecimal(v).setScale(6, RoundingMode.HALF_EVEN).stripTrailingZeros();
    d = d.scale() < leastDecimals ? d.setScale(leastDecimals) : d;
    spans[at] = text.length();
    text.append(d.toPlainString());
    spans[at + 1] = text.length();
    return d.doubleValue() + 0.0;
  }

  private void cell(String s) {
    if (s.matches("[\\w.+:/-]*")) {
      text.append(s);
    } else {
      text.append('"').append(s.replace("\"", "\"\"")).append('"');
    }
  }

  private Understood understood(Table table, Drawings drawings, Parked parked) {
    int top = (int) rows.stream().filter(r -> r.side() == Side.TOP).count();
    return new Understood(
        data.name(),
        "",
        "",
        '.',
        0,
        java.util.Map.of(),
        List.of(),
        "package",
        data.unit(),
        "as the file states",
        "stated for every part",
        Axes.withDefaults().words(),
        rows.size(),
        top,
        rows.size() - top,
        (int) rows.stream().filter(r -> !r.fitted()).count(),
        parked.count(),
        drawings.count(),
        refs.timesEveryRef(),
        UnderstoodReport.extents(rows, parked, drawings),
        rows.subList(0, Math.min(SAMPLE, rows.size())),
        data.notes());
  }
}
