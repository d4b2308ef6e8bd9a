package org.padtrue.imaging;

import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;

/**
 * Takes the fit to the pixels in place of the fit to edges where both tell the same and the first
 * is the surer one.
 */
final class Refinement {
  /** They must agree within so many standard uncertainties of the edge fit. */
  private static final double AGREE = 2.5;

  /** And within this besides, px: what pieces of edges are off by at least. */
  private static final double LEAST_PX = 0.05;

  /** Share of pixels that must obey the model. */
  private static final double OBEY = 0.8;

  /** Ground whose level wavers by this share of the contrast is lit from one side. */
  private static final double LIT = 0.1;

  private Refinement() {}

  /** The better of an edge fit and its refinement. */
  static OutlineFit.Result of(
      Plane plane,
      PanelToPicture map,
      PartType type,
      Outline outline,
      Pose nominal,
      OutlineFit.Result edges) {
    ImageFit.Refined fine = ImageFit.refine(plane, map, type, outline, nominal, edges);
    if (DEBUG) {
      debug(fine, edges, map);
    }
    if (fine == null || fine.kept() < OBEY) {
      return edges;
    }
    double ppm = map.scaleAt(edges.pose().xMm(), edges.pose().yMm());
    double[][] v =
        OutlineFit.withLight(
            outline,
            edges.pieces(),
            fine.pose(),
            fine.covariance(),
            edges.sigmaPx() / ppm,
            Math.min(1, fine.unevenGround() / LIT));
    double[] d = {
      fine.pose().xMm() - edges.pose().xMm(),
      fine.pose().yMm() - edges.pose().yMm(),
      Math.toRadians(
          org.padtrue.quantity.Angles.wrap(fine.pose().rotationDeg() - edges.pose().rotationDeg()))
    };
    double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
    double trace = 0;
    double before = 0;
    for (int i = 0; i < 3; i++) {
      double unit = i == 2 ? arm : 1;
      double allowed = AGREE * unit * Math.sqrt(edges.covariance()[i][i]) + LEAST_PX / ppm;
      if (Math.abs(d[i]) * unit > allowed) {
        return edges;
      }
      trace += unit * unit * v[i][i];
      before += unit * unit * edges.covariance()[i][i];
    }
    return trace < before ? edges.at(fine.pose(), v) : edges;
  }

  static final boolean DEBUG = Boolean.getBoolean("acc.debug");

  private static void debug(ImageFit.Refined f, OutlineFit.Result e, PanelToPicture map) {
    double ppm = map.scaleAt(e.pose().xMm(), e.pose().yMm());
    System.err.printf(
        "DBG sigma %.2f lands %s edge %.4f %.4f %.3f u %.4f %.4f %.3f%n",
        e.sigmaPx(),
        e.landsShow(),
        e.pose().xMm() * ppm,
        e.pose().yMm() * ppm,
        e.pose().rotationDeg(),
        ppm * Math.sqrt(e.covariance()[0][0]),
        ppm * Math.sqrt(e.covariance()[1][1]),
        Math.toDegrees(Math.sqrt(e.covariance()[2][2])));
    if (f == null) {
      System.err.println("DBG   none");
      return;
    }
    System.err.printf(
        "DBG   fine %.4f %.4f %.3f u %.4f %.4f %.3f uneven %.3f kept %.2f excess %.2f%n",
        f.pose().xMm() * ppm,
        f.pose().yMm() * ppm,
        f.pose().rotationDeg(),
        ppm * Math.sqrt(f.covariance()[0][0]),
        ppm * Math.sqrt(f.covariance()[1][1]),
        Math.toDegrees(Math.sqrt(f.covariance()[2][2])),
        f.unevenGround(),
        f.kept(),
        f.excess());
  }
}
