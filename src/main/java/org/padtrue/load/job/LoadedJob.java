package org.padtrue.load.job;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.panel.Job;
import org.padtrue.problem.AsIs;

/**
 * A job and the placement file behind it.
 *
 * @param job the job
 * @param placements the placement file as read
 * @param placed which row gives which placement, in the order of the file
 * @param wholePanel true when the file holds every board of the panel
 * @param asIs what was answered about articles that look like a mistake
 */
public record LoadedJob(
    Job job, PlacementFile placements, List<PlacedRow> placed, boolean wholePanel, AsIs asIs) {
  public LoadedJob {
    placed = List.copyOf(placed);
  }

  /** The same job, with every question answered by 'it is really so' where {@code all} is true. */
  public LoadedJob asIs(boolean all) {
    return new LoadedJob(job, placements, placed, wholePanel, asIs.or(all));
  }

  /**
   * The rows of a whole-panel file by board and placement, for what differs from board to board
   * (nozzle, order); empty for a file of one board.
   */
  public Map<String, PlacementRow> rowsByBoard() {
    Map<String, PlacementRow> m = new HashMap<>();
    if (wholePanel) {
      for (PlacedRow p : placed) {
        m.put(p.board() + "/" + p.placement(), placements.rows().get(p.row()));
      }
    }
    return m;
  }
}
