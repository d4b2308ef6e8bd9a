package org.padtrue.imaging.taught;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Matrices;
import org.padtrue.imaging.picture.PixelSampler;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Lays a taught look onto a picture to sub-pixel: least squares on grey values over x, y, rotation,
 * a gain and an offset of each channel and a little blur, robust to what differs, such as marking,
 * glare and shadow. Second-order minimisation: gradients are the mean of look and picture
 * (Benhimane and Malis 2004, from memory).
 *
 * <p>The covariance is the sandwich over square blocks of cells: within a block noise may be
 * correlated as it likes, as texture is.
 */
final class TaughtFit {
  private static final int ROUNDS = 20;

  /** What differs by so much of the part's contrast is noise, at first and at least. */
  private static final double START_SCALE = 0.4;

  private static final double LEAST_SCALE = 0.05;

  /** Of so many residuals the spread is taken. */
  private static final int SAMPLES = 3000;

  /** After so many rounds the scale of what is left stays. */
  private static final int SETTLED = 5;

  /** x, y, rotation; three gains; three offsets; blur. */
  private static final int UNKNOWNS = 10;

  /** Unknowns that a channel's cells speak of. */
  private static final int[][] PLACES = {
    {0, 1, 2, 3, 6, 9}, {0, 1, 2, 4, 7, 9}, {0, 1, 2, 5, 8, 9}
  };

  /** Side of a block, px of the picture. */
  private static final double BLOCK = 7;

  /**
   * A fit.
   *
   * @param pose panel frame
   * @param covariance of x, y (part frame, mm) and rotation (rad)
   * @param gains of the three channels
   * @param correlation of look and picture, one gain for all channels, -1 to 1
   * @param share of the look's weight that the picture agrees with, 0 to 1
   * @param worstSide the same of the worst quarter
   * @param noise root mean square of what is left, grey levels
   * @param converged whether the last step was small
   */
  record Result(
      Pose pose,
      double[][] covariance,
      double[] gains,
      double correlation,
      double share,
      double worstSide,
      double noise,
      boolean converged) {

    /** 0 to 1: how much of the taught look was seen. */
    double score() {
      return Math.max(0, Math.min(share, correlation));
    }
  }

  private final PixelSampler picture;
  private final PanelToPicture map;
  private final TaughtGrid look;
  private final double heightMm;

  TaughtFit(PixelSampler picture, PanelToPicture map, TaughtGrid look, double heightMm) {
    this.picture = picture;
    this.map = map;
    this.look = look;
    this.heightMm = heightMm;
  }

  /** Fits from a start; null when the look reaches out of the picture or says nothing. */
  @Nullable Result fit(Pose start) {
    Pose pose = start;
    double scale = START_SCALE * look.contrast;
    boolean converged = false;
    double last = 1;
    double damping = 1;
    double[] before = {0, 0};
    double[] u = new double[UNKNOWNS];
    double[][] residuals = new double[3][];
    TaughtWindow seen = window(pose);
    for (int round = 0; round < ROUNDS && !converged; round++) {
      double[] gains = round == 0 ? new double[] {1, 1, 1} : new double[] {u[3], u[4], u[5]};
      double[][] n = new double[UNKNOWNS][UNKNOWNS];
      double[] r = new double[UNKNOWNS];
      if (!accumulate(seen, gains, round == 0 ? null : residuals, scale, n, r)) {
        return null;
      }
      double[][] inverse = Matrices.inverse(n);
      if (inverse == null) {
        return null;
      }
      u = Matrices.times(inverse, r);
      // Steps to and fro mean that they are too long.
      damping *= before[0] * u[0] + before[1] * u[1] < 0 ? 0.6 : 1;
      before = new double[] {u[0], u[1]};
      Pose next = moved(pose, u, Math.max(0.2, damping));
      double step = Math.hypot(u[0], u[1]) + Math.abs(u[2]) * arm();
      last = step / look.cellMm;
      // Robust weights change with every round: a hundredth of a pixel is as far as that matters.
      converged = last < 2e-3 && round > 3;
      pose = next;
      if (Math.hypot(pose.xMm() - start.xMm(), pose.yMm() - start.yMm()) > 1) {
        return null;
      }
      seen = window(pose);
      double spread = Math.max(LEAST_SCALE * look.contrast, residuals(seen, u, residuals));
      // Wide at first, so that edges still off count; fixed in the end, or weights chase their
      // tail.
      scale =
          round < SETTLED ? Math.max(spread, START_SCALE * look.contrast / (1 << round)) : scale;
    }
    return result(pose, seen, u, residuals, scale, last < 0.02);
  }

  private double arm() {
    return Math.hypot(look.width, look.height) * look.cellMm / 2;
  }

