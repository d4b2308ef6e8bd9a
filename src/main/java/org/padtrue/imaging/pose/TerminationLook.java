package org.padtrue.imaging.pose;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * Whether the terminations of a part look alike where a fit has them. A chip fitted one termination
 * too far lies on its body with one end and on paste with the other: edges alone do not tell.
 */
public final class TerminationLook {
  /** Differences, three channels summed, that glare and texture make on one metal: grey levels. */
  private static final double GLARE = 90;

  /** And as a share of the brightness, summed likewise. */
  private static final double GLARE_SHARE = 0.25;

  /** Of many terminations so many may be hidden or glare. */
  private static final double ODD = 0.2;

  /** Steps that say nothing, grey levels; and as a share of those between body and metal. */
  private static final double FAINT = 8;

  private static final double FAINT_SHARE = 0.25;

  /** Share of outer edges that may go the other way. */
  private static final double AGAINST = 0.3;

  /** Fewer pixels say nothing. */
  private static final int ENOUGH_PX = 6;

  private TerminationLook() {}

  /**
   * True when terminations differ so that the fit cannot be right; false too when they cannot be
   * judged.
   */
  public static boolean differs(
      Plane plane, PanelToPicture map, PartType type, Outline outline, Pose pose, double height) {
    int n = outline.rects().size() - (type.body() == null ? 0 : 1);
    List<double[]> colours = new ArrayList<>();
    for (Rect r : outline.rects().subList(0, n)) {
      double[] c = colour(plane, map, r, pose, height);
      if (c.length > 0) {
        colours.add(c);
      }
    }
    if (colours.size() < 2) {
      return false;
    }
    double[] middle = new double[3];
    for (int k = 0; k < 3; k++) {
      int channel = k;
      double[] v = colours.stream().mapToDouble(c -> c[channel]).sorted().toArray();
      middle[k] = (v[(v.length - 1) / 2] + v[v.length / 2]) / 2;
    }
    double allowed = GLARE + GLARE_SHARE * (middle[0] + middle[1] + middle[2]);
    // Of two the middle lies half way.
    double limit = colours.size() == 2 ? allowed / 2 : allowed;
    long odd =
        colours.stream()
            .filter(
                c ->
                    Math.abs(c[0] - middle[0])
                            + Math.abs(c[1] - middle[1])
                            + Math.abs(c[2] - middle[2])
                        > limit)
            .count();
    return odd > ODD * colours.size();
  }

  /**
   * True when from metal outwards it gets darker at some ends and brighter at others: then some of
   * them are not metal. Ends and sides are judged apart: a land may be longer than its termination
   * but no wider, so that metal meets solder at the one and mask at the other.
   */
  public static boolean contradicts(List<OutlineFit.Piece> pieces) {
    double faint = Math.max(FAINT, FAINT_SHARE * rootStep(pieces));
    return contradicts(pieces, true, faint) || contradicts(pieces, false, faint);
  }

  /** The usual step between body and metal, where it is seen: what no end on solder comes near. */
  private static double rootStep(List<OutlineFit.Piece> pieces) {
    double[] b =
        pieces.stream()
            .filter(p -> p.seen.usable() && p.weight > 0)
            .filter(
                p ->
                    p.edge.group() == Outline.Group.ROOT_X
                        || p.edge.group() == Outline.Group.ROOT_Y)
            .mapToDouble(p -> Math.abs(p.seen.step()))
            .sorted()
            .toArray();
    return b.length == 0 ? 0 : b[b.length / 2];
  }

  private static boolean contradicts(List<OutlineFit.Piece> pieces, boolean alongX, double faint) {
    double darker = 0;
    double brighter = 0;
    for (OutlineFit.Piece p : pieces) {
      boolean outer =
          switch (p.edge.group()) {
            case BODY_X, TIP_X -> alongX && !p.edge.body();
            case BODY_Y, TIP_Y -> !alongX && !p.edge.body();
            default -> false;
          };
      if (outer && p.seen.usable() && Math.abs(p.seen.step()) > faint) {
        darker += p.seen.step() < 0 ? p.lengthMm : 0;
        brighter += p.seen.step() > 0 ? p.lengthMm : 0;
      }
    }
    return Math.min(darker, brighter) > AGAINST * (darker + brighter);
  }

  /**
   * True when the inner edge of one end is seen and that of the other is not, or goes the other
   * way: a chip fitted one termination too far has its outer end for its inner one.
   */
  public static boolean oneSided(List<OutlineFit.Piece> pieces) {
    // By axis and side: length in all, length seen, step times length.
    double[][] sums = new double[4][3];
    for (OutlineFit.Piece p : pieces) {
      Outline.Group g = p.edge.group();
      if (g != Outline.Group.ROOT_X && g != Outline.Group.ROOT_Y) {
        continue;
      }
      double[] s =
          sums[(g == Outline.Group.ROOT_X ? 0 : 2) + (p.edge.nx() + p.edge.ny() > 0 ? 1 : 0)];
      s[0] += p.lengthMm;
      if (p.seen.usable() && p.weight > 0) {
        s[1] += p.lengthMm;
        s[2] += p.lengthMm * p.seen.step();
      }
    }
    for (int axis = 0; axis < 4; axis += 2) {
      double[] a = sums[axis];
      double[] b = sums[axis + 1];
      if (a[0] == 0 || b[0] == 0) {
        continue;
      }
      double shareA = a[1] / a[0];
      double shareB = b[1] / b[0];
      boolean one = Math.max(shareA, shareB) > 0.6 && Math.min(shareA, shareB) < 0.3;
      if (one || a[2] * b[2] < 0) {
        return true;
      }
    }
    return false;
  }

  /** Mean colour of a termination's inner part; empty when it shows too few pixels. */
  private static double[] colour(
      Plane plane, PanelToPicture map, Rect r, Pose pose, double height) {
    double step = 0.7 / map.scaleAt(pose.xMm(), pose.yMm());
    double c = Angles.cosDeg(pose.rotationDeg());
    double s = Angles.sinDeg(pose.rotationDeg());
    double[] sum = new double[3];
    int n = 0;
    for (double v = -0.3 * r.widthMm(); v <= 0.3 * r.widthMm(); v += step) {
      for (double u = -0.3 * r.lengthMm(); u <= 0.3 * r.lengthMm(); u += step) {
        double x = r.xMm() + u;
        double y = r.yMm() + v;
        double[] q = map.at(pose.xMm() + c * x - s * y, pose.yMm() + s * x + c * y, height);
        int px = (int) Math.round(q[0]);
        int py = (int) Math.round(q[1]);
        if (plane.holds(px, py)) {
          int k = 3 * ((py - plane.y0()) * plane.width() + px - plane.x0());
          for (int ch = 0; ch < 3; ch++) {
            sum[ch] += plane.values()[k + ch] & 0xFF;
          }
          n++;
        }
      }
    }
    return n < ENOUGH_PX ? new double[0] : new double[] {sum[0] / n, sum[1] / n, sum[2] / n};
  }
}
