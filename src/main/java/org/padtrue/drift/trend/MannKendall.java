package org.padtrue.drift.trend;

import java.util.Arrays;
import org.padtrue.numeric.Tail;

/**
 * Mann-Kendall test for a monotone trend, ties in x and y allowed.
 *
 * <p>All are pure numbers.
 *
 * @param s concordant minus discordant pairs
 * @param variance of S when there is no trend, ties included (Hipel and McLeod 1994)
 * @param z with continuity correction, 0 when S is 0
 * @param p two-sided
 * @param exact true when p is from the exact law (no ties, up to 60 points)
 * @param tauA S over all pairs
 * @param tauB S over pairs not tied, Kendall's tau-b
 */
public record MannKendall(
    long s, double variance, double z, double p, boolean exact, double tauA, double tauB) {

  /** Tests y against x. */
  public static MannKendall test(double[] x, double[] y) {
    int n = x.length;
    long s = 0;
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        s += (long) (Math.signum(x[j] - x[i]) * Math.signum(y[j] - y[i]));
      }
    }
    Ties tx = Ties.of(x);
    Ties ty = Ties.of(y);
    double variance = variance(n, tx, ty);
    double z = variance > 0 ? (s - Long.signum(s)) / Math.sqrt(variance) : 0;
    boolean exact = n <= KendallDistribution.LONGEST && tx.pairs == 0 && ty.pairs == 0 && n > 1;
    double p =
        exact
            ? Math.min(1, 2 * KendallDistribution.upper(n, Math.abs(s)))
            : Math.min(1, 2 * Tail.normalCdf(-Math.abs(z)));
    double pairs = 0.5 * n * (n - 1);
    double tauB = s / Math.sqrt((pairs - tx.pairs) * (pairs - ty.pairs));
    return new MannKendall(s, variance, z, p, exact, s / pairs, tauB);
  }

  static double variance(double[] x, double[] y) {
    return variance(x.length, Ties.of(x), Ties.of(y));
  }

  // Kendall 1975, with the cross terms that count only when both x and y have ties.
  private static double variance(int n, Ties x, Ties y) {
    double m = n;
    double v = (m * (m - 1) * (2 * m + 5) - x.v - y.v) / 18;
    if (n > 2) {
      v += x.triples * y.triples / (9 * m * (m - 1) * (m - 2));
    }
    if (n > 1) {
      v += x.pairs * y.pairs * 2 / (m * (m - 1));
    }
    return v;
  }

  /** Sums over groups of equal values: t(t-1)(2t+5), t(t-1)(t-2), t(t-1)/2. */
  private record Ties(double v, double triples, double pairs) {
    static Ties of(double[] values) {
      double[] a = values.clone();
      Arrays.sort(a);
      double v = 0;
      double triples = 0;
      double pairs = 0;
      int i = 0;
      while (i < a.length) {
        int j = i;
        while (j < a.length && a[j] == a[i]) {
          j++;
        }
        double t = j - i;
        v += t * (t - 1) * (2 * t + 5);
        triples += t * (t - 1) * (t - 2);
        pairs += 0.5 * t * (t - 1);
        i = j;
      }
      return new Ties(v, triples, pairs);
    }
  }
}
