package org.padtrue.load.standard;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;

/**
 * A board as a standard file gives it.
 *
 * @param name path as given
 * @param format format and revision in words
 * @param unit the file's unit
 * @param rows the parts of one board, in file order
 * @param boards poses of the boards in the panel, seen from the top; empty when the file has no
 *     panel
 * @param marks fiducials
 * @param parts part types with geometry, by name
 * @param outline bounds of one board, or null
 * @param counts what was found, in words
 * @param skipped what was passed over, in words
 * @param notes what a reader should know, one sentence each
 * @param problems what is wrong
 */
public record StandardData(
    String name,
    String format,
    LengthUnit unit,
    List<StandardRow> rows,
    List<Pose> boards,
    List<StandardMark> marks,
    Map<String, PartType> parts,
    @Nullable StandardBox outline,
    List<String> counts,
    List<String> skipped,
    List<String> notes,
    List<Problem> problems) {

  public StandardData {
    rows = List.copyOf(rows);
    boards = List.copyOf(boards);
    marks = List.copyOf(marks);
    parts = Map.copyOf(parts);
    counts = List.copyOf(counts);
    skipped = List.copyOf(skipped);
    notes = List.copyOf(notes);
    problems = List.copyOf(problems);
  }
}
