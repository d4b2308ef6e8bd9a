package org.padtrue.door;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Cholesky;
import org.padtrue.numeric.Order;
import org.padtrue.numeric.Tails;

/**
 * How well one reading explains what was recorded of a panel.
 *
 * <p>Model, mm: d = t + A r + (step per column and row) + R(theta) o(type) + e, with e ~ N(0, sd^2)
 * for most rows, a wide density for the others (5 %, heavy tails about 0.5 mm), o ~ N(0, tau^2).
 * Start: medians, then Cauchy weights; then rows are counted in or out by their density, and sd and
 * tau are taken on a grid where the marginal likelihood is largest.
 *
 * <p>Priors (common practice, wider than an honest machine needs): turn 1.1 degrees, scales and
 * squareness 1.5 per mille, array step 0.1 mm (standard deviations); no preference for a scatter of
 * 4 to 80 um per axis, type offsets up to 0.4 mm and shifts up to 0.6 mm, falling off by the square
 * of the logarithm outside. The likelihood itself does not depend on the unit, so that another unit
 * is judged by these magnitudes alone.
 */
final class DoorFit {
  private static final double TURN = 0.02;
  private static final double STRETCH = 1.5e-3;
  private static final double STEP_MM = 0.1;
  private static final double ANY = 3;
  private static final double RARE = 1e-3;
  private static final double LEAST_DF = 12;

  private static final double OUT = 0.05;
  private static final double WIDE_MM = 0.5;

  private static final double LEAST_SD_MM = 0.004;
  private static final double MOST_SD_MM = 0.08;
  private static final double MOST_TYPE_MM = 0.4;
  private static final double MOST_SHIFT_MM = 0.6;
  private static final double SMALL_WIDTH = 0.15;
  private static final double LARGE_WIDTH = 0.3;
  private static final double TYPE_WIDTH = 0.5;
  private static final double MOST_PENALTY = 200;

  /** Numbers that a transform and type offsets explain so well were never measured. */
  private static final double EXACT_MM = 1e-6;

  private static final double FLOOR_MM = 2e-5;
  private static final int WIDE_GRID = 7;
  private static final double STEP = 1.7;
  private static final double[] LAMBDA2 = {0, 0.25, 1, 4, 16, 64, 256, 1024, 4096, 40_000};

  /** A shift that may be anything still has to be said: log of its range over a usual one. */
  private static final double FREE_SHIFT = 12;

  private final ReadRows r;
  private final int n;
  private final int p;
  private final double[] prior;
  private final double[][] ax;
  private final double[][] ay;
  private final double cx;
  private final double cy;
  private final double length;
  private final boolean anyShift;
  private boolean exact;
  private final double[] beta;
  private final double[] ox;
  private final double[] oy;
  private final double[] weight;
  private final double[] resid;
  private final double[] rx;
  private final double[] ry;
  private double sd;
  private double lambda2;
  private int ratioAt;
  private double fitted;
  private Sums sums;

  /** Sums over the rows that count, by their weights. */
  private static final class Sums {
    final double[][] xx;
    final double[] xd;
    final double[][] bx;
    final double[][] by;
    final double[] gx;
    final double[] gy;
    final double[] count;
    double dd;
    double rows;

    Sums(int p, int types) {
      xx = new double[p][p];
      xd = new double[p];
      bx = new double[types][p];
      by = new double[types][p];
      gx = new double[types];
      gy = new double[types];
      count = new double[types];
    }
  }

  /**
   * Fits.
   *
   * @param r the rows, one at least
   * @param free true to let shift and linear part be what they like
   * @param anyShift true when a large shift says nothing against the reading
   */
  DoorFit(ReadRows r, boolean free, boolean anyShift) {
    this(r, free, anyShift, null);
  }

