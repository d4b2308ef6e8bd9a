package org.padtrue.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.DoubleFunction;
import org.junit.jupiter.api.Test;
import org.padtrue.plan.model.MeasuringPlanColumn;
import org.padtrue.plan.model.MeasuringPlanFactor;
import org.padtrue.plan.model.MeasuringPlanModel;
import org.padtrue.plan.model.MeasuringPlanRow;
import org.padtrue.plan.model.MeasuringPlanTerm;

/**
 * Validation of greedy and exchange against designs with a published answer. Readings have variance
 * 1 and a candidate can be repeated because it is listed as often as readings are wanted.
 */
class MeasuringPlanExchangeTest {
  /** The wide prior (sd 1e4 against a reading sd of 1) shifts a variance by less than this. */
  private static final double VARIANCE_TOL = 1e-6;

  private static final double[] GRID = grid(-1, 1, 21);

  /**
   * D-optimal designs for a polynomial of degree k on [-1, 1] put equal weight on the roots of (1 -
   * x^2) P_k'(x), P_k the Legendre polynomial (Guest 1958, Ann. Math. Stat. 29; Hoel 1958, same
   * volume; restated in St. John and Draper 1975, Technometrics 17, 15-23). k = 2: -1, 0, 1.
   */
  @Test
  void determinantOfAQuadraticPutsAThirdAtEachEndAndInTheMiddle() {
    Model m = quadratic(9);
    assertThat(m.exchange(9, MeasuringPlanCriterion.DETERMINANT))
        .containsExactly(-1.0, -1.0, -1.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0);
  }

  /**
   * Same source, k = 3: P_3' vanishes at +-1/sqrt(5) = 0.447; the grid's nearest points are 0.45.
   */
  @Test
  void determinantOfACubicPutsAQuarterAtTheRootsOfTheLegendreDerivative() {
    Model m = new Model(grid(-1, 1, 41), 8, x -> new double[] {1, x, x * x, x * x * x});
    assertThat(m.exchange(8, MeasuringPlanCriterion.DETERMINANT))
        .usingComparatorForType(
            (a, b) -> Math.abs(a - b) < 1e-9 ? 0 : Double.compare(a, b), Double.class)
        .containsExactly(-1.0, -1.0, -0.45, -0.45, 0.45, 0.45, 1.0, 1.0);
  }

  /**
   * A-optimal weights of the quadratic on [-1, 1] are 1/4, 1/2, 1/4 at -1, 0, 1 (Pukelsheim 1993,
   * Optimal Design of Experiments, from memory). With weight a at both ends the trace of the
   * inverse is 2/(2a(1 - 2a)), least at a = 1/4, where it is 8.
   */
  @Test
  void traceOfAQuadraticPutsHalfInTheMiddle() {
    Model m = quadratic(8);
    MeasuringPlanDesign d = m.design(8, MeasuringPlanCriterion.TRACE);
    assertThat(m.points(d)).containsExactly(-1.0, -1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 1.0);
    double trace = 0;
    for (double v : d.variances()) {
      trace += v;
    }
    assertThat(trace).isCloseTo(8.0 / 8, within(VARIANCE_TOL));
  }

  /**
   * Equivalence theorem (Kiefer and Wolfowitz 1960; as quoted by Farrell, Kiefer and Walbran 1967,
   * Optimum multivariate designs, Fifth Berkeley Symposium): the least largest variance of the
   * fitted value over the region is k/n, k the number of unknowns, reached by the D-optimal design.
   */
  @Test
  void worstFittedValueOfAQuadraticIsThreeOverN() {
    Model m = quadratic(9).withFittedValuesAsTerms();
    MeasuringPlanDesign d =
        new MeasuringPlanSearch(m.model, m.terms, List.of()).best(9, Double.POSITIVE_INFINITY);
    assertThat(m.points(d)).containsExactly(-1.0, -1.0, -1.0, 0.0, 0.0, 0.0, 1.0, 1.0, 1.0);
    assertThat(d.score(MeasuringPlanCriterion.WORST).first())
        .isCloseTo(3.0 / 9, within(VARIANCE_TOL));
  }

