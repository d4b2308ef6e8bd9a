package org.padtrue.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.ReferenceData;

/**
 * Residual variances by part type: the score of the restricted likelihood, solved as a fixed point,
 * gives what nlme's varIdent gives; src/test/r/scatter-by-type.R printed the values.
 *
 * <p>At the maximum s_k^2 = sum e_i^2 / sum (1 - h_i) over the rows of type k, e the residuals of
 * the penalised fit, h the leverages of [Z X] with the ridge of Z: from dl/ds_k^2 = 0 with P y =
 * R^-1 e and P_ii = (1 - h_i) / s_k^2 (Smyth 2002, J. Comput. Graph. Stat. 11, 836; Harville 1977).
 * A random variance likewise: sum u^2 / (q - trace of its share of the inverse over it).
 */
class ScatterByTypeReferenceTest {
  /** nlme's optimiser stops at about this; the fixed point is iterated until it stands still. */
  private static final double SD_REL_TOL = 2e-5;

  private static final double FIXED_REL_OF_SE_TOL = 1e-4;

  private static Map<String, Double> reference(int article, String model) {
    Map<String, Double> m = new HashMap<>();
    for (String[] r :
        ReferenceData.rows(ScatterByTypeReferenceTest.class, "scatter-by-type-values.csv")) {
      if (Integer.parseInt(r[0]) == article && r[1].equals(model)) {
        m.put(r[2], Double.parseDouble(r[3]));
      }
    }
    return m;
  }

  /** Rows dx then dy; columns Z (part x, part y by level), then X (affine, per mm). */
  private static final class Dense {
    final String[] levels;
    final int[] type;
    final double[] y;
    final double[][] c;
    final int q;

    Dense(int article) {
      List<String[]> rows =
          ReferenceData.rows(
              ScatterByTypeReferenceTest.class, "scatter-article-" + article + ".csv");
      levels = rows.stream().map(r -> r[1]).distinct().sorted().toArray(String[]::new);
      int n = rows.size();
      q = 2 * levels.length;
      type = new int[2 * n];
      y = new double[2 * n];
      c = new double[2 * n][q + 6];
      for (int i = 0; i < n; i++) {
        String[] r = rows.get(i);
        int k = Arrays.binarySearch(levels, r[1]);
        double x = Double.parseDouble(r[5]);
        double w = Double.parseDouble(r[6]);
        double t = Math.toRadians(Double.parseDouble(r[7]));
        for (int a = 0; a < 2; a++) {
          double[] row = c[a * n + i];
          type[a * n + i] = k;
          y[a * n + i] = Double.parseDouble(r[8 + a]);
          row[k] = a == 0 ? Math.cos(t) : Math.sin(t);
          row[levels.length + k] = a == 0 ? -Math.sin(t) : Math.cos(t);
          row[q + a] = 1;
          row[q + 2 + 2 * a] = x;
          row[q + 3 + 2 * a] = w;
        }
      }
    }
  }

  /** Solves the score equations. */
  private static final class Score {
    final Dense d;
    final boolean random;
    final double[] s2;
    final double[] t2 = {1e-3, 1e-3};
    double[] solution = new double[0];
    double[][] inverse = new double[0][];
    double deviance;

    Score(Dense d, boolean random) {
      this.d = d;
      this.random = random;
      s2 = new double[d.levels.length];
      Arrays.fill(s2, 4e-4);
    }

    void solve() {
      double[] before = new double[s2.length];
      for (int it = 0; it < 20000; it++) {
        System.arraycopy(s2, 0, before, 0, s2.length);
        double most = step();
        for (int k = 0; k < s2.length; k++) {
          most = Math.max(most, Math.abs(s2[k] / before[k] - 1));
        }
        if (most < 1e-12) {
          return;
        }
      }
    }

