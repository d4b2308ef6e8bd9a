package org.padtrue.firstarticle.result;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.LUDecomposition;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.quantity.Angles;

/**
 * What the decision is worth: removable mean square taken out of the next panel, against (b)
 * nudging each placement by what was seen on it, (c) plain means by type after the mean shift, (d)
 * the best linear predictor that knows every variance. Truth is the systematic part; registration
 * of the next panel and scatter cannot be removed and are left out on all sides.
 */
public class DecisionValueTest {
  private static final double SHIFT_SD = 0.05;
  private static final double ROTATION_SD = 0.03;
  private static final double SCALE_SD = 2e-4;

  /** What folding the least terms may cost, as a share of what is removable. */
  private static final double FOLDED = 0.015;

  private static final int[][] CELLS = {{20, 4}, {20, 8}, {80, 4}, {80, 16}, {400, 6}, {400, 30}};

  /** Articles a cell; those of 400 placements in full only. */
  private static final int ARTICLES = Study.runs("value", 20, 100);

  /** Sums over the articles of a cell: removable, and what b, c, d and we take out. */
  private record Gains(double removable, double b, double c, double d, double ours) {}

  @Test
  void trimsAreNearlyAsGoodAsKnowingTheVariances() {
    double[] pooled = new double[5];
    System.out.println(
        "share of the removable mean square taken out of the next panel (a, no trim, is 0)");
    System.out.println("placements types registration   b      c      d      ours   ours/d");
    for (double repeatability : new double[] {0, 0.010}) {
      for (int[] cell : Arrays.copyOf(CELLS, Study.FULL ? 6 : 4)) {
        double[] sum = new double[5];
        double[] overB = new double[ARTICLES];
        double[] overC = new double[ARTICLES];
        for (int i = 0; i < ARTICLES; i++) {
          Gains g = one(77_000 + i, cell[0], cell[1], repeatability);
          double[] v = {g.removable(), g.b(), g.c(), g.d(), g.ours()};
          for (int k = 0; k < 5; k++) {
            sum[k] += v[k];
            pooled[k] += v[k];
          }
          overB[i] = g.ours() - g.b();
          overC[i] = g.ours() - g.c() + FOLDED * g.removable();
        }
        String name = String.format("%10d %5d %9.0f um", cell[0], cell[1], 1e3 * repeatability);
        System.out.println(name + line(sum));
        assertThat(sum[4] / sum[3]).as("share of d, %s", name).isGreaterThan(0.93);
        assertThat(mean(overB)).as("over b, %s", name).isGreaterThan(-2 * se(overB));
        assertThat(mean(overC)).as("over c, %s", name).isGreaterThan(-2 * se(overC));
      }
    }
    System.out.println("pooled                       " + line(pooled));
    assertThat(pooled[4] / pooled[3]).isGreaterThan(0.97);
    assertThat(pooled[4]).isGreaterThan(pooled[1]);
  }

  private static String line(double[] s) {
    return String.format(
        " %6.3f %6.3f %6.3f %6.3f %6.3f",
        s[1] / s[0], s[2] / s[0], s[3] / s[0], s[4] / s[0], s[4] / s[3]);
  }

  private static Gains one(long seed, int placements, int types, double repeatability) {
    SyntheticPanel s = new SyntheticPanel(seed);
    s.tolerances = false;
    s.perBoard = placements;
    s.types = types;
    s.repeatability = repeatability;
    // The best predictor knows how well panels repeat, so the job says it too.
    s.stateRepeatability = true;
    s.shiftX = SHIFT_SD * s.random.nextGaussian();
    s.shiftY = SHIFT_SD * s.random.nextGaussian();
    s.rotationDeg = ROTATION_SD * s.random.nextGaussian();
    s.scaleX = SCALE_SD * s.random.nextGaussian();
    s.scaleY = SCALE_SD * s.random.nextGaussian();
    s.squareness = SCALE_SD * s.random.nextGaussian();
    s.draw();
    Article article = s.article("a");
    FirstArticleResult r =
        FirstArticleAnalysis.run(s.job(), List.of(article), AnalysisOptions.withDefaults());
    Map<String, double[]> trim = new HashMap<>();
    for (PlacementResult p : r.placements()) {
      trim.put(
          p.id(),
          new double[] {
            p.afterTrim().x() - p.deviation().x(), p.afterTrim().y() - p.deviation().y()
          });
    }
    List<Measured> rows = article.measured();
    int n = rows.size();
    double mx = rows.stream().mapToDouble(Measured::dxMm).average().orElse(0);
    double my = rows.stream().mapToDouble(Measured::dyMm).average().orElse(0);
    Map<String, double[]> means = typeMeans(rows, mx, my);
    List<String> levels = new ArrayList<>(s.offset.keySet());
    double[] best = bestPredictor(s, rows, levels, repeatability);
    double[] left = new double[5];
    for (Measured m : rows) {
      double[] t = s.truth(s.job().array().boards().get(0), m.placement(), m.nominal());
      double c = Angles.cosDeg(m.nominal().rotationDeg());
      double sn = Angles.sinDeg(m.nominal().rotationDeg());
      double[] k = means.get(m.placement().part());
      double ox = k[0] / k[2];
      double oy = k[1] / k[2];
      double[][] x = columns(m, levels);
      double[] f = new double[2];
      for (int e = 0; e < 2; e++) {
        for (int j = 0; j < x[e].length; j++) {
          f[e] += x[e][j] * best[j];
        }
      }
      double[] own = trim.get(m.id());
      left[0] += sq(t[0], t[1]) / n;
      left[1] += sq(t[0] - m.dxMm(), t[1] - m.dyMm()) / n;
      left[2] += sq(t[0] - mx - (c * ox - sn * oy), t[1] - my - (sn * ox + c * oy)) / n;
      left[3] += sq(t[0] - f[0], t[1] - f[1]) / n;
      left[4] += sq(t[0] + own[0], t[1] + own[1]) / n;
    }
    return new Gains(
        left[0], left[0] - left[1], left[0] - left[2], left[0] - left[3], left[0] - left[4]);
  }