  private TaughtWindow window(Pose at) {
    return TaughtWindow.of(
        picture,
        map,
        at,
        heightMm,
        look.width,
        look.height,
        look.originX,
        look.originY,
        look.cellMm);
  }

  private Pose moved(Pose p, double[] u, double damping) {
    double limit = 1.5 * look.cellMm;
    double f = damping * Math.min(1, limit / Math.max(1e-12, Math.hypot(u[0], u[1])));
    double turn = damping * Math.max(-0.08, Math.min(0.08, u[2]));
    double c = Angles.cosDeg(p.rotationDeg());
    double s = Angles.sinDeg(p.rotationDeg());
    return new Pose(
        p.xMm() + f * (c * u[0] - s * u[1]),
        p.yMm() + f * (s * u[0] + c * u[1]),
        Angles.wrap(p.rotationDeg() + Math.toDegrees(turn)));
  }

  /** Derivatives of the picture's cell by x, y and rotation of the part frame. */
  private boolean row(TaughtWindow seen, double gain, int c, int k, double[] row) {
    int w = look.width;
    double[] v = seen.values[c];
    double[] t = look.values[c];
    double sx = (v[k + 1] - v[k - 1]) / 2;
    double sy = (v[k - w] - v[k + w]) / 2;
    double tx = gain * (t[k + 1] - t[k - 1]) / 2;
    double ty = gain * (t[k - w] - t[k + w]) / 2;
    double gx = (sx + tx) / 2 / look.cellMm;
    double gy = (sy + ty) / 2 / look.cellMm;
    Arrays.fill(row, 3, 9, 0);
    row[0] = gx;
    row[1] = gy;
    row[2] = look.x(k) * gy - look.y(k) * gx;
    row[3 + c] = -t[k];
    row[6 + c] = -1;
    row[9] = -look.curvature[c][k];
    return Double.isFinite(gx + gy + v[k]);
  }

  private boolean accumulate(
      TaughtWindow seen,
      double[] gains,
      double @Nullable [][] residuals,
      double scale,
      double[][] n,
      double[] r) {
    double[] row = new double[UNKNOWNS];
    double lost = 0;
    double all = 0;
    for (int j = 1; j < look.height - 1; j++) {
      for (int i = 1; i < look.width - 1; i++) {
        int k = j * look.width + i;
        double weight = look.weights[k];
        if (weight == 0) {
          continue;
        }
        all += weight;
        for (int c = 0; c < 3; c++) {
          if (!row(seen, gains[c], c, k, row)) {
            lost += weight / 3;
            continue;
          }
          double robust = residuals == null ? 1 : robust(residuals[c][k], scale);
          accumulate(n, r, row, c, -seen.values[c][k], weight * robust);
        }
      }
    }
    // Gains of a channel that says nothing stay near one.
    for (int c = 0; c < 3; c++) {
      n[3 + c][3 + c] += 1e-3 * all;
      r[3 + c] += 1e-3 * all;
    }
    n[9][9] += 0.5 * all;
    return all > 0 && lost < 0.02 * all;
  }

  /** Adds one cell of one channel, whose row is empty but for six places. */
  private static void accumulate(
      double[][] n, double[] r, double[] row, int c, double y, double weight) {
    int[] places = PLACES[c];
    for (int i : places) {
      double wi = weight * row[i];
      r[i] += wi * y;
      double[] to = n[i];
      for (int j : places) {
        to[j] += wi * row[j];
      }
    }
  }

  /** Geman and McClure's weight: what lies far off counts for nothing. */
  private static double robust(double residual, double scale) {
    double q = residual / (3 * scale);
    double w = 1 / (1 + q * q);
    return w * w;
  }

  /** Writes what is left of each cell and gives its robust spread, grey levels. */
  private double residuals(TaughtWindow seen, double[] u, double[][] out) {
    int stride = 1 + 3 * look.weights.length / SAMPLES;
    double[] size = new double[3 * look.weights.length / stride + 1];
    int m = 0;
    int passed = 0;
    for (int c = 0; c < 3; c++) {
      out[c] = new double[look.weights.length];
      for (int k = 0; k < look.weights.length; k++) {
        double model = u[3 + c] * look.values[c][k] + u[6 + c] + u[9] * look.curvature[c][k];
        out[c][k] = seen.values[c][k] - model;
        if (look.weights[k] > 0 && Double.isFinite(out[c][k]) && passed++ % stride == 0) {
          size[m++] = Math.abs(out[c][k]);
        }
      }
    }
    Arrays.sort(size, 0, m);
    return m == 0 ? 0 : 1.4826 * size[m / 2];
  }