  /** The same from another start: which rows count. */
  DoorFit(ReadRows r, boolean free, boolean anyShift, double @Nullable [] start) {
    this.r = r;
    this.anyShift = anyShift || free;
    n = r.size();
    boolean columns = several(r.column());
    boolean rows = several(r.row());
    p = 6 + (columns ? 2 : 0) + (rows ? 2 : 0);
    cx = mean(r.x());
    cy = mean(r.y());
    double s = 0;
    for (int i = 0; i < n; i++) {
      s += sq(r.x()[i] - cx) + sq(r.y()[i] - cy);
    }
    length = Math.max(1, Math.sqrt(s / n));
    prior = new double[p];
    prior[0] = 1e-12;
    prior[1] = 1e-12;
    prior[2] = 1 / sq((free ? ANY : TURN) * length);
    for (int k = 3; k < 6; k++) {
      prior[k] = 1 / sq((free ? ANY : STRETCH) * length);
    }
    Arrays.fill(prior, 6, p, 1 / sq(STEP_MM));
    ax = new double[n][p];
    ay = new double[n][p];
    for (int i = 0; i < n; i++) {
      design(i, columns, rows);
    }
    beta = new double[p];
    ox = new double[r.types()];
    oy = new double[r.types()];
    weight = new double[n];
    resid = new double[n];
    rx = new double[n];
    ry = new double[n];
    sums = new Sums(p, r.types());
    if (start == null) {
      begin();
    } else {
      System.arraycopy(start, 0, weight, 0, n);
      sd = MOST_SD_MM;
      add();
      settle(true);
      solve();
      residuals();
    }
    finish(start != null);
  }

  private void design(int i, boolean columns, boolean rows) {
    double u = (r.x()[i] - cx) / length;
    double v = (r.y()[i] - cy) / length;
    double[] a = ax[i];
    double[] b = ay[i];
    a[0] = 1;
    b[1] = 1;
    a[2] = -v;
    b[2] = u;
    a[3] = u;
    b[3] = v;
    a[4] = u;
    b[4] = -v;
    a[5] = v;
    b[5] = u;
    int k = 6;
    if (columns) {
      a[k++] = r.column()[i];
      b[k++] = r.column()[i];
    }
    if (rows) {
      a[k++] = r.row()[i];
      b[k] = r.row()[i];
    }
  }

  private static boolean several(int[] v) {
    for (int k : v) {
      if (k != v[0]) {
        return true;
      }
    }
    return false;
  }

  private static double sq(double v) {
    return v * v;
  }

  private static double mean(double[] v) {
    double s = 0;
    for (double a : v) {
      s += a / v.length;
    }
    return s;
  }

  private void begin() {
    beta[0] = Order.median(r.dx(), n);
    beta[1] = Order.median(r.dy(), n);
    lambda2 = 4;
    for (int round = 0; round < 9; round++) {
      if (round > 0) {
        typeMedians();
      }
      residuals();
      double s = Math.max(FLOOR_MM, Order.median(resid, n) / 1.18);
      for (int i = 0; i < n; i++) {
        weight[i] = 1 / (1 + sq(resid[i] / (2 * s)));
      }
      add();
      sd = s;
      solve();
    }
    typeMedians();
    residuals();
    exact = Arrays.stream(resid).max().orElse(0) < EXACT_MM;
    double eaten = p;
    for (double c : sums.count) {
      eaten += c > 0 ? 2 : 0;
    }
    sd =
        Math.max(FLOOR_MM, Order.median(resid, n) / 1.18)
            * Math.sqrt(2.0 * n / Math.max(2, 2 * n - eaten));
  }

  private void finish(boolean begun) {
    for (int round = begun ? 1 : 0; round < 6; round++) {
      boolean changed = count(round == 0 ? 2 : 1);
      if (!changed && round > 0) {
        break;
      }
      add();
      settle(round == 0);
      solve();
      residuals();
    }
  }

  /** Offsets of types: medians where there are three rows and more, else shrunken means. */
  private void typeMedians() {
    int[] rows = new int[r.types()];
    for (int t : r.type()) {
      rows[t]++;
    }
    double[][] vx = new double[r.types()][];
    double[][] vy = new double[r.types()][];
    int[] at = new int[r.types()];
    for (int i = 0; i < n; i++) {
      int t = r.type()[i];
      if (rows[t] >= 3) {
        if (at[t] == 0) {
          vx[t] = new double[rows[t]];
          vy[t] = new double[rows[t]];
        }
        double[] e = panel(i);
        vx[t][at[t]] = r.cos()[i] * e[0] + r.sin()[i] * e[1];
        vy[t][at[t]++] = -r.sin()[i] * e[0] + r.cos()[i] * e[1];
      }
    }
    for (int t = 0; t < rows.length; t++) {
      if (at[t] > 0) {
        ox[t] = Order.median(vx[t], at[t]);
        oy[t] = Order.median(vy[t], at[t]);
      }
    }
  }

