package org.padtrue.load.placement;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.gerber.GerberReader;
import org.padtrue.load.ipc2581.Ipc2581Reader;
import org.padtrue.load.standard.StandardData;
import org.padtrue.load.standard.StandardFile;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Table;
import org.padtrue.load.text.TextFile;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;

/**
 * A placement file as read: its rows, where their numbers stand, and what was understood.
 *
 * <p>An IPC-2581 file or a Gerber X3 component layer is told by its content.
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
  private final @Nullable StandardData standard;
  private final Drawings drawings;
  private final Parked parked;

  PlacementFile(
      Table table,
      PlacementOptions options,
      LengthUnit unit,
      List<PlacementRow> rows,
      int[] spans,
      Understood understood,
      List<Problem> problems,
      boolean repeated,
      @Nullable StandardData standard,
      Drawings drawings,
      Parked parked) {
    this.table = table;
    this.options = options;
    this.unit = unit;
    this.rows = List.copyOf(rows);
    this.spans = spans;
    this.understood = understood;
    this.problems = List.copyOf(problems);
    this.repeated = repeated;
    this.standard = standard;
    this.drawings = drawings;
    this.parked = parked;
  }

  /**
   * Reads a placement file.
   *
   * @param step which step of an IPC-2581 file is placed; null to find it
   * @throws InputException when the file as a whole cannot be understood; problems of single rows
   *     are in {@link #problems()}
   */
  public static PlacementFile read(Path path, PlacementOptions options, @Nullable String step) {
    return read(path, options, step, "check the path");
  }

  /**
   * The same for a file that a job names.
   *
   * @param step which step of an IPC-2581 file is placed; null to find it
   * @param mendMissing what to do when there is no such file
   */
  public static PlacementFile read(
      Path path, PlacementOptions options, @Nullable String step, String mendMissing) {
    return switch (StandardFile.of(path)) {
      case XML -> StandardText.of(Ipc2581Reader.read(path, step), options);
      case GERBER -> StandardText.of(GerberReader.read(path), options);
      case NONE -> of(TextFile.read(path, mendMissing), options);
    };
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

  /** Rows that stand for no part. */
  public Drawings drawings() {
    return drawings;
  }

  /** Rows that lie far off the board. */
  public Parked parked() {
    return parked;
  }

  /** What the job says about the file, and about articles. */
  public PlacementOptions options() {
    return options;
  }

  /** How the file's axes run: as the job says, or as the standard of the file does. */
  public Axes axes() {
    return standard == null ? options.axes() : Axes.withDefaults();
  }

  /** What to say of {@link #text()} when it is read again. */
  public PlacementOptions textOptions() {
    return standard == null ? options : PlacementOptions.withDefaults();
  }

  /** What an IPC-2581 or Gerber file says beside its rows; empty for a table. */
  public Optional<StandardData> standard() {
    return Optional.ofNullable(standard);
  }

  /** What messages call the column of refs. */
  public String refColumn() {
    return standard == null ? table.header().name(Field.REF) : "";
  }

  /** The path as given. */
  public String name() {
    return table.file().name();
  }

  /** The file's characters and how they are coded; of a standard file, its rows as a table. */
  public TextFile text() {
    return table.file();
  }

  /** True when a ref of a fitted row is there more than once. */
  public boolean repeated() {
    return repeated;
  }

  public Table table() {
    return table;
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
