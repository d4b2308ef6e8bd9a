package org.padtrue.load.table;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.table.NumberReader.Result;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.quantity.LengthUnit;

/**
 * Reads cells of the current row as text, lengths in mm, angles in degrees, and says what is wrong
 * with them. The unit of a length is the one behind the number, else the header's, else that of a
 * banner or comment line, else the job's, else unknown: then the bare number is given as mm.
 */
public final class CellReader {
  /** A number beyond this is a slip and would spoil the arithmetic. */
  private static final double LARGEST_MM = 1e7;

  /** How the unit of a length was known. */
  public enum UnitSource {
    SUFFIX,
    HEADER,
    BANNER,
    JOB,
    NONE
  }

  private final Table table;
  private final Header header;
  private final RowReader rows;
  private final ProblemList problems;
  private final NumberReader numbers = new NumberReader();
  private final TextPool pool = new TextPool();
  private final String adviceNotFinite;
  private final @Nullable LengthUnit[] units = new LengthUnit[Field.values().length];
  private final UnitSource[] sources = new UnitSource[Field.values().length];
  private final Set<UnitSource> used = EnumSet.noneOf(UnitSource.class);
  private @Nullable LengthUnit suffix;
  private boolean bare;
  private boolean failed;
  private boolean silent;

  public CellReader(
      Table table,
      RowReader rows,
      @Nullable LengthUnit jobUnit,
      ProblemList problems,
      String adviceNotFinite) {
    this.table = table;
    this.header = table.header();
    this.rows = rows;
    this.problems = problems;
    this.adviceNotFinite = adviceNotFinite;
    for (Field f : Field.values()) {
      settle(f, jobUnit);
    }
  }

  private void settle(Field f, @Nullable LengthUnit jobUnit) {
    @Nullable LengthUnit inHeader = header.unit(f).orElse(null);
    @Nullable LengthUnit inBanner = table.statedUnit().map(StatedUnit::unit).orElse(null);
    int i = f.ordinal();
    if (inHeader != null) {
      units[i] = inHeader;
      sources[i] = UnitSource.HEADER;
    } else if (inBanner != null) {
      units[i] = inBanner;
      sources[i] = UnitSource.BANNER;
    } else if (f == Field.U) {
      // the job's unit is for coordinates; an uncertainty without unit is in mm
      units[i] = LengthUnit.MM;
      sources[i] = UnitSource.NONE;
    } else {
      units[i] = jobUnit;
      sources[i] = jobUnit == null ? UnitSource.NONE : UnitSource.JOB;
    }
  }

  /** Begins a row; when silent, wrong numbers are no problem (a part that is not fitted). */
  public void begin(boolean quietly) {
    failed = false;
    silent = quietly;
  }

  /** True when a cell of this row was wrong. */
  public boolean failed() {
    return failed;
  }

  /** The ways in which units of lengths were known so far. */
  public Set<UnitSource> used() {
    return used;
  }

  /** The unit behind a number met last, or null. */
  public @Nullable LengthUnit suffix() {
    return suffix;
  }

  /**
   * True when some lengths have a unit behind them and others, not nought, have none and nobody
   * states one: which unit those are in cannot be told.
   */
  public boolean someBare() {
    return suffix != null && bare;
  }

  /** The unit of bare numbers in a column, or null when nobody states it. */
  public @Nullable LengthUnit unit(Field f) {
    return units[f.ordinal()];
  }

  /** Text of a cell; the same object for equal texts. */
  public String text(Field f) {
    return pool.text(rows.cells(), header.column(f));
  }

  /** True when a cell begins with a letter. */
  public boolean startsWithLetter(Field f) {
    Cells c = rows.cells();
    int at = header.column(f);
    return !c.isEmpty(at) && Character.isLetter(c.chars().charAt(c.start(at)));
  }

  /** Text that is new in nearly every row. */
  public String rareText(Field f) {
    return rows.cells().text(header.column(f));
  }

  /** Text of a cell, or null when there is none. */
  public @Nullable String textOrNull(Field f) {
    int c = header.column(f);
    return rows.cells().isEmpty(c) ? null : pool.text(rows.cells(), c);
  }

  /** True when the row has nothing in a field. */
  public boolean isEmpty(Field f) {
    return rows.cells().isEmpty(header.column(f));
  }