  /** Deviation of a row with the panel's terms taken off. */
  private double[] panel(int i) {
    double ex = r.dx()[i];
    double ey = r.dy()[i];
    for (int k = 0; k < p; k++) {
      ex -= ax[i][k] * beta[k];
      ey -= ay[i][k] * beta[k];
    }
    return new double[] {ex, ey};
  }

  private void residuals() {
    for (int i = 0; i < n; i++) {
      double[] e = panel(i);
      int t = r.type()[i];
      rx[i] = e[0] - r.cos()[i] * ox[t] + r.sin()[i] * oy[t];
      ry[i] = e[1] - r.sin()[i] * ox[t] - r.cos()[i] * oy[t];
      resid[i] = Math.hypot(rx[i], ry[i]);
    }
  }

  private static double logNormal(double d, double s) {
    return -0.5 * sq(d / s) - 2 * Math.log(s) - Math.log(2 * Math.PI);
  }

  private static double logWide(double d) {
    return Math.log(WIDE_MM / (2 * Math.PI)) - 1.5 * Math.log(sq(WIDE_MM) + d * d);
  }

  /** Counts rows in or out by their density; true when that changed any. */
  private boolean count(double patience) {
    boolean changed = false;
    for (int i = 0; i < n; i++) {
      double in = logNormal(resid[i], patience * sd) + Math.log(1 - OUT);
      double w = in >= logWide(resid[i]) + Math.log(OUT) ? 1 : 0;
      changed |= w != weight[i];
      weight[i] = w;
    }
    return changed;
  }

  private void add() {
    Sums s = new Sums(p, r.types());
    for (int i = 0; i < n; i++) {
      double w = weight[i];
      if (w == 0) {
        continue;
      }
      double[] a = ax[i];
      double[] b = ay[i];
      double dx = r.dx()[i];
      double dy = r.dy()[i];
      double c = r.cos()[i];
      double q = r.sin()[i];
      int t = r.type()[i];
      for (int j = 0; j < p; j++) {
        double aj = w * a[j];
        double bj = w * b[j];
        for (int k = 0; k <= j; k++) {
          s.xx[j][k] += aj * a[k] + bj * b[k];
        }
        s.xd[j] += aj * dx + bj * dy;
        s.bx[t][j] += c * aj + q * bj;
        s.by[t][j] += -q * aj + c * bj;
      }
      s.gx[t] += w * (c * dx + q * dy);
      s.gy[t] += w * (-q * dx + c * dy);
      s.count[t] += w;
      s.dd += w * (dx * dx + dy * dy);
      s.rows += w;
    }
    for (int j = 0; j < p; j++) {
      for (int k = 0; k < j; k++) {
        s.xx[k][j] = s.xx[j][k];
      }
    }
    sums = s;
  }

  /** Normal equations with the types' offsets integrated out, for one ratio tau^2 / sd^2. */
  private record Reduced(double[][] m, double[] v, double dd, double logDet) {}

  private Reduced reduced(double ratio) {
    double[][] m = new double[p][];
    for (int j = 0; j < p; j++) {
      m[j] = sums.xx[j].clone();
    }
    double[] v = sums.xd.clone();
    double dd = sums.dd;
    double logDet = 0;
    for (int t = 0; t < r.types(); t++) {
      double c = sums.count[t];
      if (c == 0 || ratio == 0) {
        continue;
      }
      double f = ratio / (1 + c * ratio);
      double[] bx = sums.bx[t];
      double[] by = sums.by[t];
      for (int j = 0; j < p; j++) {
        for (int k = 0; k < p; k++) {
          m[j][k] -= f * (bx[j] * bx[k] + by[j] * by[k]);
        }
        v[j] -= f * (bx[j] * sums.gx[t] + by[j] * sums.gy[t]);
      }
      dd -= f * (sq(sums.gx[t]) + sq(sums.gy[t]));
      logDet += 2 * Math.log1p(c * ratio);
    }
    return new Reduced(m, v, dd, logDet);
  }

  private double[][] withPrior(Reduced e, double s) {
    double[][] m = new double[p][];
    for (int j = 0; j < p; j++) {
      m[j] = e.m[j].clone();
      m[j][j] = m[j][j] * (1 + 1e-9) + s * s * prior[j] + 1e-12;
    }
    return m;
  }

