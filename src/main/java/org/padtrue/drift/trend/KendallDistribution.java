package org.padtrue.drift.trend;

/** Exact null distribution of Kendall's S without ties (Kendall 1938; Mann 1945). */
final class KendallDistribution {
  /** Longest series for which the exact law is used; beyond it the normal one is as good. */
  static final int LONGEST = 60;

  private KendallDistribution() {}

  /**
   * P(S &gt;= s) for n points.
   *
   * @param s as S = concordant minus discordant
   */
  static double upper(int n, long s) {
    double[] p = inversions(n);
    // S = N - 2 * inversions, so S >= s means inversions <= (N - s) / 2
    long most = Math.floorDiv((long) n * (n - 1) / 2 - s, 2L);
    double sum = 0;
    for (int i = 0; i <= Math.min(most, p.length - 1); i++) {
      sum += p[i];
    }
    return sum;
  }

  // Probabilities of 0, 1, ... inversions in a random permutation of n.
  private static double[] inversions(int n) {
    double[] p = {1};
    for (int k = 2; k <= n; k++) {
      double[] next = new double[p.length + k - 1];
      for (int i = 0; i < p.length; i++) {
        for (int j = 0; j < k; j++) {
          next[i + j] += p[i] / k;
        }
      }
      p = next;
    }
    return p;
  }
}
