package org.padtrue.imaging.pose;

import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Takes the fit to the pixels in place of the fit to edges where both tell the same and the first
 * is the surer one. Where they do not, the uncertainty says so.
 */
public final class Refinement {
  /** They must agree within so many standard uncertainties of the edge fit. */
  private static final double AGREE = 2.5;

  /** And within this besides, px: what pieces of edges are off by at least. */
  private static final double LEAST_PX = 0.05;

  /** Share of pixels that must obey the model. */
  private static final double OBEY = 0.8;

  /** Ground whose level wavers by this share of the contrast is lit from one side. */
  private static final double LIT = 0.1;

  /** Two places further apart are not one place badly seen, mm. */
  private static final double APART_MM = 0.06;

  /**
   * What came of it.
   *
   * @param fit to go on with
   * @param elsewhere where the pixels would have the part, when that is another place
   */
  public record Outcome(OutlineFit.Result fit, @Nullable Pose elsewhere) {}

  private Refinement() {}

  /** Refines an edge fit, if that can be. */
  public static Outcome of(
      Plane plane,
      PanelToPicture map,
      PartType type,
      Outline outline,
      Pose nominal,
      OutlineFit.Result edges) {
    ImageFit.Refined fine = ImageFit.refine(plane, map, type, outline, nominal, edges);
    if (fine == null || fine.kept() < OBEY) {
      return new Outcome(edges, null);
    }
    double ppm = map.scaleAt(edges.pose().xMm(), edges.pose().yMm());
    double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
    double[] off = {
      fine.pose().xMm() - edges.pose().xMm(),
      fine.pose().yMm() - edges.pose().yMm(),
      Math.toRadians(Angles.wrap(fine.pose().rotationDeg() - edges.pose().rotationDeg()))
    };
    double[][] v =
        OutlineFit.withLight(
            outline,
            edges.pieces(),
            fine.pose(),
            fine.covariance(),
            edges.sigmaPx() / ppm,
            Math.min(1, fine.unevenGround() / LIT));
    if (!agree(off, edges.covariance(), v, arm, LEAST_PX / ppm)) {
      return new Outcome(edges.at(edges.pose(), torn(edges.covariance(), off)), fine.pose());
    }
    double now = size(v, arm);
    double before = size(edges.covariance(), arm);
    return new Outcome(now < before ? edges.at(fine.pose(), v) : edges, null);
  }

  private static boolean agree(
      double[] off, double[][] edges, double[][] fine, double arm, double leastMm) {
    for (int i = 0; i < 3; i++) {
      double unit = i == 2 ? arm : 1;
      double u = Math.sqrt(Math.max(edges[i][i], fine[i][i]));
      if (Math.abs(off[i]) * unit > AGREE * unit * u + leastMm) {
        return false;
      }
    }
    return true;
  }

  /** Either may be right: half their distance is a standard uncertainty. */
  private static double[][] torn(double[][] covariance, double[] off) {
    double[][] v = new double[3][];
    double far = Math.hypot(off[0], off[1]);
    double share = far > APART_MM ? APART_MM / far : 1;
    for (int i = 0; i < 3; i++) {
      v[i] = covariance[i].clone();
      v[i][i] += share * share * off[i] * off[i] / 4;
    }
    return v;
  }

  private static double size(double[][] v, double arm) {
    return v[0][0] + v[1][1] + arm * arm * v[2][2];
  }
}
