package org.padtrue.imaging.picture;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * Centre of a round mark to a fraction of a pixel: the rim is located in short stretches all
 * around, and a robust fit of centre, radius and a slight ellipse joins them. Rings around the mark
 * and glare on part of it fall out as outliers.
 */
public final class CircleFit {
  /**
   * A round mark.
   *
   * @param x centre, px
   * @param y centre, px
   * @param radius px
   * @param u standard uncertainty of each coordinate, px
   * @param support share of the rim that was seen where the fit says
   * @param sigmaPx blur used
   */
  public record Mark(double x, double y, double radius, double u, double support, double sigmaPx) {}

  private CircleFit() {}

  /**
   * Fits from a start within about a third of the radius.
   *
   * @return the mark, or null when no rim is seen
   */
  public static @Nullable Mark fit(Picture p, double x, double y, double radius, double sigmaPx) {
    double reach = 1.8 * radius + 8;
    Plane plane = p.plane(x - reach, y - reach, x + reach, y + reach);
    int n = Math.max(16, Math.min(48, (int) (2 * Math.PI * radius / 4)));
    double[] at = {x, y, radius, 0, 0};
    double sigma = Math.max(sigmaPx, Math.min(0.2 * radius, 4));
    @Nullable Mark mark = null;
    for (int i = 0; i < 8; i++) {
      mark = step(plane, at, n, sigma, sigma <= sigmaPx * 1.01);
      if (mark == null || !(at[2] > 1.5) || at[2] > 1.7 * radius || at[2] < 0.5 * radius) {
        return null;
      }
      if (Math.hypot(at[0] - x, at[1] - y) > radius) {
        return null;
      }
      sigma = Math.max(sigmaPx, 0.5 * sigma);
    }
    return mark;
  }

  private static @Nullable Mark step(Plane plane, double[] at, int n, double sigma, boolean last) {
    double[][] rows = new double[n][];
    double[] off = new double[n];
    double[] sd = new double[n];
    int m = 0;
    double half = Math.PI * at[2] / n;
    double band = 2 * sigma + 1;
    for (int i = 0; i < n; i++) {
      double a = 2 * Math.PI * (i + 0.5) / n;
      double c = Math.cos(a);
      double s = Math.sin(a);
      double r = at[2] + at[3] * Math.cos(2 * a) + at[4] * Math.sin(2 * a);
      EdgeLocator.Seen seen =
          EdgeLocator.locate(
              plane,
              new EdgeLocator.Where(
                  at[0] + r * c,
                  at[1] + r * s,
                  c,
                  s,
                  Math.max(0.7, half),
                  Math.min(band, 0.6 * r),
                  band,
                  Double.NaN,
                  0,
                  1),
              sigma,
              false);
      if (seen.usable()) {
        rows[m] = new double[] {c, s, 1, Math.cos(2 * a), Math.sin(2 * a)};
        off[m] = seen.offsetPx();
        sd[m] = Math.hypot(Math.sqrt(seen.variance()), 0.03);
        m++;
      }
    }
    if (m < Math.max(7, n / 3)) {
      return null;
    }
    return join(at, Arrays.copyOf(rows, m), off, sd, n, sigma, last);
  }

  private static @Nullable Mark join(
      double[] at, double[][] rows, double[] off, double[] sd, int n, double sigma, boolean last) {
    int m = rows.length;
    double[] w = new double[m];
    Arrays.fill(w, 1);
    double[] d = new double[5];
    double scale = 1;
    double[][] inverse = null;
    for (int k = 0; k < 10; k++) {
      double[][] a = new double[5][5];
      double[] b = new double[5];
      // The ellipse stays small: a mark is round, the view nearly straight.
      double e = 0.04 * at[2] + 0.2;
      a[3][3] = a[4][4] = 1 / (e * e);
      b[3] = -at[3] / (e * e);
      b[4] = -at[4] / (e * e);
      for (int i = 0; i < m; i++) {
        Matrices.accumulate(a, b, rows[i], off[i], w[i] / (sd[i] * sd[i] * scale * scale));
      }
      inverse = Matrices.inverse(a);
      if (inverse == null) {
        return null;
      }
      d = Matrices.times(inverse, b);
      double[] z = new double[m];
      for (int i = 0; i < m; i++) {
        double f = 0;
        for (int j = 0; j < 5; j++) {
          f += rows[i][j] * d[j];
        }
        z[i] = Math.abs(off[i] - f) / sd[i];
      }
      double[] sorted = z.clone();
      Arrays.sort(sorted);
      scale = Math.max(1, 1.4826 * sorted[m / 2]);
      for (int i = 0; i < m; i++) {
        double u = z[i] / scale / 4.685;
        w[i] =
            k < 3 ? 1 / Math.max(1, z[i] / scale / 1.345) : u >= 1 ? 0 : (1 - u * u) * (1 - u * u);
      }
    }
    double seen = 0;
    for (int i = 0; i < m; i++) {
      double f = off[i];
      for (int j = 0; j < 5; j++) {
        f -= rows[i][j] * d[j];
      }
      seen += Math.abs(f) < 0.5 + 0.02 * at[2] ? 1 : 0;
    }
    for (int j = 0; j < 5; j++) {
      at[j] += d[j];
    }
    double[][] v = java.util.Objects.requireNonNull(inverse);
    double u = Math.hypot(Math.sqrt((v[0][0] + v[1][1]) / 2), last ? 0.02 : 0.1);
    return new Mark(at[0], at[1], at[2], u, seen / n, sigma);
  }
}
