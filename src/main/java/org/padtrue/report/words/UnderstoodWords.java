package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.load.names.ChipCodes;
import org.padtrue.load.part.PartNames;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.load.placement.Understood;
import org.padtrue.load.standard.StandardBox;
import org.padtrue.load.standard.StandardData;
import org.padtrue.load.standard.StandardMark;

/** Says what a placement file was understood to say. */
public final class UnderstoodWords {
  private static final int NAMES_SHOWN = 8;

  private final List<String> lines = new ArrayList<>();

  private UnderstoodWords() {}

  /** How a file was understood; one thing a line, its label in the first twelve characters. */
  public static List<String> of(PlacementFile f) {
    UnderstoodWords w = new UnderstoodWords();
    f.standard().ifPresentOrElse(d -> w.standard(f, d), () -> w.table(f.understood()));
    return w.lines;
  }

  /** The same, and what the names of its part types mean in the starter library. */
  public static List<String> withTypes(PlacementFile f) {
    List<String> lines = new ArrayList<>(of(f));
    PartNames names = PartNames.of(f, ChipCodes.UNKNOWN);
    if (!names.entries().isEmpty()) {
      lines.add("Part types  " + PartNameWords.summary(names));
      lines.addAll(PartNameWords.lines(names, NAMES_SHOWN));
    }
    return lines;
  }

  private void table(Understood u) {
    lines.add("File        " + u.file());
    lines.add(
        "Text        "
            + u.encoding()
            + ", "
            + u.delimiter()
            + ", decimal "
            + (u.decimal() == ',' ? "comma" : "point")
            + (u.headerLine() > 0 ? ", header in line " + u.headerLine() : ", no header"));
    StringBuilder columns = new StringBuilder();
    u.columns()
        .forEach(
            (ours, theirs) ->
                columns
                    .append(columns.length() == 0 ? "" : ", ")
                    .append(ours)
                    .append(" <- ")
                    .append(theirs));
    lines.add("Columns     " + columns);
    if (!u.unusedColumns().isEmpty()) {
      lines.add("Not used    " + String.join(", ", u.unusedColumns()));
    }
    lines.add(
        "Part type   "
            + (u.partFrom().isEmpty()
                ? "in no column: name the bill of materials that has them (--bom here, \"bom\" in a"
                    + " job)"
                : "from " + u.partFrom()));
    shared(u);
  }

  /** A file of an open standard. */
  private void standard(PlacementFile f, StandardData d) {
    lines.add("File        " + d.name());
    lines.add("Format      " + d.format());
    lines.add("Found       " + String.join(", ", d.counts()));
    StandardBox o = d.outline();
    if (o != null) {
      lines.add(
          String.format(
              Locale.ROOT, "Outline     %.3f x %.3f mm (one board)", o.length(), o.width()));
    }
    if (!d.boards().isEmpty()) {
      lines.add("Panel       " + d.boards().size() + " boards");
    }
    for (StandardMark m : d.marks()) {
      lines.add(
          String.format(
              Locale.ROOT,
              "Fiducial    %-6s x %10.4f  y %10.4f  %s, of the %s",
              m.fiducial().name(),
              m.fiducial().xMm(),
              m.fiducial().yMm(),
              m.side().name().toLowerCase(Locale.ROOT),
              m.fiducial().scope().name().toLowerCase(Locale.ROOT)));
    }
    long lands = d.parts().values().stream().filter(p -> !p.lands().isEmpty()).count();
    long bodies = d.parts().values().stream().filter(p -> p.body() != null).count();
    lines.add("Geometry    " + bodies + " part types with a body, " + lands + " with lands");
    if (!d.skipped().isEmpty()) {
      lines.add("Not used    " + String.join(", ", d.skipped()));
    }
    shared(f.understood());
  }

  private void shared(Understood u) {
    lines.add("Unit        " + u.unit().label() + ", " + u.unitSource());
    lines.add("Side        " + u.sides());
    lines.add("Axes        " + u.axes());
    lines.add(
        "Rows        "
            + u.rows()
            + " (top "
            + u.top()
            + ", bottom "
            + u.bottom()
            + ", not fitted "
            + u.notFitted()
            + ", parked "
            + u.parked()
            + ", no part "
            + u.drawings()
            + (u.boards() > 1 ? ", every ref on " + u.boards() + " boards" : "")
            + ")");
    if (u.rows() == 0) {
      u.notes().forEach(n -> lines.add("Note        " + n));
      return;
    }
    Understood.Extents e = u.extents();
    lines.add(
        String.format(
            Locale.ROOT,
            "Extents     x %.3f to %.3f mm, y %.3f to %.3f mm",
            e.minXMm(),
            e.maxXMm(),
            e.minYMm(),
            e.maxYMm()));
    lines.add("First rows");
    for (PlacementRow r : u.sample()) {
      lines.add("  " + row(r));
    }
    u.notes().forEach(n -> lines.add("Note        " + n));
  }

  private static String row(PlacementRow r) {
    return String.format(
        Locale.ROOT,
        "%-8s %-28s x %10.4f  y %10.4f  rotation %8.2f  %s",
        r.ref(),
        r.part(),
        r.filePose().xMm(),
        r.filePose().yMm(),
        r.filePose().rotationDeg(),
        r.side() == null ? "" : r.side().name().toLowerCase(Locale.ROOT));
  }
}
