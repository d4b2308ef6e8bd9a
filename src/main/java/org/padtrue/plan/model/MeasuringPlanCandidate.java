package org.padtrue.plan.model;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Stage;

/**
 * One placement of the panel that could be measured.
 *
 * @param board its board
 * @param placement the nominal placement
 * @param pose nominal pose in the panel frame
 */
public record MeasuringPlanCandidate(BoardIndex board, Placement placement, Pose pose) {

  /**
   * Every placement of every board, boards in their order, placements in file order. After reflow a
   * part that centres itself shows its lands, not where it was put, so it is no candidate.
   */
  public static List<MeasuringPlanCandidate> of(Job job) {
    List<MeasuringPlanCandidate> all = new ArrayList<>();
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        if (job.stage() != Stage.REFLOWED || !job.partType(p.part()).selfCentres()) {
          all.add(new MeasuringPlanCandidate(b.index(), p, p.pose().seenFrom(b.origin())));
        }
      }
    }
    return all;
  }
}
