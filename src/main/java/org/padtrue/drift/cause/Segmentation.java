package org.padtrue.drift.cause;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Least-squares breaks in the mean of weighted points (Bai and Perron 2003): for each number of
 * breaks the best places, by dynamic programming. BIC counts a mean per segment, a place per break
 * and the variance.
 *
 * <p>Values are in the unit of the series, rss in its square; bic has no unit.
 *
 * @param starts index of the first point of every segment after the first
 * @param rss weighted residual sum of squares
 * @param bic n (ln(rss/n) + 1 + ln 2 pi) + ln n (2 breaks + 2), up to a constant of the weights
 */
public record Segmentation(int[] starts, double rss, double bic) {
  /** Longer series are broken on a grid first and then moved to the best place. */
  private static final int GRID = 300;

  /**
   * Best segmentations with 0, 1, ... breaks, as many as fit.
   *
   * @param y values
   * @param sigma relative standard deviations
   * @param maxBreaks at most
   * @param minSegment fewest points of a segment
   */
  public static List<Segmentation> fits(double[] y, double[] sigma, int maxBreaks, int minSegment) {
    int n = y.length;
    Sums sums = new Sums(y, sigma);
    int[] grid = grid(n, minSegment);
    int m = grid.length - 1;
    double[][] best = new double[maxBreaks + 1][m + 1];
    int[][] from = new int[maxBreaks + 1][m + 1];
    for (double[] row : best) {
      Arrays.fill(row, Double.POSITIVE_INFINITY);
    }
    for (int j = 1; j <= m; j++) {
      best[0][j] = grid[j] >= minSegment ? sums.cost(0, grid[j]) : Double.POSITIVE_INFINITY;
    }
    List<Segmentation> fits = new ArrayList<>();
    fits.add(of(new int[0], sums, n));
    for (int k = 1; k <= maxBreaks; k++) {
      for (int j = 1; j <= m; j++) {
        for (int i = 1; i < j; i++) {
          if (grid[j] - grid[i] >= minSegment && best[k - 1][i] < best[k][j]) {
            double c = best[k - 1][i] + sums.cost(grid[i], grid[j]);
            if (c < best[k][j]) {
              best[k][j] = c;
              from[k][j] = i;
            }
          }
        }
      }
      if (Double.isInfinite(best[k][m])) {
        break;
      }
      int[] starts = new int[k];
      int at = m;
      for (int b = k; b > 0; b--) {
        at = from[b][at];
        starts[b - 1] = grid[at];
      }
      fits.add(of(refine(starts, sums, n, minSegment, grid), sums, n));
    }
    return fits;
  }

  private static int[] grid(int n, int minSegment) {
    int step = Math.max(1, (int) Math.ceil((double) n / GRID));
    List<Integer> g = new ArrayList<>();
    g.add(0);
    for (int i = Math.max(1, minSegment); i < n; i += step) {
      g.add(i);
    }
    g.add(n);
    return g.stream().mapToInt(Integer::intValue).toArray();
  }

  // Moves each break to the best place between its neighbours, near where the grid put it.
  private static int[] refine(int[] starts, Sums sums, int n, int minSegment, int[] grid) {
    int reach = grid.length > 2 ? grid[2] - grid[1] : 0;
    if (reach <= 1) {
      return starts;
    }
    for (int pass = 0; pass < 2; pass++) {
      for (int b = 0; b < starts.length; b++) {
        int low = b == 0 ? 0 : starts[b - 1];
        int high = b + 1 < starts.length ? starts[b + 1] : n;
        int best = starts[b];
        double bestCost = Double.POSITIVE_INFINITY;
        int first = Math.max(low + minSegment, starts[b] - reach);
        int last = Math.min(high - minSegment, starts[b] + reach);
        for (int i = first; i <= last; i++) {
          double c = sums.cost(low, i) + sums.cost(i, high);
          if (c < bestCost) {
            bestCost = c;
            best = i;
          }
        }
        starts[b] = best;
      }
    }
    return starts;
  }

  private static Segmentation of(int[] starts, Sums sums, int n) {
    double rss = 0;
    int from = 0;
    for (int s : starts) {
      rss += sums.cost(from, s);
      from = s;
    }
    rss += sums.cost(from, n);
    return new Segmentation(starts, rss, bic(rss, n, 2 * starts.length + 2));
  }

  /** Schwarz's criterion of a Gaussian fit. */
  static double bic(double rss, int n, int parameters) {
    return n * (Math.log(Math.max(rss, Double.MIN_NORMAL) / n) + 1 + Math.log(2 * Math.PI))
        + Math.log(n) * parameters;
  }

  /** Running sums of weights, centred so that squares do not cancel. */
  private static final class Sums {
    private final double[] w;
    private final double[] wy;
    private final double[] wyy;

    Sums(double[] y, double[] sigma) {
      int n = y.length;
      w = new double[n + 1];
      wy = new double[n + 1];
      wyy = new double[n + 1];
      double centre = Arrays.stream(y).average().orElse(0);
      for (int i = 0; i < n; i++) {
        double weight = 1 / (sigma[i] * sigma[i]);
        double d = y[i] - centre;
        w[i + 1] = w[i] + weight;
        wy[i + 1] = wy[i] + weight * d;
        wyy[i + 1] = wyy[i] + weight * d * d;
      }
    }

    double cost(int from, int to) {
      double sw = w[to] - w[from];
      double swy = wy[to] - wy[from];
      return Math.max(0, wyy[to] - wyy[from] - swy * swy / sw);
    }
  }
}
