package org.padtrue.web.corrected;

import java.util.List;
import org.padtrue.load.corrected.CorrectedFileChange;

/**
 * What putting trims into the placement list would change.
 *
 * @param id article
 * @param name its name
 * @param job id of its job
 * @param file name of the placement list
 * @param kinds kinds of trim that may be put into it
 * @param refs placements to correct, as typed; empty for all
 * @param types part types to correct, as typed; empty for all
 * @param query the choice as a part of an address
 * @param problems why it cannot be done, one sentence each
 * @param summary how many rows change; empty with problems
 * @param levels what is added, by level
 * @param changes rows before and after, as the file counts
 * @param more rows that are not shown
 * @param notes what else there is to do
 * @param signs what the numbers are
 * @param caution before the file is used
 */
public record CorrectedView(
    String id,
    String name,
    String job,
    String file,
    List<Kind> kinds,
    String refs,
    String types,
    String query,
    List<String> problems,
    String summary,
    List<Level> levels,
    List<CorrectedFileChange> changes,
    int more,
    List<String> notes,
    String signs,
    String caution) {
  public CorrectedView {
    kinds = List.copyOf(kinds);
    problems = List.copyOf(problems);
    levels = List.copyOf(levels);
    changes = List.copyOf(changes);
    notes = List.copyOf(notes);
  }

  /** A kind of trim. */
  public record Kind(String key, String name, boolean chosen) {}

  /** What is added for a level, with units. */
  public record Level(
      String name, String frame, String x, String y, String rotation, String turn, int count) {}
}
