package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/**
 * A mark with a known place on the panel.
 *
 * @param name unique within the panel
 * @param fiducial the job's fiducial
 * @param board its board
 * @param xMm panel frame
 * @param yMm panel frame
 * @param diameterMm NaN when not known
 */
record KnownMark(
    String name, Fiducial fiducial, BoardIndex board, double xMm, double yMm, double diameterMm) {

  /** Every fiducial of the panel, those of the boards once per board. */
  static List<KnownMark> of(Job job) {
    List<KnownMark> out = new ArrayList<>();
    for (Fiducial f : job.fiducials()) {
      if (f.scope() == Fiducial.Scope.PANEL) {
        out.add(new KnownMark(f.name(), f, BoardIndex.ONE, f.xMm(), f.yMm(), f.diameterMm()));
      } else {
        addOnBoards(job, f, out);
      }
    }
    if (out.size() < 2) {
      // Many placement files list the fiducials among the parts.
      for (Placement p : job.placements()) {
        if (looksLikeFiducial(p)) {
          Pose q = p.pose();
          addOnBoards(
              job, new Fiducial(p.ref(), q.xMm(), q.yMm(), Double.NaN, Fiducial.Scope.BOARD), out);
        }
      }
    }
    return out;
  }

  static boolean looksLikeFiducial(Placement p) {
    String ref = p.ref().toUpperCase(Locale.ROOT);
    String part = p.part().toUpperCase(Locale.ROOT);
    return ref.matches("(FID|FD|FIDUCIAL)_?\\d+") || part.startsWith("FIDUCIAL");
  }

  private static void addOnBoards(Job job, Fiducial f, List<KnownMark> out) {
    for (Board b : job.array().boards()) {
      Pose q = new Pose(f.xMm(), f.yMm(), 0).seenFrom(b.origin());
      String name = job.array().boards().size() == 1 ? f.name() : b.index() + "/" + f.name();
      out.add(new KnownMark(name, f, b.index(), q.xMm(), q.yMm(), f.diameterMm()));
    }
  }
}