  /**
   * For 1, x, y, xy on the square the two-level factorial is D-optimal (Box and Draper 1971,
   * Technometrics 13, from memory); the determinant of X'X with n = 8 is then 8^4, its largest
   * possible (Hadamard's bound).
   */
  @Test
  void determinantOfTheBilinearModelIsTheTwoLevelFactorial() {
    double[] side = grid(-1, 1, 5);
    double[] index = grid(0, 24, 25);
    DoubleFunction<double[]> row =
        i -> {
          double x = side[(int) i % 5];
          double y = side[(int) i / 5];
          return new double[] {1, x, y, x * y};
        };
    Model m = new Model(index, 8, row);
    MeasuringPlanDesign d = m.design(8, MeasuringPlanCriterion.DETERMINANT);
    assertThat(m.points(d)).containsExactly(0.0, 0.0, 4.0, 4.0, 20.0, 20.0, 24.0, 24.0);
    assertThat(d.logDet()).isCloseTo(4 * Math.log(8), within(VARIANCE_TOL));
  }

  @Test
  void exchangeEscapesABadStart() {
    Model m = quadratic(6);
    MeasuringPlanDesign bad = new MeasuringPlanDesign(m.model, m.terms);
    for (int i = 30; i < 36; i++) {
      bad.add(i);
    }
    MeasuringPlanDesign d =
        MeasuringPlanExchange.improve(
            bad, m.model.readings().size(), MeasuringPlanCriterion.DETERMINANT, new BitSet());
    assertThat(m.points(d)).containsExactly(-1.0, -1.0, 0.0, 0.0, 1.0, 1.0);
  }

  private static Model quadratic(int n) {
    return new Model(GRID, n, x -> new double[] {1, x, x * x});
  }

  private static double[] grid(double from, double to, int n) {
    double[] g = new double[n];
    for (int i = 0; i < n; i++) {
      g[i] = Math.round((from + (to - from) * i / (n - 1)) * 1e9) / 1e9 + 0.0;
    }
    return g;
  }

  /** A regression on one coordinate whose candidates are points, each listed several times. */
  private static final class Model {
    final double[] points;
    final int copies;
    final MeasuringPlanModel model;
    List<MeasuringPlanTerm> terms = new ArrayList<>();

    Model(double[] points, int copies, DoubleFunction<double[]> row) {
      this.points = points;
      this.copies = copies;
      int k = row.apply(points[0]).length;
      List<MeasuringPlanColumn> columns = new ArrayList<>();
      for (int i = 0; i < k; i++) {
        columns.add(
            new MeasuringPlanColumn("b" + i, MeasuringPlanFactor.SHIFT, "", 1e4, -1, "mm", 1));
        terms.add(new MeasuringPlanTerm("b" + i, i, new int[] {i}, new double[] {1}));
      }
      List<MeasuringPlanRow[]> readings = new ArrayList<>();
      for (double p : points) {
        for (int c = 0; c < copies; c++) {
          readings.add(new MeasuringPlanRow[] {new MeasuringPlanRow(all(k), row.apply(p))});
        }
      }
      model = new MeasuringPlanModel(columns, readings, 1);
    }

    private static int[] all(int k) {
      int[] at = new int[k];
      for (int i = 0; i < k; i++) {
        at[i] = i;
      }
      return at;
    }

    Model withFittedValuesAsTerms() {
      terms = new ArrayList<>();
      for (int i = 0; i < points.length; i++) {
        MeasuringPlanRow r = model.readings().get(i * copies)[0];
        terms.add(new MeasuringPlanTerm("at " + points[i], 0, r.at(), r.by()));
      }
      return this;
    }

    MeasuringPlanDesign design(int n, MeasuringPlanCriterion criterion) {
      MeasuringPlanDesign d = new MeasuringPlanDesign(model, terms);
      new MeasuringPlanGreedy(model, terms, criterion, List.of()).first(n).forEach(d::add);
      return MeasuringPlanExchange.improve(d, model.readings().size(), criterion, new BitSet());
    }

    List<Double> exchange(int n, MeasuringPlanCriterion criterion) {
      return points(design(n, criterion));
    }

    List<Double> points(MeasuringPlanDesign d) {
      List<Double> p = new ArrayList<>();
      for (int i : d.chosen()) {
        p.add(points[i / copies]);
      }
      return p;
    }
  }
}
