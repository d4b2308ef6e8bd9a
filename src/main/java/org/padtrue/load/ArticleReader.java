package org.padtrue.load;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.table.RowReader;
import org.padtrue.load.table.Table;
import org.padtrue.load.text.ProblemList;

/** Reads the rows of an article file, before they are matched to the job. */
final class ArticleReader {
  private static final double LARGEST_U_MM = 1;

  private final Header header;
  private final RowReader rows;
  private final CellReader cells;
  private final List<MeasuredRow> read = new ArrayList<>();
  private int notMeasured;

  ArticleReader(Table table, PlacementOptions options, ProblemList problems) {
    this.header = table.header();
    this.rows = table.rows(problems);
    this.cells =
        new CellReader(
            table, rows, options.unit(), problems, "leave the cell empty when it is not measured");
  }

  List<MeasuredRow> read() {
    while (rows.next()) {
      row();
    }
    return read;
  }

  /** Rows without any position: listed in the file, not measured. */
  int notMeasured() {
    return notMeasured;
  }

  /** True when the unit of some lengths was the job's. */
  boolean unitOfJob() {
    return cells.used().contains(CellReader.UnitSource.JOB);
  }

  /** Rows with broken quotes that could be mended. */
  int mended() {
    return rows.mended();
  }

  private void row() {
    cells.begin(false);
    boolean pose = both(Field.X, Field.Y);
    boolean deviation = both(Field.DX, Field.DY);
    if (!pose && !deviation && !cells.failed()) {
      notMeasured++;
      return;
    }
    MeasuredRow r =
        new MeasuredRow(
            rows.line(),
            cells.isEmpty(Field.PANEL) ? "P1" : cells.text(Field.PANEL),
            cells.index(Field.COLUMN, header.has(Field.COLUMN) ? 1 : 0),
            cells.index(Field.ROW, header.has(Field.ROW) ? 1 : 0),
            ref(),
            pose ? cells.length(Field.X) : Double.NaN,
            pose ? cells.length(Field.Y) : Double.NaN,
            cells.angle(Field.ROTATION),
            deviation ? cells.length(Field.DX) : Double.NaN,
            deviation ? cells.length(Field.DY) : Double.NaN,
            cells.angle(Field.DROTATION),
            u(),
            uRotation(),
            cells.textOrNull(Field.NOZZLE),
            cells.textOrNull(Field.FEEDER),
            cells.textOrNull(Field.HEAD),
            cells.number(Field.ORDER),
            cells.isEmpty(Field.NOTE) ? "" : cells.rareText(Field.NOTE));
    if (!cells.failed()) {
      read.add(r);
    }
  }

  /** True when both cells are filled; one without the other is a problem. */
  private boolean both(Field x, Field y) {
    boolean noX = cells.isEmpty(x);
    boolean noY = cells.isEmpty(y);
    if (header.has(x) && header.has(y) && noX != noY) {
      cells.complain(
          noX ? x : y,
          "the cell is empty but " + header.name(noX ? y : x) + " is not",
          "give both, or neither when it is not measured");
    }
    return !noX && !noY;
  }

  private String ref() {
    String ref = cells.text(Field.REF);
    if (ref.isEmpty()) {
      cells.complain(Field.REF, "the ref is empty", "name or remove the row");
    }
    return ref;
  }

  private double u() {
    double u = cells.length(Field.U);
    if (u < 0) {
      return cells.complain(
          Field.U, "a standard uncertainty below 0 makes no sense", "leave it empty when unknown");
    }
    return u > LARGEST_U_MM
        ? cells.complain(
            Field.U,
            "a standard uncertainty of " + cells.text(Field.U) + " mm is no use",
            "write its unit in the header, such as u (um)")
        : u;
  }

  private double uRotation() {
    double u = cells.angle(Field.UROTATION);
    return u < 0
        ? cells.complain(
            Field.UROTATION,
            "a standard uncertainty below 0 makes no sense",
            "leave it empty when unknown")
        : u;
  }
}
