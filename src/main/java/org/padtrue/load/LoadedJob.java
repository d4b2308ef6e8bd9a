package org.padtrue.load;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.panel.Job;

/**
 * A job and the placement file behind it.
 *
 * @param job the job
 * @param placements the placement file as read
 * @param placed which row gives which placement, in the order of the file
 * @param wholePanel true when the file holds every board of the panel
 */
public record LoadedJob(
    Job job, PlacementFile placements, List<PlacedRow> placed, boolean wholePanel) {
  public LoadedJob {
    placed = List.copyOf(placed);
  }

  /**
   * The rows of a whole-panel file by board and placement, for what differs from board to board
   * (nozzle, order); empty for a file of one board.
   */
  Map<String, PlacementRow> rowsByBoard() {
    Map<String, PlacementRow> m = new HashMap<>();
    if (wholePanel) {
      for (PlacedRow p : placed) {
        m.put(p.board() + "/" + p.placement(), placements.rows().get(p.row()));
      }
    }
    return m;
  }
}
