package org.padtrue.load;

import java.nio.file.Path;
import java.util.List;
import org.padtrue.load.table.Table;
import org.padtrue.load.text.TextFile;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;

/**
 * A placement file as read: its rows, where their numbers stand, and what was understood.
 *
 * <p>Format: a table with columns {@code ref, part, x, y, rotation} and, if the file likes, {@code
 * side, nozzle, feeder, head, order, value, package}, a column that says fitted or not, and others
 * that are passed over. Four lines of one:
 *
 * <pre>
 * # units: mm
 * Ref;Package;X;Y;Rotation;Side
 * R1;R0603;12,70;5,08;90;top
 * C4;C0402;14,10;5,08;0;bottom
 * </pre>
 */
public final class PlacementFile {
  private final Table table;
  private final PlacementOptions options;
  private final LengthUnit unit;
  private final List<PlacementRow> rows;
  private final int[] spans;
  private final Understood understood;
  private final List<Problem> problems;
  private final boolean repeated;

  PlacementFile(
      Table table,
      PlacementOptions options,
      LengthUnit unit,
      List<PlacementRow> rows,
      int[] spans,
      Understood understood,
      List<Problem> problems,
      boolean repeated) {
    this.table = table;
    this.options = options;
    this.unit = unit;
    this.rows = List.copyOf(rows);
    this.spans = spans;
    this.understood = understood;
    this.problems = List.copyOf(problems);
    this.repeated = repeated;
  }

  /**
   * Reads a placement file.
   *
   * @throws InputException when the file as a whole cannot be understood; problems of single rows
   *     are in {@link #problems()}
   */
  public static PlacementFile read(Path path, PlacementOptions options) {
    return of(TextFile.read(path), options);
  }

  /** The same for a text in memory. */
  public static PlacementFile of(TextFile file, PlacementOptions options) {
    return new PlacementReader(file, options).read();
  }

  /** All rows in file order, other side and not fitted included. */
  public List<PlacementRow> rows() {
    return rows;
  }

  /** What is wrong with single rows. */
  public List<Problem> problems() {
    return problems;
  }

  /** What was understood. */
  public Understood understood() {
    return understood;
  }

  /** What the job says about the file. */
  public PlacementOptions options() {
    return options;
  }

  /** The path as given. */
  public String name() {
    return table.file().name();
  }

  /** The file's characters and how they are coded. */
  public TextFile text() {
    return table.file();
  }

  /** True when a ref of a fitted row is there more than once. */
  boolean repeated() {
    return repeated;
  }

  Table table() {
    return table;
  }

  /** The unit of bare numbers: the header's, the banner's, the job's, or mm. */
  LengthUnit unit() {
    return unit;
  }

  /** Where the numbers of a row stand; the index is that of {@link #rows()}. */
  public RowCells cells(int row) {
    int i = 6 * row;
    return new RowCells(
        rows.get(row).line(),
        new RowCells.Span(spans[i], spans[i + 1]),
        new RowCells.Span(spans[i + 2], spans[i + 3]),
        new RowCells.Span(spans[i + 4], spans[i + 5]));
  }
}
