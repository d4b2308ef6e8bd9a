package org.padtrue.load;

import java.util.List;
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
}