  private @Nullable Result result(
      Pose pose,
      TaughtWindow seen,
      double[] u,
      double[][] residuals,
      double scale,
      boolean converged) {
    double[][] cov = covariance(seen, u, residuals, scale);
    if (cov == null) {
      return null;
    }
    double[] gains = {u[3], u[4], u[5]};
    double gain = Math.max(0.3, (u[3] + u[4] + u[5]) / 3);
    double limit = 0.45 * look.contrast * gain;
    double[] agree = new double[4];
    double[] all = new double[4];
    double square = 0;
    double[] middle = middle();
    for (int k = 0; k < look.weights.length; k++) {
      double w = look.weights[k];
      if (w == 0) {
        continue;
      }
      double e = 0;
      for (int c = 0; c < 3; c++) {
        e += residuals[c][k] * residuals[c][k];
      }
      square += w * e / 3;
      int q = (look.x(k) < middle[0] ? 0 : 1) + (look.y(k) < middle[1] ? 0 : 2);
      all[q] += w;
      agree[q] += Math.sqrt(e) < limit ? w : 0;
    }
    double worst = 1;
    double sum = Arrays.stream(all).sum();
    for (int q = 0; q < 4; q++) {
      if (all[q] > 0.05 * sum) {
        worst = Math.min(worst, agree[q] / all[q]);
      }
    }
    return new Result(
        pose,
        cov,
        gains,
        correlation(seen),
        Arrays.stream(agree).sum() / sum,
        worst,
        Math.sqrt(square / sum),
        converged);
  }

  private double[] middle() {
    double x = 0;
    double y = 0;
    double n = 1e-9;
    for (int k = 0; k < look.weights.length; k++) {
      x += look.weights[k] * look.x(k);
      y += look.weights[k] * look.y(k);
      n += look.weights[k];
    }
    return new double[] {x / n, y / n};
  }

  /** Correlation over all channels, each about its own mean: colours may shift, not swap. */
  private double correlation(TaughtWindow seen) {
    double tt = 1e-9;
    double ss = 1e-9;
    double ts = 0;
    for (int c = 0; c < 3; c++) {
      double[] t = look.values[c];
      double[] s = seen.values[c];
      double n = 0;
      double mt = 0;
      double ms = 0;
      for (int k = 0; k < t.length; k++) {
        n += look.weights[k];
        mt += look.weights[k] * t[k];
        ms += look.weights[k] == 0 ? 0 : look.weights[k] * s[k];
      }
      for (int k = 0; k < t.length; k++) {
        if (look.weights[k] > 0) {
          double a = t[k] - mt / n;
          double b = s[k] - ms / n;
          tt += look.weights[k] * a * a;
          ss += look.weights[k] * b * b;
          ts += look.weights[k] * a * b;
        }
      }
    }
    return ts / Math.sqrt(tt * ss);
  }

  private double @Nullable [][] covariance(
      TaughtWindow seen, double[] u, double[][] residuals, double scale) {
    double[][] n = new double[UNKNOWNS][UNKNOWNS];
    int side = (int) Math.max(2, Math.round(BLOCK));
    int columns = (look.width + side - 1) / side;
    int rows = (look.height + side - 1) / side;
    double[][] scores = new double[columns * rows][];
    double[] row = new double[UNKNOWNS];
    double[] none = new double[UNKNOWNS];
    for (int j = 1; j < look.height - 1; j++) {
      for (int i = 1; i < look.width - 1; i++) {
        int k = j * look.width + i;
        for (int c = 0; c < 3 && look.weights[k] > 0; c++) {
          if (!row(seen, u[3 + c], c, k, row)) {
            continue;
          }
          double w = look.weights[k] * robust(residuals[c][k], scale);
          accumulate(n, none, row, c, 0, w);
          int b = (j / side) * columns + i / side;
          if (scores[b] == null) {
            scores[b] = new double[UNKNOWNS];
          }
          for (int a = 0; a < UNKNOWNS; a++) {
            scores[b][a] += w * residuals[c][k] * row[a];
          }
        }
      }
    }
    n[9][9] += 1e-6;
    double[][] inverse = Matrices.inverse(n);
    if (inverse == null) {
      return null;
    }
    double[][] meat = new double[UNKNOWNS][UNKNOWNS];
    int blocks = 0;
    for (double[] s : scores) {
      if (s != null) {
        blocks++;
        Matrices.accumulate(meat, none, s, 0, 1);
      }
    }
    // Few blocks have been fitted closer than the noise allows.
    double few = blocks / Math.max(1.0, blocks - 5.0);
    double[][] out = new double[3][3];
    for (int a = 0; a < 3; a++) {
      double[] left = Matrices.times(meat, inverse[a]);
      for (int b = 0; b < 3; b++) {
        double s = 0;
        for (int k = 0; k < UNKNOWNS; k++) {
          s += left[k] * inverse[b][k];
        }
        out[a][b] = few * s;
      }
    }
    return out;
  }
}
