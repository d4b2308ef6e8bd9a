package org.padtrue.mixed;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.mixed.reml.Estimation;
import org.padtrue.mixed.reml.MixedSystem;
import org.padtrue.mixed.reml.RandomEffects;
import org.padtrue.mixed.reml.RandomEffectsFit;
import org.padtrue.mixed.reml.ThetaSearch;
import org.padtrue.numeric.ScatterPrior;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;

/**
 * Weights of the rows: variances by part type that lean on each other, and sigma^2 + u_i^2 where
 * stated uncertainties differ. REML by the sums of 1 - leverage, as in {@link ScatterSearch}.
 */
final class RotationWeights {
  private static final int ROUNDS = 10;
  private final RotationModel.Build b;
  private final int[] theta;
  private final int[] block;
  private final List<String> types;
  private final int[] typeOf;
  private final double[] mean2;
  private final double[] relative;
  private final int rows;
  private double[] w = {};
  private double[] at = {};
  private double[] ss = {};
  private double[] df = {};
  private double meanVariance = Double.NaN;
  private double[] variance = {};
  private double[] degreesOfFreedom = {};
  private double other;
  private double otherDf;

  RotationWeights(RotationModel.Build b, int[] theta, int[] block) {
    this.b = b;
    this.theta = theta;
    this.block = block;
    int n = b.response().length;
    @Nullable LevelColumn part = b.table().factors().get(Factor.PART);
    boolean all = part != null && Arrays.stream(part.level()).allMatch(l -> l >= 0);
    types = part == null || !all ? List.of("") : part.levels();
    typeOf = part == null || !all ? new int[n] : part.level();
    mean2 = new double[types.size()];
    relative = new double[n];
    Arrays.fill(relative, 1);
    int[] count = new int[types.size()];
    int seen = 0;
    for (int i = 0; i < n; i++) {
      if (!Double.isNaN(b.response()[i])) {
        mean2[typeOf[i]] += u2(i);
        count[typeOf[i]]++;
        seen++;
      }
    }
    for (int k = 0; k < mean2.length; k++) {
      mean2[k] /= Math.max(1, count[k]);
    }
    rows = seen;
  }

  private double u2(int i) {
    double u = b.table().ur()[i];
    return Double.isNaN(u) ? 0 : u * u;
  }

  RandomEffects model() {
    return new RandomEffects(b.products(w), theta, block, b.base().length);
  }

  void run(boolean equal) {
    boolean differ = false;
    for (int i = 0; i < relative.length; i++) {
      differ |= Math.abs(u2(i) - mean2[typeOf[i]]) > 1e-12 * u2(i);
    }
    if (rows < 5 || equal && !differ && alike()) {
      return;
    }
    for (int round = 0; round < ROUNDS; round++) {
      look();
      double[] s2 = new double[ss.length];
      double sum = 0;
      double free = 0;
      for (int k = 0; k < s2.length; k++) {
        df[k] = df[k] < 0.25 ? 0 : df[k];
        s2[k] = df[k] == 0 ? 0 : Math.max(ss[k] / df[k], 1e-14);
        sum += ss[k];
        free += df[k];
      }
      if (!(free >= 0.25)) {
        return;
      }
      double[] last = variance;
      if (equal) {
        variance = filled(s2.length, sum / free);
        degreesOfFreedom = filled(s2.length, free);
        other = sum / free;
        otherDf = free;
      } else {
        variance = ScatterPrior.ofMoments(s2, df).variances(s2, df);
      }
      weigh(variance, equal);
      boolean settled = last.length > 0;
      for (int k = 0; k < last.length; k++) {
        settled &= Math.abs(last[k] - variance[k]) <= 1e-3 * last[k];
      }
      if (settled || round == ROUNDS - 1) {
        if (!equal) {
          // What is left open of the prior is averaged; one group more: a type not measured.
          int n = s2.length;
          ModeratedScatter m =
              ModeratedScatter.of(Arrays.copyOf(s2, n + 1), Arrays.copyOf(df, n + 1));
          variance = Arrays.copyOf(m.variance(), n);
          degreesOfFreedom = Arrays.copyOf(m.df(), n);
          other = m.variance()[n];
          otherDf = m.df()[n];
          weigh(variance, false);
        }
        return;
      }
    }
  }

  private static double[] filled(int n, double v) {
    double[] a = new double[n];
    Arrays.fill(a, v);
    return a;
  }

  private boolean alike() {
    for (double m : mean2) {
      if (Math.abs(m - mean2[0]) > 1e-12 * m) {
        return false;
      }
    }
    return true;
  }

  private void weigh(double[] variance, boolean equal) {
    double pooled = 0;
    for (int k = 0; k < mean2.length; k++) {
      pooled += mean2[k] / mean2.length;
    }
    w = new double[relative.length];
    double sum = 0;
    for (int i = 0; i < w.length; i++) {
      double total = variance[typeOf[i]];
      // One variance of placing for all: the uncertainty is what differs, also between types.
      double m = equal ? pooled : mean2[typeOf[i]];
      double placing = Math.max(total - m, (equal ? 1e-3 : 0.05) * total);
      relative[i] = (placing + u2(i)) / (placing + m);
      w[i] = total * relative[i];
      sum += Double.isNaN(b.response()[i]) ? 0 : w[i] / rows;
    }
    meanVariance = sum;
    for (int i = 0; i < w.length; i++) {
      w[i] = sum / w[i];
    }
  }

  private void look() {
    RandomEffects m = model();
    MixedSystem s = m.system();
    at = ThetaSearch.minimise(t -> s.deviance(t, Estimation.REML), m.parameters(), at);
    s.factor(at);
    double[] c = s.solve(at);
    double[][] inv = s.inverse(at);
    ss = new double[types.size()];
    df = new double[types.size()];
    int[] idx = new int[b.base().length + 1];
    for (int i = 0; i < relative.length; i++) {
      if (Double.isNaN(b.response()[i])) {
        continue;
      }
      int k = 0;
      idx[k++] = s.q;
      for (int f = 0; f < b.base().length; f++) {
        int l = b.use().get(f).level()[i];
        if (l >= 0) {
          idx[k++] = b.base()[f] + l;
        }
      }
      double r = b.response()[i] - b.mean();
      double h = 0;
      for (int p = 0; p < k; p++) {
        r -= c[idx[p]];
        for (int o = 0; o < k; o++) {
          h += inv[idx[p]][idx[o]];
        }
      }
      ss[typeOf[i]] += r * r / relative[i];
      df[typeOf[i]] += Math.max(0, 1 - (w.length == 0 ? 1 : w[i]) * h);
    }
  }

  TypeScatter scatter(RandomEffectsFit fit, double measuring) {
    if (Double.isNaN(meanVariance)) {
      return TypeScatter.equal(
          types, fit.residualVariance(), fit.rows() - fit.rank(), measuring * measuring);
    }
    double[] own = new double[ss.length];
    double[] m = mean2.clone();
    for (int k = 0; k < own.length; k++) {
      own[k] = df[k] > 0 ? ss[k] / df[k] : Double.NaN;
      m[k] = Double.isNaN(measuring) ? Double.NaN : m[k];
    }
    return new TypeScatter(
            types, variance, degreesOfFreedom, own, df, m, other, otherDf, 1, 1, false)
        .times(fit.residualVariance() / meanVariance);
  }
}
