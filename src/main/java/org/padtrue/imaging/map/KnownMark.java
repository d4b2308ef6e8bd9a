package org.padtrue.imaging.map;

import java.util.ArrayList;
import java.util.List;
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
public record KnownMark(
    String name, Fiducial fiducial, BoardIndex board, double xMm, double yMm, double diameterMm) {

  /** Two marks nearer to each other are one, mm. */
  private static final double SAME_PLACE_MM = 0.2;

  /** Every fiducial of the panel, those of the boards once per board. */
  public static List<KnownMark> of(Job job) {
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
              job,
              new Fiducial(
                  p.ref(), q.xMm(), q.yMm(), Fiducial.sizeIn(p.part()), Fiducial.Scope.BOARD),
              out);
        }
      }
    }
    return distinct(out);
  }

  /** Without marks that stand where another one does: the job and its list may both name them. */
  private static List<KnownMark> distinct(List<KnownMark> all) {
    List<KnownMark> out = new ArrayList<>();
    for (KnownMark m : all) {
      if (out.stream().noneMatch(o -> Math.hypot(o.xMm - m.xMm, o.yMm - m.yMm) < SAME_PLACE_MM)) {
        out.add(m);
      }
    }
    return out;
  }

  public static boolean looksLikeFiducial(Placement p) {
    return Fiducial.isLike(p.ref(), p.part());
  }

  private static void addOnBoards(Job job, Fiducial f, List<KnownMark> out) {
    for (Board b : job.array().boards()) {
      Pose q = new Pose(f.xMm(), f.yMm(), 0).seenFrom(b.origin());
      String name = job.array().boards().size() == 1 ? f.name() : b.index() + "/" + f.name();
      out.add(new KnownMark(name, f, b.index(), q.xMm(), q.yMm(), f.diameterMm()));
    }
  }
}
