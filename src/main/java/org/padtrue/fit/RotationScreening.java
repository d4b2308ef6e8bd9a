package org.padtrue.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Order;
import org.padtrue.numeric.ScatterPrior;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.quantity.Angles;

/** Rotations that are far from their own type's median; types that are turned alike. */
final class RotationScreening {
  /** Less than this is never called gross, degrees. */
  private static final double LEAST_DEG = 0.5;

  private static final double MAD_EFFICIENCY = 0.37;

  private final DeviationTable t;
  private final @Nullable LevelColumn part;
  private final @Nullable Finding[] findings;
  private final double[] r;
  private final int types;
  private final int[] rows;
  private double centre;
  private double[] median;
  private double[] scale;
  private double[] df;
  private double wide;

  private RotationScreening(
      DeviationTable t,
      int[] symmetry,
      @Nullable LevelColumn part,
      int[] zero,
      @Nullable Finding[] findings) {
    this.t = t;
    this.part = part;
    this.findings = findings;
    types = part == null ? 0 : part.levels().size();
    rows = new int[types];
    median = new double[types];
    scale = new double[types];
    df = new double[types];
    r = new double[t.size()];
    for (int i = 0; i < r.length; i++) {
      int k = type(i);
      r[i] = Angles.wrap(t.dr()[i] - (k < 0 ? 0 : zero[k]), symmetry[i]);
      if (k >= 0 && clean(i)) {
        rows[k]++;
      }
    }
  }

  static void screen(
      DeviationTable t,
      int[] symmetry,
      @Nullable LevelColumn part,
      int[] zero,
      @Nullable Finding[] findings,
      List<Apart> apart) {
    RotationScreening s = new RotationScreening(t, symmetry, part, zero, findings);
    if (s.learn()) {
      s.judge();
      s.types(apart);
    }
  }

  private int type(int i) {
    return part == null ? -1 : part.level()[i];
  }

  private boolean clean(int i) {
    return !Double.isNaN(r[i]) && findings[i] == null;
  }

  private boolean own(int k) {
    return k >= 0 && rows[k] >= Apart.ENOUGH;
  }

  /** Medians and scales by type; false when there is too little to judge by. */
  private boolean learn() {
    double[][] by = new double[types][];
    for (int k = 0; k < types; k++) {
      by[k] = new double[rows[k]];
    }
    int[] at = new int[types];
    double[] all = new double[r.length];
    int c = 0;
    for (int i = 0; i < r.length; i++) {
      if (clean(i)) {
        all[c++] = r[i];
        if (type(i) >= 0) {
          by[type(i)][at[type(i)]++] = r[i];
        }
      }
    }
    if (c < 6) {
      return false;
    }
    centre = Order.median(all, c);
    int groups = 1;
    for (int k = 0; k < types; k++) {
      median[k] = own(k) ? Order.median(by[k], rows[k]) : centre;
      groups += own(k) ? 1 : 0;
    }
    double[] dev = new double[c];
    int m = 0;
    double[] far = new double[c];
    for (int i = 0; i < r.length; i++) {
      if (clean(i)) {
        far[m] = r[i] - centre;
        dev[m++] = r[i] - (own(type(i)) ? median[type(i)] : centre);
      }
    }
    // Medians eat degrees of freedom; a robust scale is worth about four tenths of them.
    double full = Math.max(2, c - groups);
    double pooled = Math.max(1e-6, Order.scale(dev, c) * Math.sqrt(c / full));
    double[] s2 = new double[types];
    double[] d = new double[types];
    for (int k = 0; k < types; k++) {
      if (rows[k] >= 4) {
        double[] own = new double[rows[k]];
        for (int j = 0; j < own.length; j++) {
          own[j] = by[k][j] - median[k];
        }
        double rest = (rows[k] - 1.0) / rows[k];
        s2[k] = Math.max(1e-12, Math.pow(Order.scale(own, own.length), 2) / rest);
        d[k] = MAD_EFFICIENCY * (rows[k] - 1);
      }
    }
    double[] v = new double[types];
    double[] f = new double[types];
    if (types > 0) {
      ScatterPrior prior = ScatterPrior.ofMoments(s2, d);
      v = prior.variances(s2, d);
      f = prior.degreesOfFreedom(d);
    }
    for (int k = 0; k < types; k++) {
      boolean known = v[k] > 0;
      scale[k] = known ? Math.sqrt(v[k]) : pooled;
      df[k] = known ? f[k] : MAD_EFFICIENCY * full;
    }
    wide = Order.scale(far, c);
    pooledScale = pooled;
    pooledDf = MAD_EFFICIENCY * full;
    return true;
  }

