package org.padtrue.load.job;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.bill.BillOption;
import org.padtrue.load.names.ChipCodes;
import org.padtrue.load.names.TypeTable;
import org.padtrue.load.placement.PlacementOptions;
import org.padtrue.load.table.Field;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Measurement;
import org.padtrue.panel.Side;
import org.padtrue.panel.Stage;
import org.padtrue.problem.AsIs;

/**
 * What a job file itself says, before the files that it names are read.
 *
 * @param name its name, or null
 * @param placements path of the placement file, relative to the job file; empty when missing
 * @param parts path of the parts file, or null
 * @param step which step of an IPC-2581 file is placed, or null
 * @param bom path of the bill of materials and what is said of it, or null
 * @param chipCodes in which unit chip codes such as 0603 are
 * @param types the file's names of part types to those of the job
 * @param keepParked true when placements far off the board are to be placed
 * @param keepDrawings true when rows that stand for no part are to be placed
 * @param panel the panel, or null when the job has none
 * @param asIs what was answered about articles that look like a mistake
 */
public record JobText(
    @Nullable String name,
    String placements,
    @Nullable String parts,
    @Nullable String step,
    @Nullable BomText bom,
    TypeTable types,
    ChipCodes chipCodes,
    PlacementOptions options,
    Side side,
    Stage stage,
    boolean keepParked,
    boolean keepDrawings,
    @Nullable PanelText panel,
    int acceptanceClass,
    Machine machine,
    Measurement measurement,
    AsIs asIs) {

  /**
   * The bill of materials.
   *
   * @param file path relative to the job file
   * @param columns our names to the bill's where they are not recognised
   * @param unlisted what becomes of refs that it does not name
   */
  public record BomText(String file, Map<Field, String> columns, BillOption.Unlisted unlisted) {}

  /**
   * The panel.
   *
   * @param sized true when the job gives its columns and rows
   * @param listed boards with coordinates
   * @param usable false when boards could not be read, so that problems of the tiling say nothing
   * @param line where the job describes it
   * @param column where the job describes it
   */
  record PanelText(
      int columns,
      int rows,
      boolean sized,
      List<ListedBoard> listed,
      Set<BoardIndex> skipped,
      List<FiducialText> fiducials,
      boolean usable,
      int line,
      int column) {}

  /**
   * A fiducial as the job gives it.
   *
   * @param xMm mm; NaN where the placement file is to say
   * @param yMm mm
   * @param board true when it belongs to every board, null when not said
   * @param fileAxes true when x and y run along the placement file's axes
   * @param line where the job gives it
   * @param column where the job gives it
   */
  record FiducialText(
      String name,
      double xMm,
      double yMm,
      double diameterMm,
      @Nullable Boolean board,
      boolean fileAxes,
      int line,
      int column) {}

  /** Words of a job, in the order in which messages list them. */
  static <T> Map<String, T> words(String a, T x, String b, T y) {
    Map<String, T> m = new java.util.LinkedHashMap<>();
    m.put(a, x);
    m.put(b, y);
    return m;
  }
}
