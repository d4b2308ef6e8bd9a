package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.names.TypeTable;
import org.padtrue.load.placement.Axes;
import org.padtrue.load.placement.Drawings;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.panel.Unplaced;

/**
 * The rows of a placement file that a job places, turned into the canonical frame, and the others
 * with the reason.
 *
 * @param placements one for each row that is placed
 * @param rows the row of each placement
 * @param unplaced the other rows
 * @param marks fiducials that the job names among the rows: nothing is placed there
 * @param types the job's names of part types
 */
record Selection(
    List<Placement> placements,
    List<Integer> rows,
    List<Unplaced> unplaced,
    List<String> marks,
    TypeTable types) {

  /**
   * Sorts the rows of a file.
   *
   * @param fiducials names of the job's fiducials
   */
  static Selection of(PlacementFile file, JobText job, Set<String> fiducials) {
    Side side = job.side();
    Axes axes = file.axes();
    Selection s =
        new Selection(
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>(),
            new ArrayList<>(),
            job.types());
    for (int i = 0; i < file.rows().size(); i++) {
      PlacementRow r = file.rows().get(i);
      if (r.side() != null && r.side() != side) {
        s.leaveOut(r, Unplaced.Reason.OTHER_SIDE, null);
      } else if (fiducials.contains(r.ref())) {
        s.marks.add(r.ref());
      } else if (file.drawings().is(i) && !job.keepDrawings() && !namedMark(r)) {
        s.leaveOut(r, Unplaced.Reason.DRAWING, null);
      } else if (!r.fitted()) {
        s.leaveOut(r, Unplaced.Reason.NOT_FITTED, axes.turn(r.filePose(), side));
      } else if (file.parked().is(i) && !job.keepParked()) {
        s.leaveOut(r, Unplaced.Reason.PARKED, null);
      } else {
        s.rows.add(i);
        s.placements.add(s.placement(r, axes.turn(r.filePose(), side)));
      }
    }
    return s;
  }

  /** A fiducial under a name of its own: it may be one of the boards', and is sorted out later. */
  private static boolean namedMark(PlacementRow r) {
    return Fiducial.isLike(r.ref(), r.part()) && !Drawings.placeholder(r.ref());
  }

  private void leaveOut(PlacementRow r, Unplaced.Reason reason, @Nullable Pose pose) {
    unplaced.add(new Unplaced(r.ref(), types.typeOf(r.part()), reason, r.line(), pose));
  }

  private Placement placement(PlacementRow r, Pose pose) {
    return new Placement(r.ref(), types.typeOf(r.part()), pose, r.levels(), r.order(), r.line());
  }

  /** Adds a problem for each ref that is there more than once. */
  void complainOfRepeats(ProblemList problems, String column) {
    Map<String, Integer> lines = new HashMap<>();
    for (Placement p : placements) {
      Integer first = lines.putIfAbsent(p.ref(), p.line());
      if (first != null) {
        problems.add(
            p.line(),
            column,
            "the ref " + TextPieces.quoted(p.ref()) + " is there already in line " + first,
            "rename or remove one of them");
      }
    }
  }
}