    private double step() {
      int m = d.q + 6;
      int levels = s2.length;
      double[][] h = new double[m][m];
      double[] g = new double[m];
      double constant = 0;
      for (int i = 0; i < d.y.length; i++) {
        double v = s2[d.type[i]];
        constant += Math.log(v);
        for (int a = 0; a < m; a++) {
          g[a] += d.c[i][a] * d.y[i] / v;
          for (int b = 0; b < m; b++) {
            h[a][b] += d.c[i][a] * d.c[i][b] / v;
          }
        }
      }
      for (int j = 0; j < d.q && random; j++) {
        h[j][j] += 1 / t2[j / levels];
        constant += Math.log(t2[j / levels]);
      }
      inverse = invert(h);
      constant += logDet;
      solution = new double[m];
      for (int a = 0; a < m; a++) {
        for (int b = 0; b < m; b++) {
          solution[a] += inverse[a][b] * g[b];
        }
      }
      double[] top = new double[levels];
      double[] bottom = new double[levels];
      double quadratic = 0;
      for (int i = 0; i < d.y.length; i++) {
        double e = d.y[i];
        double lev = 0;
        for (int a = 0; a < m; a++) {
          e -= d.c[i][a] * solution[a];
          for (int b = 0; b < m; b++) {
            lev += d.c[i][a] * inverse[a][b] * d.c[i][b];
          }
        }
        int k = d.type[i];
        quadratic += e * d.y[i] / s2[k];
        top[k] += e * e;
        bottom[k] += 1 - lev / s2[k];
      }
      deviance = constant + quadratic + (d.y.length - (random ? 6 : m)) * Math.log(2 * Math.PI);
      for (int k = 0; k < levels; k++) {
        s2[k] = top[k] / bottom[k];
      }
      double most = 0;
      for (int a = 0; a < 2 && random; a++) {
        double square = 0;
        double trace = 0;
        for (int k = 0; k < levels; k++) {
          int j = a * levels + k;
          square += solution[j] * solution[j];
          trace += inverse[j][j];
        }
        double next = square / (levels - trace / t2[a]);
        most = Math.max(most, Math.abs(next / t2[a] - 1));
        t2[a] = next;
      }
      return most;
    }

    private double logDet;

    /** Inverse of a positive definite matrix, by Gauss and Jordan after scaling. */
    private double[][] invert(double[][] m) {
      int n = m.length;
      double[] scale = new double[n];
      logDet = 0;
      for (int i = 0; i < n; i++) {
        scale[i] = 1 / Math.sqrt(m[i][i]);
        logDet -= 2 * Math.log(scale[i]);
      }
      double[][] a = new double[n][2 * n];
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          a[i][j] = m[i][j] * scale[i] * scale[j];
        }
        a[i][n + i] = 1;
      }
      for (int p = 0; p < n; p++) {
        double pivot = a[p][p];
        logDet += Math.log(pivot);
        for (int j = 0; j < 2 * n; j++) {
          a[p][j] /= pivot;
        }
        for (int i = 0; i < n; i++) {
          double f = i == p ? 0 : a[i][p];
          for (int j = 0; j < 2 * n && f != 0; j++) {
            a[i][j] -= f * a[p][j];
          }
        }
      }
      double[][] out = new double[n][n];
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          out[i][j] = a[i][n + j] * scale[i] * scale[j];
        }
      }
      return out;
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2})
  void randomPartOffsets(int article) {
    Dense d = new Dense(article);
    Score s = new Score(d, true);
    s.solve();
    Map<String, Double> r = reference(article, "random");
    sds(d, s, r);
    assertThat(s.deviance).isCloseTo(r.get("criterion"), within(1e-6));
    relative(r.get("sd part x"), Math.sqrt(s.t2[0]), SD_REL_TOL);
    relative(r.get("sd part y"), Math.sqrt(s.t2[1]), SD_REL_TOL);
    affine(d, s, r);
    for (int k = 0; k < d.levels.length; k++) {
      coefficient(s, k, r, "blup " + d.levels[k] + " x");
      coefficient(s, d.levels.length + k, r, "blup " + d.levels[k] + " y");
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2})
  void fixedPartOffsets(int article) {
    Dense d = new Dense(article);
    Score s = new Score(d, false);
    s.solve();
    Map<String, Double> r = reference(article, "fixed");
    sds(d, s, r);
    assertThat(s.deviance).isCloseTo(r.get("criterion"), within(1e-6));
    affine(d, s, r);
    for (int k = 0; k < d.levels.length; k++) {
      coefficient(s, k, r, "fixed px" + d.levels[k]);
      coefficient(s, d.levels.length + k, r, "fixed py" + d.levels[k]);
    }
  }

  private static void sds(Dense d, Score s, Map<String, Double> r) {
    for (int k = 0; k < d.levels.length; k++) {
      relative(r.get("sd residual " + d.levels[k]), Math.sqrt(s.s2[k]), SD_REL_TOL);
    }
  }

  private static void affine(Dense d, Score s, Map<String, Double> r) {
    String[] names = {"ex", "ey", "exx", "exy", "eyx", "eyy"};
    for (int i = 0; i < names.length; i++) {
      coefficient(s, d.q + i, r, "fixed " + names[i]);
    }
  }

  private static void coefficient(Score s, int i, Map<String, Double> r, String name) {
    double se = r.get("se " + name);
    assertThat(s.solution[i]).as(name).isCloseTo(r.get(name), within(FIXED_REL_OF_SE_TOL * se));
    assertThat(Math.sqrt(s.inverse[i][i]))
        .as("se " + name)
        .isCloseTo(se, within(FIXED_REL_OF_SE_TOL * se));
  }

  private static void relative(double expected, double actual, double tol) {
    assertThat(actual).isCloseTo(expected, within(tol * expected));
  }
}