  private static Map<String, double[]> typeMeans(List<Measured> rows, double mx, double my) {
    Map<String, double[]> means = new HashMap<>();
    for (Measured m : rows) {
      double c = Angles.cosDeg(m.nominal().rotationDeg());
      double s = Angles.sinDeg(m.nominal().rotationDeg());
      double rx = m.dxMm() - mx;
      double ry = m.dyMm() - my;
      double[] t = means.computeIfAbsent(m.placement().part(), k -> new double[3]);
      t[0] += c * rx + s * ry;
      t[1] += -s * rx + c * ry;
      t[2]++;
    }
    return means;
  }

  /** Shift, rotation, scale x, scale y, squareness, then x and y of each type. */
  private static double[][] columns(Measured m, List<String> levels) {
    double x = m.nominal().xMm();
    double y = m.nominal().yMm();
    double c = Angles.cosDeg(m.nominal().rotationDeg());
    double s = Angles.sinDeg(m.nominal().rotationDeg());
    double[][] r = new double[2][6 + 2 * levels.size()];
    r[0][0] = 1;
    r[1][1] = 1;
    r[0][2] = -y;
    r[1][2] = x;
    r[0][3] = x;
    r[1][4] = y;
    r[0][5] = -y;
    int j = 6 + 2 * levels.indexOf("part " + m.placement().part());
    r[0][j] = c;
    r[1][j] = s;
    r[0][j + 1] = -s;
    r[1][j + 1] = c;
    return r;
  }

  /**
   * Posterior means under the true variances; the panel's own registration is a term of its own.
   */
  private static double[] bestPredictor(
      SyntheticPanel s, List<Measured> rows, List<String> levels, double repeatability) {
    int p = 6 + 2 * levels.size();
    int q = p + 2;
    double[] sd = new double[q];
    Arrays.fill(sd, s.typeSd);
    sd[0] = SHIFT_SD;
    sd[1] = SHIFT_SD;
    sd[2] = Math.toRadians(ROTATION_SD);
    Arrays.fill(sd, 3, 6, SCALE_SD);
    Arrays.fill(sd, p, q, Math.max(repeatability, 1e-6));
    double[][] a = new double[q][q];
    double[] b = new double[q];
    double w = 1 / (s.scatter * s.scatter);
    for (Measured m : rows) {
      double[][] x = columns(m, levels);
      for (int e = 0; e < 2; e++) {
        double[] row = Arrays.copyOf(x[e], q);
        row[p + e] = 1;
        for (int i = 0; i < q; i++) {
          for (int j = 0; row[i] != 0 && j < q; j++) {
            a[i][j] += w * row[i] * row[j];
          }
          b[i] += w * row[i] * (e == 0 ? m.dxMm() : m.dyMm());
        }
      }
    }
    for (int i = 0; i < q; i++) {
      a[i][i] += 1 / (sd[i] * sd[i]);
    }
    return Arrays.copyOf(
        new LUDecomposition(new Array2DRowRealMatrix(a))
            .getSolver()
            .solve(new ArrayRealVector(b))
            .toArray(),
        p);
  }

  private static double sq(double x, double y) {
    return x * x + y * y;
  }

  private static double mean(double[] v) {
    return Arrays.stream(v).average().orElse(0);
  }

  private static double se(double[] v) {
    double m = mean(v);
    return Math.sqrt(
        Arrays.stream(v).map(x -> (x - m) * (x - m)).sum() / (v.length - 1) / v.length);
  }
}
