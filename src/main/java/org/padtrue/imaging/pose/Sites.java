package org.padtrue.imaging.pose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.padtrue.imaging.map.KnownMark;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Levels;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Unplaced;

/** Every expected placement of a panel, in the panel frame. */
public final class Sites {
  /**
   * One expected placement.
   *
   * @param board its board
   * @param placement nominal placement
   * @param type geometry
   * @param nominal pose in the panel frame
   */
  public record Site(BoardIndex board, Placement placement, PartType type, Pose nominal) {
    public String id() {
      return board + "/" + placement.ref();
    }
  }

  private Sites() {}

  public static List<Site> of(Job job) {
    List<Site> out = new ArrayList<>();
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        if (!KnownMark.looksLikeFiducial(p)) {
          out.add(new Site(b.index(), p, job.partType(p.part()), p.pose().seenFrom(b.origin())));
        }
      }
    }
    return out;
  }

  /** Where lands of the job lie bare, since nothing is fitted there. */
  public static List<Site> bare(Job job) {
    List<Site> out = new ArrayList<>();
    for (Board b : job.array().boards()) {
      for (Unplaced u : job.unplaced()) {
        Pose pose = u.pose();
        if (pose != null) {
          Placement p = new Placement(u.ref(), u.part(), pose, Levels.NONE, Double.NaN, u.line());
          out.add(new Site(b.index(), p, job.partType(u.part()), pose.seenFrom(b.origin())));
        }
      }
    }
    return out;
  }

  /**
   * Smallest box {x0, y0, x1, y1} of marks and placements that can be seen, mm. What has no
   * geometry, such as a logo, may stand anywhere beside the board; it counts only where nothing
   * else does.
   */
  public static double[] bounds(List<Site> sites, List<KnownMark> marks) {
    double[] b = {1e9, 1e9, -1e9, -1e9};
    boolean none = sites.stream().noneMatch(s -> Outline.known(s.type()));
    for (Site s : sites) {
      if (none || Outline.known(s.type())) {
        grow(b, s.nominal().xMm(), s.nominal().yMm());
      }
    }
    for (KnownMark m : marks) {
      grow(b, m.xMm(), m.yMm());
    }
    return b;
  }

  private static void grow(double[] b, double x, double y) {
    b[0] = Math.min(b[0], x);
    b[1] = Math.min(b[1], y);
    b[2] = Math.max(b[2], x);
    b[3] = Math.max(b[3], y);
  }

  /** Sites with geometry, those first that take least to look for. */
  public static Comparator<Site> smallestFirst() {
    return Comparator.comparingDouble(
        s -> {
          Outline o = Outline.of(s.type());
          return Math.hypot(o.halfLengthMm(), o.halfWidthMm());
        });
  }

  /** At most count sites with geometry, spread over the list. */
  public static List<Site> sample(List<Site> sites, int count) {
    List<Site> known = sites.stream().filter(s -> Outline.known(s.type())).toList();
    List<Site> out = new ArrayList<>();
    double stride = Math.max(1, known.size() / (double) count);
    for (double i = 0; i < known.size() && out.size() < count; i += stride) {
      out.add(known.get((int) i));
    }
    return out;
  }
}
