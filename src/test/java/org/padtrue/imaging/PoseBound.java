package org.padtrue.imaging;

import java.util.HashMap;
import java.util.Map;
import org.padtrue.imaging.picture.Matrices;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;

/**
 * The Cramer-Rao bound of a pose: no unbiased estimator that knows everything but x, y and rotation
 * can scatter less. Fisher information is the sum over pixels and channels of dI/dtheta
 * (dI/dtheta)^T over the noise variance (Kay 1993, Fundamentals of Statistical Signal Processing,
 * 3.9, from memory), the derivatives being differences of the renderer's own pictures.
 */
final class PoseBound {
  /** Half step of the differences, px: far below the blur, far above the arithmetic. */
  private static final double STEP_PX = 0.1;

  private PoseBound() {}

  /**
   * Standard deviations no estimator can beat.
   *
   * @param id the part that is moved
   * @param armMm about the distance of its edges from its middle
   * @return x mm, y mm, rotation degrees, in the panel's axes
   */
  static double[] of(Job job, Map<String, Pose> poses, String id, double armMm, RenderSettings s) {
    float[][] here = PanelRenderer.light(job, poses, s);
    double mm = STEP_PX / s.pxPerMm();
    double deg = Math.toDegrees(mm / armMm);
    float[][][] up = new float[3][][];
    float[][][] down = new float[3][][];
    for (int k = 0; k < 3; k++) {
      double[] d = {k == 0 ? mm : 0, k == 1 ? mm : 0, k == 2 ? deg : 0};
      up[k] = PanelRenderer.light(job, moved(poses, id, d, 1), s);
      down[k] = PanelRenderer.light(job, moved(poses, id, d, -1), s);
    }
    double[] step = {2 * mm, 2 * mm, 2 * deg};
    double[][] fisher = new double[3][3];
    double[] g = new double[3];
    for (int c = 0; c < 3; c++) {
      for (int i = 0; i < here[c].length; i++) {
        for (int k = 0; k < 3; k++) {
          g[k] = (up[k][c][i] - down[k][c][i]) / step[k];
        }
        if (g[0] == 0 && g[1] == 0 && g[2] == 0) {
          continue;
        }
        // Rounding to whole grey levels adds 1/12.
        double variance = Math.pow(PanelRenderer.noiseSd(s, here[c][i]), 2) + 1.0 / 12;
        for (int k = 0; k < 3; k++) {
          for (int l = 0; l < 3; l++) {
            fisher[k][l] += g[k] * g[l] / variance;
          }
        }
      }
    }
    double[][] v = Matrices.inverse(fisher);
    return new double[] {Math.sqrt(v[0][0]), Math.sqrt(v[1][1]), Math.sqrt(v[2][2])};
  }

  private static Map<String, Pose> moved(
      Map<String, Pose> poses, String id, double[] d, double sign) {
    Map<String, Pose> out = new HashMap<>(poses);
    Pose p = poses.get(id);
    out.put(
        id, new Pose(p.xMm() + sign * d[0], p.yMm() + sign * d[1], p.rotationDeg() + sign * d[2]));
    out.put(id + PanelRenderer.BODY, p);
    return out;
  }
}