  /** A length in mm; NaN when the cell is empty or wrong. */
  public double length(Field f) {
    int c = header.column(f);
    Cells cells = rows.cells();
    if (cells.isEmpty(c)) {
      return Double.NaN;
    }
    Result r = numbers.length(cells.chars(), cells.start(c), cells.end(c), table.decimal());
    if (r != Result.OK) {
      return wrong(f, r, "");
    }
    LengthUnit own = numbers.unit();
    LengthUnit column = units[f.ordinal()];
    if (own != null) {
      if (column != null && own != column && sources[f.ordinal()] == UnitSource.HEADER) {
        return complain(
            f,
            "the value is in " + own.label() + " but the header says " + column.label(),
            "leave one of the two units");
      }
      suffix = own;
      used.add(UnitSource.SUFFIX);
    } else {
      used.add(sources[f.ordinal()]);
      bare |= column == null && numbers.value() != 0;
    }
    LengthUnit unit = own != null ? own : column;
    return bounded(f, unit == null ? numbers.value() : toMm(numbers.value(), unit));
  }

  /** One multiplication and one division, so that 4460 mil are 113.284 mm and not a hair less. */
  public static double toMm(double value, LengthUnit unit) {
    return switch (unit) {
      case MM -> value;
      case UM -> value / 1000;
      case MIL -> value * 254 / 10_000;
      case INCH -> value * 254 / 10;
    };
  }

  private double bounded(Field f, double mm) {
    return Math.abs(mm) <= LARGEST_MM
        ? mm + 0.0
        : complain(f, String.format(Locale.ROOT, "%.3g mm is no place on a panel", mm), "mend it");
  }

  /** An angle in degrees; NaN when the cell is empty or wrong. */
  public double angle(Field f) {
    int c = header.column(f);
    Cells cells = rows.cells();
    if (cells.isEmpty(c)) {
      return Double.NaN;
    }
    Result r = numbers.angle(cells.chars(), cells.start(c), cells.end(c), table.decimal());
    if (r != Result.OK) {
      return wrong(f, r, "degrees");
    }
    // programs that add turns up write 810 for 90, as public lists show; measured ones never do
    int most = f == Field.ROTATION ? 3600 : 720;
    return Math.abs(numbers.value()) <= most
        ? numbers.value()
        : complain(
            f,
            TextPieces.quoted(cells.text(c))
                + " is no angle between -"
                + most
                + " and "
                + most
                + " degrees",
            "give degrees");
  }

  /** A bare number; NaN when the cell is empty or wrong. */
  public double number(Field f) {
    int c = header.column(f);
    Cells cells = rows.cells();
    if (cells.isEmpty(c)) {
      return Double.NaN;
    }
    Result r = numbers.number(cells.chars(), cells.start(c), cells.end(c), table.decimal());
    return r == Result.OK ? numbers.value() : wrong(f, r, "");
  }

  /** A whole number of 1 or more; {@code absent} when the cell is empty, 0 when it is wrong. */
  public int index(Field f, int absent) {
    if (isEmpty(f)) {
      return absent;
    }
    double v = number(f);
    if (v >= 1 && v <= 100_000 && v == Math.rint(v)) {
      return (int) v;
    }
    if (!Double.isNaN(v)) {
      complain(f, TextPieces.quoted(text(f)) + " is no whole number from 1", "count from 1");
    }
    return 0;
  }

  /** Says that something is wrong with a cell of this row. */
  public double complain(Field f, String found, String mend) {
    failed = true;
    if (!silent) {
      problems.add(rows.line(), header.name(f), found, mend);
    }
    return Double.NaN;
  }

  private double wrong(Field f, Result r, String kind) {
    String text = TextPieces.quoted(rows.cells().text(header.column(f)));
    return switch (r) {
      case NOT_FINITE -> complain(f, text + " is not a finite number", adviceNotFinite);
      case THOUSANDS ->
          complain(
              f,
              text + " has a sign between thousands, or two decimal signs",
              "write the number without it");
      case OTHER_DECIMAL ->
          complain(
              f,
              text + " is not a number",
              table.decimal() == '.'
                  ? "write a decimal point"
                  : "write a decimal comma as in the other rows");
      case UNKNOWN_UNIT ->
          complain(
              f,
              text + " has something behind the number that is not known here",
              kind.isEmpty() ? "use mm, um, mil or inch" : "give degrees");
      default -> complain(f, text + " is not a number", "write one such as 12.45");
    };
  }
}