  /** Takes sd and tau where likelihood and usual magnitudes together are largest. */
  private void settle(boolean anew) {
    double centre = Math.max(FLOOR_MM, sd);
    int at = ratioAt;
    int from = anew ? 0 : Math.max(0, at - 1);
    int to = anew ? LAMBDA2.length - 1 : Math.min(LAMBDA2.length - 1, at + 1);
    int wide = anew ? WIDE_GRID : 1;
    fitted = Double.NEGATIVE_INFINITY;
    for (int j = from; j <= to; j++) {
      Reduced e = reduced(LAMBDA2[j]);
      for (int k = -wide; k <= wide; k++) {
        better(e, centre * Math.pow(STEP, k), j);
      }
    }
    Reduced e = reduced(LAMBDA2[ratioAt]);
    for (double f = Math.sqrt(STEP); f > 1.02; f = Math.sqrt(f)) {
      double middle = sd;
      better(e, middle * f, ratioAt);
      better(e, middle / f, ratioAt);
    }
    lambda2 = LAMBDA2[ratioAt];
  }

  private void better(Reduced e, double s, int ratio) {
    if (s < FLOOR_MM) {
      return;
    }
    double v = likelihood(e, s) + usual(s, LAMBDA2[ratio]);
    if (v > fitted) {
      fitted = v;
      sd = s;
      ratioAt = ratio;
    }
  }

  private double likelihood(Reduced e, double s) {
    double[] b = new Cholesky(withPrior(e, s), 0).solve(e.v);
    double fit = 0;
    for (int j = 0; j < p; j++) {
      fit += b[j] * e.v[j];
    }
    double quad = Math.max(0, e.dd - fit) / (s * s);
    return -0.5 * (quad + e.logDet)
        - 2 * sums.rows * Math.log(s)
        - sums.rows * Math.log(2 * Math.PI);
  }

  private double usual(double s, double ratio) {
    double v = 0;
    if (s > MOST_SD_MM) {
      v -= penalty(s / MOST_SD_MM, LARGE_WIDTH);
    } else if (s < LEAST_SD_MM && !exact) {
      v -= penalty(LEAST_SD_MM / s, SMALL_WIDTH);
    }
    double tau = Math.sqrt(ratio) * s;
    return tau > MOST_TYPE_MM ? v - penalty(tau / MOST_TYPE_MM, TYPE_WIDTH) : v;
  }

  private static double penalty(double times, double width) {
    return Math.min(MOST_PENALTY, 0.5 * sq(Math.log(times) / width));
  }

  private void solve() {
    Reduced e = reduced(lambda2);
    double[] b = new Cholesky(withPrior(e, sd), 0).solve(e.v);
    System.arraycopy(b, 0, beta, 0, p);
    for (int t = 0; t < r.types(); t++) {
      double gx = sums.gx[t];
      double gy = sums.gy[t];
      for (int j = 0; j < p; j++) {
        gx -= sums.bx[t][j] * b[j];
        gy -= sums.by[t][j] * b[j];
      }
      double f = lambda2 / (1 + sums.count[t] * lambda2);
      ox[t] = f * gx;
      oy[t] = f * gy;
    }
  }

  /** Log density of what was recorded, wherever the panel lies. */
  double scoreAnywhere() {
    double s = fitted;
    for (int i = 0; i < n; i++) {
      s += weight[i] > 0 ? Math.log(1 - OUT) : Math.log(OUT) + logWide(resid[i]);
    }
    return s;
  }

  /** Log density of what was recorded, usual magnitudes taken in. */
  double score() {
    double s = scoreAnywhere();
    if (anyShift) {
      return s - FREE_SHIFT;
    }
    double t = leastShift();
    return t > MOST_SHIFT_MM ? s - penalty(t / MOST_SHIFT_MM, LARGE_WIDTH) : s;
  }

  int size() {
    return n;
  }

  /** Variance of type offsets over that of scatter. */
  double ratio() {
    return lambda2;
  }

  /** Degrees of freedom that are left when each type takes its own. */
  double leastDegreesOfFreedom() {
    return 2 * sums.rows - p - 2 * Arrays.stream(sums.count).filter(c -> c > 0).count();
  }

  /** The share of the rows that count. */
  double share() {
    return sums.rows / n;
  }

  /** Which rows count: 1, the others 0; a copy. */
  double[] counted() {
    return weight.clone();
  }

