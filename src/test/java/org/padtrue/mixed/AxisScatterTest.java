package org.padtrue.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.padtrue.mixed.AxisScatter.Frame;
import org.padtrue.mixed.AxisScatter.Sum;

/** Scatter by axis: the F test against R, false findings over both frames, frames told apart. */
class AxisScatterTest {
  private static final int RUNS = 4000;

  /**
   * R 4.2.2, var.test's p: 2 * min(pf(f, 23.5, 31), 1 - pf(f, 23.5, 31)) at f = 2.4 and 1 / 1.3.
   */
  @Test
  void twoSidedPIsThatOfR() {
    AxisScatter a =
        AxisScatter.of(
            new Sum(2.4 * 23.5, 23.5),
            new Sum(31, 31),
            new Sum(23.5 / 1.3, 23.5),
            new Sum(31, 31),
            0);
    assertThat(a.panelP()).isCloseTo(0.0232033547974155, within(1e-9));
    assertThat(a.partP()).isCloseTo(0.516158978231862, within(1e-9));
    assertThat(a.frame()).isEqualTo(Frame.PANEL);
    assertThat(a.p()).isCloseTo(2 * a.panelP(), within(1e-15));
    assertThat(a.factorX() + a.factorY()).isCloseTo(2, within(1e-12));
    assertThat(a.factorX() / a.factorY()).isBetween(1.5, 2.4);
  }

  private static AxisScatter draw(
      Random g, int n, double sx, double sy, boolean part, double[] at) {
    double[] ex = new double[n];
    double[] ey = new double[n];
    double[] theta = new double[n];
    double[] free = new double[n];
    for (int i = 0; i < n; i++) {
      theta[i] = at[g.nextInt(at.length)];
      double c = Math.cos(Math.toRadians(theta[i]));
      double s = Math.sin(Math.toRadians(theta[i]));
      double a = sx * g.nextGaussian();
      double b = sy * g.nextGaussian();
      ex[i] = part ? c * a - s * b : a;
      ey[i] = part ? s * a + c * b : b;
      free[i] = 1;
    }
    return ofResiduals(ex, ey, theta, free, free);
  }

  @Test
  void falseFindingsStayAtFivePercent() {
    Random g = new Random(20260303);
    double[] all = {0, 90, 180, -90};
    double[] one = {0, 180};
    int found = 0;
    int foundOne = 0;
    for (int r = 0; r < RUNS; r++) {
      found += draw(g, 40, 1, 1, false, all).frame() == Frame.NONE ? 0 : 1;
      foundOne += draw(g, 40, 1, 1, false, one).frame() == Frame.NONE ? 0 : 1;
    }
    System.out.printf(
        "scatter by axis, alike: found in %.3f (rotations mixed), %.3f (one); at most 0.05%n",
        found / (double) RUNS, foundOne / (double) RUNS);
    // Three standard errors of a share of 5 % among the runs.
    double most = 0.05 + 3 * Math.sqrt(0.05 * 0.95 / RUNS);
    assertThat(found / (double) RUNS).isBetween(0.035, most);
    assertThat(foundOne / (double) RUNS).isLessThan(most);
  }

  @Test
  void theRightFrameIsFoundWithTheRightFactors() {
    Random g = new Random(20260304);
    double[] all = {0, 90, 180, -90};
    for (boolean part : new boolean[] {false, true}) {
      int right = 0;
      double log = 0;
      for (int r = 0; r < 400; r++) {
        AxisScatter a = draw(g, 60, 2, 1, part, all);
        right += a.frame() == (part ? Frame.PART : Frame.PANEL) ? 1 : 0;
        log += Math.log(a.factorX() / a.factorY()) / 400;
      }
      System.out.printf("SD 2 to 1, %s: right frame %d of 400%n", part ? "part" : "panel", right);
      assertThat(right).isGreaterThan(390);
      assertThat(log).isCloseTo(Math.log(4), within(0.1));
    }
  }

  @Test
  void whatCannotBeToldIsSaid() {
    Random g = new Random(20260305);
    assertThat(Math.abs(draw(g, 60, 2, 1, true, new double[] {0, 180}).overlap()))
        .isGreaterThan(0.9);
    assertThat(Math.abs(draw(g, 60, 2, 1, true, new double[] {90}).overlap())).isGreaterThan(0.9);
    assertThat(Math.abs(draw(g, 60, 2, 1, true, new double[] {0, 90}).overlap())).isLessThan(0.9);
    Sum none = new Sum(0, 0);
    AxisScatter a = AxisScatter.of(new Sum(40, 10), new Sum(3, 12), none, none, Double.NaN);
    assertThat(a.frame()).isEqualTo(Frame.PANEL);
    assertThat(a.p()).isEqualTo(a.panelP());
    a = AxisScatter.of(none, none, none, none, Double.NaN);
    assertThat(a.frame()).isEqualTo(Frame.NONE);
    assertThat(a.p()).isEqualTo(1);
  }

  /**
   * From residuals.
   *
   * @param ex residuals along panel x over the SD of their type (or all in one unit)
   * @param ey the same along panel y
   * @param thetaDeg rotations of the parts, degrees, counter-clockwise
   * @param freeX 1 - leverage of each x residual: their sum is the degrees of freedom
   * @param freeY the same of y
   */
  private static AxisScatter ofResiduals(
      double[] ex, double[] ey, double[] thetaDeg, double[] freeX, double[] freeY) {
    double[] ss = new double[4];
    double[] df = new double[4];
    double overlap = 0;
    for (int i = 0; i < ex.length; i++) {
      double t = Math.toRadians(thetaDeg[i]);
      double c = Math.cos(t);
      double s = Math.sin(t);
      double u = c * ex[i] + s * ey[i];
      double v = c * ey[i] - s * ex[i];
      ss[0] += ex[i] * ex[i];
      ss[1] += ey[i] * ey[i];
      ss[2] += u * u;
      ss[3] += v * v;
      df[0] += freeX[i];
      df[1] += freeY[i];
      df[2] += c * c * freeX[i] + s * s * freeY[i];
      df[3] += s * s * freeX[i] + c * c * freeY[i];
      overlap += Math.cos(2 * t) / ex.length;
    }
    return AxisScatter.of(
        new AxisScatter.Sum(ss[0], df[0]),
        new AxisScatter.Sum(ss[1], df[1]),
        new AxisScatter.Sum(ss[2], df[2]),
        new AxisScatter.Sum(ss[3], df[3]),
        overlap);
  }
}
