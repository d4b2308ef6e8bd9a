package org.padtrue.imaging.pose;

import java.util.List;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * What a part that seems larger or smaller than its drawing says of its place. Where edges stand
 * aside of where they belong (the end of a fillet or of a shadow is taken for that of the part) and
 * opposite ones do so independently, their middle is off as much as half their distance is.
 */
public final class SizeDoubt {
  /** Bodies and terminations do differ from their drawing by so much, each side, mm. */
  private static final double USUAL_MM = 0.02;

  /** Share of the rest, as variance, that is not the part's own: it cannot be told apart. */
  private static final double NOT_ITS_OWN = 0.5;

  /** Not more than this, mm: it is a doubt of where, not of whether. */
  private static final double MOST_MM = 0.03;

  private SizeDoubt() {}

  /** A fit with that added to its covariance. */
  public static OutlineFit.Result added(OutlineFit.Result fit) {
    double ax = variance(fit, true);
    double ay = variance(fit, false);
    Pose pose = fit.pose();
    double c = Angles.cosDeg(pose.rotationDeg());
    double s = Angles.sinDeg(pose.rotationDeg());
    double[][] v = new double[3][];
    for (int i = 0; i < 3; i++) {
      v[i] = fit.covariance()[i].clone();
    }
    v[0][0] += c * c * ax + s * s * ay;
    v[1][1] += s * s * ax + c * c * ay;
    v[0][1] += c * s * (ax - ay);
    v[1][0] += c * s * (ax - ay);
    return fit.at(pose, v);
  }

  private static double variance(OutlineFit.Result fit, boolean alongX) {
    List<OutlineFit.Piece> pieces = fit.pieces();
    double sum = 0;
    double weight = 0;
    for (OutlineFit.Piece p : pieces) {
      Outline.Group g = p.edge.group();
      // Terminations of one type differ in length: that says nothing of edges.
      boolean root = g == Outline.Group.ROOT_X || g == Outline.Group.ROOT_Y;
      OutlineFit.Size size = fit.sizes().get(g);
      if (root || size == null || !p.seen.usable() || p.edge.nx() != 0 != alongX) {
        continue;
      }
      double w = p.lengthMm * p.weight * p.trust;
      sum += w * Math.max(0, size.mm() * size.mm() - USUAL_MM * USUAL_MM);
      weight += w;
    }
    return weight > 0 ? Math.min(MOST_MM * MOST_MM, NOT_ITS_OWN * sum / weight) : 0;
  }
}