  private double pooledScale;
  private double pooledDf;

  private void judge() {
    int n = r.length;
    boolean[] turned = new boolean[n];
    Map<Double, Double> limits = new HashMap<>();
    for (int i = 0; i < n; i++) {
      if (!clean(i)) {
        continue;
      }
      int k = type(i);
      double s = k < 0 ? pooledScale : scale[k];
      double f = Math.max(2, k < 0 ? pooledDf : df[k]);
      double expected = own(k) ? median[k] : centre;
      double width = own(k) ? s * Math.sqrt(1 + 1.57 / rows[k]) : Math.hypot(s, wide);
      double d = Math.abs(r[i] - expected);
      double limit = limits.computeIfAbsent(f, df -> Math.sqrt(Screening.limit(n, 1, df)));
      turned[i] = width > 0 && d > limit * width && d > LEAST_DEG;
    }
    for (int i = 0; i < n; i++) {
      if (turned[i] && !alone(i, turned)) {
        int k = type(i);
        findings[i] = finding(i, own(k) ? median[k] : centre, k < 0 ? pooledScale : scale[k]);
      }
    }
  }

  private final List<Integer> asked = new ArrayList<>();

  /** True when a turned row and those that agree with it are all that is known of a type. */
  private boolean alone(int i, boolean[] turned) {
    int k = type(i);
    if (k < 0 || own(k)) {
      return false;
    }
    for (int j = 0; j < r.length; j++) {
      if (type(j) == k && clean(j) && (!turned[j] || Math.abs(r[j] - r[i]) > 4 * scale[k])) {
        return false;
      }
    }
    asked.add(i);
    return true;
  }

  private Finding finding(int i, double expected, double s) {
    String id = t.rows().get(i).id();
    double tenth = Math.abs(r[i] / 10 - expected) / s;
    if (tenth < 1 && Math.abs(expected) > 3 * s) {
      return new Finding(
          Finding.Kind.DECIMAL_SLIP,
          String.format(
              Locale.ROOT,
              "%s: rotation is recorded %+.2f degrees off where %+.2f would fit: the decimal point"
                  + " looks one place off",
              id,
              r[i],
              r[i] / 10));
    }
    return new Finding(
        Finding.Kind.GROSS,
        String.format(
            Locale.ROOT,
            "%s is turned by %+.2f degrees where its type shows %+.2f: measure it again and look at"
                + " the part",
            id,
            r[i],
            expected));
  }

  /** Types that are turned apart from the others: alike, or all that is known of them. */
  private void types(List<Apart> apart) {
    if (part == null) {
      return;
    }
    int levels = 0;
    double[] m = new double[types];
    for (int k = 0; k < types; k++) {
      if (own(k)) {
        m[levels++] = median[k] - centre;
      }
    }
    double spread = Order.scale(Arrays.copyOf(m, levels), levels);
    double[] own = new double[types];
    Arrays.fill(own, Double.NaN);
    for (int i : asked) {
      own[type(i)] = r[i] - centre;
    }
    double limit = levels < 3 ? Double.NaN : limit(levels);
    for (int k = 0; k < types; k++) {
      if (own(k) && levels >= 3) {
        double d = median[k] - centre;
        double s2 = spread * spread + scale[k] * scale[k] * (1 + 1.57 / rows[k]);
        if (d * d > limit * s2 && Math.abs(d) > LEAST_DEG) {
          own[k] = d;
        }
      }
      if (!Double.isNaN(own[k])) {
        merge(apart, k, own[k]);
      }
    }
  }

  private static double limit(int levels) {
    return new org.apache.commons.math3.distribution.FDistribution(
            null, 1, Math.max(2, MAD_EFFICIENCY * (levels - 1)))
        .inverseCumulativeProbability(1 - Screening.FALSE_ALARM / levels);
  }

  private void merge(List<Apart> apart, int k, double deg) {
    String level = part == null ? "" : part.levels().get(k);
    for (int i = 0; i < apart.size(); i++) {
      Apart a = apart.get(i);
      if (a.factor() == Factor.PART && a.level().equals(level)) {
        apart.set(
            i, new Apart(a.factor(), level, a.count(), a.position(), true, a.xMm(), a.yMm(), deg));
        return;
      }
    }
    apart.add(new Apart(Factor.PART, level, rows[k], false, true, Double.NaN, Double.NaN, deg));
  }
}
