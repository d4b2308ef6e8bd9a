package org.padtrue.load.article;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.padtrue.load.table.CellReader;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.table.RowReader;
import org.padtrue.load.table.Table;
import org.padtrue.load.text.ProblemList;
import org.padtrue.panel.Levels;
import org.padtrue.panel.article.FaultKind;
import org.padtrue.quantity.LengthUnit;

/** Reads the rows of an article file, before they are matched to the job. */
final class ArticleRowReader {
  private static final double LARGEST_U_MM = 1;
  private static final int MOST_UNKNOWN = 5;
  private static final List<Field> POSITIONS = List.of(Field.X, Field.Y, Field.DX, Field.DY);

  private final Header header;
  private final RowReader rows;
  private final CellReader cells;
  private final List<MeasuredRow> read = new ArrayList<>();
  private final Set<String> unknown = new TreeSet<>();
  private int notMeasured;

  ArticleRowReader(Table table, ProblemList problems) {
    this.header = table.header();
    this.rows = table.rows(problems);
    this.cells =
        new CellReader(table, rows, null, problems, "leave the cell empty when it is not measured");
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

  /** True when nobody states the unit of some lengths, so that they were taken as mm. */
  boolean unitTaken() {
    return cells.used().contains(CellReader.UnitSource.NONE);
  }

  /** The unit of bare positions. */
  LengthUnit unit() {
    LengthUnit u = cells.unit(header.has(Field.DX) ? Field.DX : Field.X);
    LengthUnit behind = cells.suffix();
    return u != null ? u : behind != null && !unitTaken() ? behind : LengthUnit.MM;
  }

  /** Words of the status column that are not known, the first few. */
  Set<String> unknownWords() {
    return unknown;
  }

  /** Rows with broken quotes that could be mended. */
  int mended() {
    return rows.mended();
  }

  private void row() {
    cells.begin(false);
    String said = said();
    FaultKind fault = StatusWords.fault(said).orElse(null);
    boolean words = POSITIONS.stream().anyMatch(this::inWords);
    boolean pose = !words && both(Field.X, Field.Y);
    boolean deviation = !words && both(Field.DX, Field.DY);
    boolean skipped = StatusWords.notMeasured(said);
    if (skipped || fault == null && !pose && !deviation && !cells.failed()) {
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
            turn(Field.ROTATION),
            deviation ? cells.length(Field.DX) : Double.NaN,
            deviation ? cells.length(Field.DY) : Double.NaN,
            turn(Field.DROTATION),
            u(),
            uRotation(),
            Levels.read(f -> cells.textOrNull(Field.of(f))),
            cells.number(Field.ORDER),
            cells.isEmpty(Field.NOTE) ? "" : cells.rareText(Field.NOTE),
            cells.textOrNull(Field.PART),
            fault,
            said);
    if (!cells.failed()) {
      read.add(r);
    }
  }

  /** What the row says in words of its placement: in the status column, or instead of numbers. */
  private String said() {
    for (Field f : POSITIONS) {
      if (inWords(f)) {
        return cells.text(f);
      }
    }
    if (cells.isEmpty(Field.STATUS)) {
      return "";
    }
    String text = cells.text(Field.STATUS);
    boolean known =
        StatusWords.good(text)
            || StatusWords.notMeasured(text)
            || StatusWords.fault(text).isPresent();
    if (!known && unknown.size() < MOST_UNKNOWN) {
      unknown.add(text);
    }
    return known ? text : "";
  }

  /** True when a cell has a known word instead of a number. */
  private boolean inWords(Field f) {
    if (cells.isEmpty(f) || !cells.startsWithLetter(f)) {
      return false;
    }
    String text = cells.text(f);
    return StatusWords.fault(text).isPresent() || StatusWords.notMeasured(text);
  }

  private double turn(Field f) {
    return inWords(f) ? Double.NaN : cells.angle(f);
  }

  /** True when both cells are filled; one without the other is a problem. */
  private boolean both(Field x, Field y) {
    boolean noX = cells.isEmpty(x);
    boolean noY = cells.isEmpty(y);
    if (header.has(x) && header.has(y) && noX != noY) {
      cells.length(noX ? y : x); // a word there is what is wrong
    }
    if (header.has(x) && header.has(y) && noX != noY && !cells.failed()) {
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