  /**
   * The most that the scatter per axis may be, mm: the true one is larger in one case of a thousand
   * (chi-square); infinite where few degrees of freedom are left, since rows and offsets were
   * chosen by the same numbers.
   */
  double mostSd() {
    double df = degreesOfFreedom();
    return df < LEAST_DF
        ? Double.POSITIVE_INFINITY
        : sd * Math.sqrt(df / Tails.chiSquareQuantile(RARE, df));
  }

  /** Root mean square distance of the rows from the fit, none left out but the worst eighth, mm. */
  double spread() {
    double[] s = resid.clone();
    Arrays.sort(s);
    int keep = Math.max(1, n - n / 8);
    double v = 0;
    for (int i = 0; i < keep; i++) {
      v += sq(s[i]);
    }
    return Math.sqrt(v / keep);
  }

  /** Shift at the centre of what was measured: x, y, mm. */
  double[] shift() {
    return new double[] {beta[0], beta[1]};
  }

  /** Turn, degrees counter-clockwise. */
  double turnDeg() {
    return Math.toDegrees(Math.atan2(2 * beta[2] / length, 2 + 2 * beta[3] / length));
  }

  /** Scale along x or y as the images of unit steps have it, ppm. */
  double scalePpm(boolean alongX) {
    double s = beta[3] / length + (alongX ? 1 : -1) * beta[4] / length;
    double q = beta[5] / length + (alongX ? 1 : -1) * beta[2] / length;
    return 1e6 * (Math.hypot(1 + s, q) - 1);
  }

  /** Shift where it is least: within the box of what was measured and the panel origin, mm. */
  double leastShift() {
    double phi = beta[2] / length;
    double[] box = {Math.min(0, min(r.x())), Math.max(0, max(r.x()))};
    double[] boy = {Math.min(0, min(r.y())), Math.max(0, max(r.y()))};
    if (Math.abs(phi) < 1e-9) {
      return Math.hypot(beta[0], beta[1]);
    }
    // d = t + phi J (r - c) vanishes where r - c = J t / phi.
    double px = cx - beta[1] / phi;
    double py = cy + beta[0] / phi;
    double ex = Math.max(0, Math.max(box[0] - px, px - box[1]));
    double ey = Math.max(0, Math.max(boy[0] - py, py - boy[1]));
    return Math.abs(phi) * Math.hypot(ex, ey);
  }

  /** Standard error of a shift, mm. */
  double shiftSe() {
    return few() * sd * Math.sqrt(Math.max(inverse(0, lambda2), inverse(1, lambda2)));
  }

  /**
   * Standard error of the turn, degrees.
   *
   * @param ratio variance of type offsets over that of scatter
   */
  double turnSeDeg(double ratio) {
    return Math.toDegrees(few() * sd * Math.sqrt(inverse(2, ratio)) / length);
  }

  /**
   * Standard error of a scale along x or y, ppm.
   *
   * @param ratio variance of type offsets over that of scatter
   */
  double scaleSePpm(boolean alongX, double ratio) {
    double[] e = new double[p];
    e[3] = 1;
    e[4] = alongX ? 1 : -1;
    double[] v = new Cholesky(withPrior(reduced(ratio), sd), 0).solve(e);
    return 1e6 * few() * sd * Math.sqrt(v[3] + e[4] * v[4]) / length;
  }

  /** What few degrees of freedom add to a standard error. */
  private double few() {
    return Math.sqrt(1 + 10 / Math.max(1, degreesOfFreedom()));
  }

  /** Degrees of freedom that are left beside panel and types. */
  double degreesOfFreedom() {
    double df = 2 * sums.rows - p;
    for (double c : sums.count) {
      df -= c > 0 ? 2 * lambda2 * c / (1 + lambda2 * c) : 0;
    }
    return df;
  }

  /** Diagonal of the inverse information over sd^2. */
  private double inverse(int k, double ratio) {
    double[] e = new double[p];
    e[k] = 1;
    return new Cholesky(withPrior(reduced(ratio), sd), 0).solve(e)[k];
  }

  private static double min(double[] v) {
    double m = v[0];
    for (double a : v) {
      m = Math.min(m, a);
    }
    return m;
  }

  private static double max(double[] v) {
    double m = v[0];
    for (double a : v) {
      m = Math.max(m, a);
    }
    return m;
  }
}
