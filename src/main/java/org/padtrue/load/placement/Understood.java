package org.padtrue.load.placement;

import java.util.List;
import java.util.Map;
import org.padtrue.quantity.LengthUnit;

/**
 * What a placement file was understood to say, for a reader who wants to check it by eye.
 *
 * @param file its path as given
 * @param encoding encoding in words
 * @param delimiter what parts the cells, in words
 * @param decimal '.' or ','
 * @param headerLine line of the header, 0 when there is none
 * @param columns our name to the file's, in the order of the file
 * @param unusedColumns the file's names of columns that are not used
 * @param partFrom which column the part type comes from: part, package or value
 * @param unit unit of the coordinates
 * @param unitSource how the unit was known, in words
 * @param sides how sides were known, in words
 * @param axes how axes run, in words
 * @param rows number of placements read
 * @param top how many of them say top
 * @param bottom how many of them say bottom
 * @param notFitted how many of them are marked as not fitted
 * @param parked how many of them lie far off the board
 * @param drawings how many of them stand for no part: fiducials, drawings, holes, placeholders
 * @param boards how often every ref is repeated; 1 for a file of one board
 * @param extents of the placements that are fitted and not parked, mm, along the file's own axes
 * @param sample the first rows
 * @param notes what else a reader should know, one sentence each
 */
public record Understood(
    String file,
    String encoding,
    String delimiter,
    char decimal,
    int headerLine,
    Map<String, String> columns,
    List<String> unusedColumns,
    String partFrom,
    LengthUnit unit,
    String unitSource,
    String sides,
    String axes,
    int rows,
    int top,
    int bottom,
    int notFitted,
    int parked,
    int drawings,
    int boards,
    Extents extents,
    List<PlacementRow> sample,
    List<String> notes) {

  /**
   * The box around placements.
   *
   * @param minXMm mm; NaN when there is no placement
   * @param minYMm mm
   * @param maxXMm mm
   * @param maxYMm mm
   */
  public record Extents(double minXMm, double minYMm, double maxXMm, double maxYMm) {}
}
