package org.padtrue.mixed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.SingularValueDecomposition;
import org.jspecify.annotations.Nullable;
import org.padtrue.mixed.PositionColumns.FactorUse;
import org.padtrue.mixed.reml.MixedSystem;
import org.padtrue.mixed.reml.RandomEffects;
import org.padtrue.mixed.reml.RandomEffectsFit;
import org.padtrue.mixed.reml.VarianceUncertainty;
import org.padtrue.mixed.reml.Wald;
import org.padtrue.numeric.Cholesky;
import org.padtrue.numeric.Tails;
import org.padtrue.panel.Factor;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.quantity.Angles;

/** A fitted model of positions. Lengths mm, angles degrees, panel frame unless said otherwise. */
public final class OffsetFit {
  private final PositionColumns cols;
  private final List<Factor> factors;
  private final FamilyMap map;
  private final FamilyMap.Shape shape;
  private final RandomEffects model;
  private final RandomEffectsFit fit;
  private final VarianceUncertainty uncertainty;
  private final List<FamilyCandidate> candidates;
  private final double[] besides;
  private final double commonP;
  private final double settlingP;
  private final double measuringSd;
  private final TypeScatter scatter;
  private final RowWeights weight;
  private final List<String> dropped;
  private final double[][] linear;
  private @Nullable List<FactorEffect> effects;

  OffsetFit(
      PositionColumns cols,
      FamilyMap map,
      FamilyMap.Shape shape,
      RandomEffects model,
      RandomEffectsFit fit,
      VarianceUncertainty uncertainty,
      List<FamilyCandidate> candidates,
      double[] besides,
      double commonP,
      double settlingP,
      double measuringSd,
      TypeScatter scatter,
      RowWeights weight,
      List<String> dropped) {
    this.cols = cols;
    factors = cols.factors.stream().map(FactorUse::factor).toList();
    this.map = map;
    this.shape = shape;
    this.model = model;
    this.fit = fit;
    this.uncertainty = uncertainty;
    this.candidates = candidates;
    this.besides = besides;
    this.commonP = commonP;
    this.settlingP = settlingP;
    this.measuringSd = measuringSd;
    this.scatter = scatter;
    this.weight = weight;
    this.dropped = dropped;
    linear = new double[cols.panels][];
    for (int p = 0; p < cols.panels; p++) {
      double[] a = map.layout().rotation() < 0 ? new double[] {1, 0, 0, 1} : shape.linear(p);
      linear[p] = new double[] {a[0] - 1, a[1], a[2], a[3] - 1};
    }
  }

  /** Which terms the model has. */
  public Terms terms() {
    return map.terms();
  }

  /** The candidates of the family choice. */
  public List<FamilyCandidate> candidates() {
    return candidates;
  }

  /** Factors that were left out, with the reason: "nozzle: one level only". */
  public List<String> droppedFactors() {
    return dropped;
  }

  /** Pooled residual standard deviation per axis, measuring included, mm (REML). */
  public double residualSd() {
    return fit.residualSd();
  }

  /** Root mean square measuring uncertainty, mm; NaN unknown. */
  public double measuringSd() {
    return measuringSd;
  }

  /** Rows minus fixed parameters. */
  public double degreesOfFreedom() {
    return fit.rows() - fit.rank();
  }

  /** Effective number of parameters, random ones counted by how little they are shrunk. */
  public double effectiveParameters() {
    double rho = fit.rank();
    for (int j = 0; j < fit.random().length; j++) {
      int t = cols.thetaOf[j];
      double th = t < fit.theta().length ? fit.theta()[t] : MixedSystem.FREE;
      if (th > 0) {
        rho += 1 - fit.inverse()[j][j] / (th * th);
      }
    }
    return rho;
  }

  private int b(int i) {
    return fit.random().length + i;
  }

  private double beta(int i) {
    return fit.fixed()[i];
  }

  /**
   * Tail probability of the test of the common offset when it is not forced; NaN when not tried.
   */
  public double commonP() {
    return commonP;
  }

  /**
   * Nested F test of rotation, free of the family choice: tail probability of adding it where the
   * model lacks it, of taking it out where it has it; NaN where candidates are missing.
   */
  public double rotationNestedP() {
    return besides[0];
  }

  /** The same for scale and squareness. */
  public double scaleNestedP() {
    return besides[1];
  }

  /** The same for the array. */
  public double arrayNestedP() {
    return besides[2];
  }

  /** Centroid of what was measured, mm. */
  public double[] centroid() {
    return new double[] {cols.centreX, cols.centreY};
  }

  /** Number of panels. */
  public int panels() {
    return cols.panels;
  }

  /** Estimated transform of a panel. */
  public PanelEstimate panel(int p) {
    FamilyMap.Layout l = map.layout();
    double[] a = linear[p];
    double sx = cols.meanDx + beta(2 * p);
    double sy = cols.meanDy + beta(2 * p + 1);
    double ox = sx - a[0] * cols.centreX - a[1] * cols.centreY;
    double oy = sy - a[2] * cols.centreX - a[3] * cols.centreY;
    double[] se = new double[6];
    double[] gx = new double[fit.fixed().length];
    double[] gy = new double[fit.fixed().length];
    gx[2 * p] = 1;
    gy[2 * p + 1] = 1;
    double[] r = {cols.centreX / cols.radius, cols.centreY / cols.radius};
    int from = l.rotation() < 0 ? 0 : l.rotation() + p;
    int panelAt = PositionColumns.PER_PANEL * p + 2;
    for (int j = 0; l.rotation() >= 0 && j < fit.fixed().length; j++) {
      boolean shared = l.scale() >= 0 && j >= l.scale() && j < l.scale() + scaleCount();
      if (j == from || shared) {
        double[] c = map.c()[j];
        gx[j] = -(c[panelAt] * r[0] + c[panelAt + 1] * r[1]);
        gy[j] = -(c[panelAt + 2] * r[0] + c[panelAt + 3] * r[1]);
      }
    }
    se[0] = Math.sqrt(quadratic(gx));
    se[1] = Math.sqrt(quadratic(gy));
    double rotSe = 0;
    double rotDf = Double.NaN;
    if (l.rotation() >= 0) {
      int i = b(l.rotation() + p);
      rotSe = Math.toDegrees(uncertainty.se[i]);
      rotDf = uncertainty.df[i];
      se[2] = rotSe;
    }
    double kx = 0;
    double ky = 0;
    double q = 0;
    if (l.scale() >= 0) {
      kx = 1e6 * shape.kx();
      ky = 1e6 * shape.ky();
      q = 1e3 * shape.q();
      se[3] = 1e6 * fixedSe(l.scale());
      boolean affine = scaleCount() == 3;
      se[4] = affine ? 1e6 * fixedSe(l.scale() + 1) : se[3];
      se[5] = affine ? 1e3 * fixedSe(l.scale() + 2) : 0;
    }
    int i = b(2 * p);
    int j = b(2 * p + 1);
    double[][] m = uncertainty.mse;
    return new PanelEstimate(
        ox,
        oy,
        l.rotation() < 0 ? 0 : Angles.wrap(Math.toDegrees(shape.phi()[p])),
        kx,
        ky,
        q,
        se,
        new double[] {sx, sy},
        new double[] {m[i][i], m[i][j], m[j][j]},
        Math.min(uncertainty.df[i], uncertainty.df[j]),
        rotSe,
        rotDf);
  }

  private int scaleCount() {
    return map.terms().family().shared();
  }

  private double fixedSe(int i) {
    return uncertainty.se[b(i)];
  }

  /** Covariance with the calibrated standard errors on its diagonal. */
  private double calibrated(int i, int j) {
    double v = uncertainty.mse[i][i] * uncertainty.mse[j][j];
    return v > 0 ? uncertainty.mse[i][j] * uncertainty.se[i] * uncertainty.se[j] / Math.sqrt(v) : 0;
  }

  private double quadratic(double[] g) {
    double v = 0;
    for (int i = 0; i < g.length; i++) {
      for (int j = 0; j < g.length; j++) {
        if (g[i] != 0 && g[j] != 0) {
          v += g[i] * g[j] * calibrated(b(i), b(j));
        }
      }
    }
    return v;
  }

  /** Wald test of the scale and squareness terms; NaN statistics when absent. */
  public Wald scaleTest() {
    int[] which = range(map.layout().scale(), scaleCount());
    double[] value =
        which.length == 3
            ? new double[] {shape.kx(), shape.ky(), shape.q()}
            : new double[] {shape.kx()};
    return wald(fit, uncertainty, which, value);
  }

  /** Wald test of the array terms. */
  public Wald arrayTest() {
    int[] c = range(map.layout().column(), map.layout().column() < 0 ? 0 : 2);
    int[] r = range(map.layout().row(), map.layout().row() < 0 ? 0 : 2);
    int[] all = Arrays.copyOf(c, c.length + r.length);
    System.arraycopy(r, 0, all, c.length, r.length);
    return wald(all);
  }

  /** Wald test of the common offset. */
  public Wald commonTest() {
    return wald(range(map.layout().common(), map.layout().common() < 0 ? 0 : 2));
  }

  private static int[] range(int from, int count) {
    int[] r = new int[Math.max(0, from < 0 ? 0 : count)];
    for (int i = 0; i < r.length; i++) {
      r[i] = from + i;
    }
    return r;
  }

  private Wald wald(int[] which) {
    return wald(fit, uncertainty, which);
  }

  static Wald wald(RandomEffectsFit fit, VarianceUncertainty u, int[] which) {
    double[] value = new double[which.length];
    for (int i = 0; i < value.length; i++) {
      value[i] = fit.fixed()[which[i]];
    }
    return wald(fit, u, which, value);
  }

  private static Wald wald(
      RandomEffectsFit fit, VarianceUncertainty u, int[] which, double[] value) {
    int d = which.length;
    if (d == 0) {
      return new Wald(Double.NaN, 0, Double.NaN, Double.NaN);
    }
    int off = fit.random().length;
    double[][] v = new double[d][d];
    double[] b = new double[d];
    double df = Double.POSITIVE_INFINITY;
    for (int i = 0; i < d; i++) {
      b[i] = value[i];
      df = Math.min(df, u.df[off + which[i]]);
      for (int j = 0; j < d; j++) {
        v[i][j] = u.mse[off + which[i]][off + which[j]];
      }
    }
    return wald(b, v, df);
  }

  /** Wald test of a vector with a covariance and degrees of freedom. */
  public static Wald wald(double[] b, double[][] v, double df) {
    int d = b.length;
    for (double[] r : v) {
      for (double a : r) {
        if (Double.isNaN(a)) {
          return new Wald(Double.NaN, d, df, Double.NaN);
        }
      }
    }
    double[] s =
        new SingularValueDecomposition(new Array2DRowRealMatrix(v))
            .getSolver()
            .solve(new ArrayRealVector(b))
            .toArray();
    double t = 0;
    for (int i = 0; i < d; i++) {
      t += b[i] * s[i];
    }
    double f = t / d;
    return new Wald(f, d, df, Tails.f(f, d, df));
  }

  /** Array steps: column x, y, row x, y, mm; NaN where the array has no such direction. */
  public double[] array() {
    return pairs(false);
  }

  /** Their standard errors. */
  public double[] arraySe() {
    return pairs(true);
  }

  private double[] pairs(boolean se) {
    double[] v = {Double.NaN, Double.NaN, Double.NaN, Double.NaN};
    int[] at = {map.layout().column(), map.layout().row()};
    for (int k = 0; k < 2; k++) {
      for (int e = 0; at[k] >= 0 && e < 2; e++) {
        v[2 * k + e] = se ? fixedSe(at[k] + e) : beta(at[k] + e);
      }
    }
    return v;
  }

  /** Common part-frame offset, mm; NaN when not in the model. */
  public double[] common() {
    int c = map.layout().common();
    return c < 0 ? new double[] {Double.NaN, Double.NaN} : new double[] {beta(c), beta(c + 1)};
  }

  /** Its standard errors. */
  public double[] commonSe() {
    int c = map.layout().common();
    return c < 0
        ? new double[] {Double.NaN, Double.NaN}
        : new double[] {fixedSe(c), fixedSe(c + 1)};
  }

  /** Settling per placement in order, mm; NaN when not in the model. */
  public double[] settling() {
    int c = map.layout().settling();
    return c < 0
        ? new double[] {Double.NaN, Double.NaN}
        : new double[] {beta(c) / cols.orderScale(), beta(c + 1) / cols.orderScale()};
  }

  /** Offsets of every factor in the model. */
  public List<FactorEffect> effects() {
    List<FactorEffect> known = effects;
    if (known == null) {
      List<FactorEffect> out = new ArrayList<>();
      for (int f = 0; f < cols.factors.size(); f++) {
        out.add(effect(f));
      }
      known = List.copyOf(out);
      effects = known;
    }
    return known;
  }

  private FactorEffect effect(int f) {
    FactorUse use = cols.factors.get(f);
    int k = use.levels().size();
    double[][] v = new double[2][k];
    double[][] se = new double[2][k];
    double[][] df = new double[2][k];
    double[][] both = new double[2][k];
    boolean addCommon = use.factor() == Factor.PART && map.layout().common() >= 0;
    for (int l = 0; l < k; l++) {
      for (int e = 0; e < 2; e++) {
        int j = cols.baseOf[f] + 2 * l + e;
        v[e][l] = fit.random()[j];
        se[e][l] = uncertainty.se[j];
        df[e][l] = uncertainty.df[j];
        both[e][l] = addCommon ? uncertainty.sumSe[2 * l + e] : se[e][l];
        if (use.factor() == Factor.PART) {
          // The scatter of one type is known with fewer degrees of freedom than that of all.
          double own = scatter.degreesOfFreedom(use.levels().get(l));
          if (own < df[e][l]) {
            double wider = Tails.t(0.95, own) / Tails.t(0.95, df[e][l]);
            se[e][l] *= wider;
            both[e][l] *= wider;
            df[e][l] = own;
          }
        }
      }
    }
    return new FactorEffect(
        use.factor(),
        cols.source(f),
        use.partFrame(),
        use.levels(),
        use.column().counts(),
        v[0],
        v[1],
        se[0],
        se[1],
        df[0],
        df[1],
        both[0],
        both[1],
        fit.sd(2 * f),
        fit.sd(2 * f + 1),
        model.test(fit, 2 * f),
        model.test(fit, 2 * f + 1));
  }

  private static final List<TermFamily> FAMILIES =
      List.of(
          TermFamily.SHIFT,
          TermFamily.ROTATION,
          TermFamily.SCALE,
          TermFamily.ARRAY,
          TermFamily.COMMON,
          TermFamily.SETTLING);

  /** What contributes, in the order of {@link #contributions}. */
  public List<Contribution> contributing() {
    List<Contribution> all = new ArrayList<>();
    FAMILIES.forEach(f -> all.add(new Contribution(f, null)));
    effects().forEach(e -> all.add(new Contribution(null, e)));
    return all;
  }

  /**
   * What each term contributes to the deviation of a row.
   *
   * @param i row of the table
   * @return one (x, y) pair per contribution, mm, panel frame; shift and rotation about the
   *     centroid
   */
  public double[][] contributions(int i) {
    int[] level = new int[cols.factors.size()];
    for (int f = 0; f < level.length; f++) {
      level[f] = cols.factors.get(f).column().level()[i];
    }
    return contributions(
        cols.table.panel()[i],
        cols.table.x()[i],
        cols.table.y()[i],
        cols.table.theta()[i],
        cols.table.column()[i],
        cols.table.row()[i],
        cols.hasOrder() ? cols.order(i) : 0,
        level);
  }

  /** The same for any placement; levels by factor of the model, -1 unknown. */
  public double[][] contributions(
      int panel,
      double x,
      double y,
      double thetaDeg,
      int column,
      int row,
      double scaledOrder,
      int[] level) {
    double[][] out = new double[FAMILIES.size() + cols.factors.size()][2];
    double c = Angles.cosDeg(thetaDeg);
    double s = Angles.sinDeg(thetaDeg);
    double px = x - cols.centreX;
    double py = y - cols.centreY;
    out[0][0] = cols.meanDx + beta(2 * panel);
    out[0][1] = cols.meanDy + beta(2 * panel + 1);
    double[] a = linear[panel];
    double phi = map.layout().rotation() < 0 ? 0 : shape.phi()[panel];
    double rc = Math.cos(phi) - 1;
    double rs = Math.sin(phi);
    out[1][0] = rc * px - rs * py;
    out[1][1] = rs * px + rc * py;
    out[2][0] = a[0] * px + a[1] * py - out[1][0];
    out[2][1] = a[2] * px + a[3] * py - out[1][1];
    FamilyMap.Layout l = map.layout();
    for (int e = 0; e < 2; e++) {
      out[3][e] =
          (l.column() < 0 ? 0 : beta(l.column() + e) * (column - 1))
              + (l.row() < 0 ? 0 : beta(l.row() + e) * (row - 1));
      out[5][e] = l.settling() < 0 ? 0 : beta(l.settling() + e) * scaledOrder;
    }
    if (l.common() >= 0) {
      out[4][0] = c * beta(l.common()) - s * beta(l.common() + 1);
      out[4][1] = s * beta(l.common()) + c * beta(l.common() + 1);
    }
    for (int f = 0; f < cols.factors.size(); f++) {
      if (level[f] < 0) {
        continue;
      }
      int j = cols.baseOf[f] + 2 * level[f];
      double ux = fit.random()[j];
      double uy = fit.random()[j + 1];
      boolean part = cols.factors.get(f).partFrame();
      out[FAMILIES.size() + f][0] = part ? c * ux - s * uy : ux;
      out[FAMILIES.size() + f][1] = part ? s * ux + c * uy : uy;
    }
    return out;
  }

  /** Factors of the model in the order of levels that {@code contributions} wants. */
  public List<Factor> factors() {
    return factors;
  }

  /** Level of a factor of the model by name, -1 when it is not in the table. */
  public int level(int factor, String name) {
    return cols.factors.get(factor).levels().indexOf(name);
  }

  /**
   * How the fitted systematic deviation at a placement hangs on the coefficients.
   *
   * @param index coefficients: random first, then fixed
   * @param x derivative of the deviation along x by each
   * @param y the same along y
   */
  public record Gradient(int[] index, double[] x, double[] y) {
    /** This placement minus another: what both share drops out. */
    public Gradient minus(Gradient o) {
      int n = index.length;
      int m = o.index.length;
      int[] i = Arrays.copyOf(index, n + m);
      double[] gx = Arrays.copyOf(x, n + m);
      double[] gy = Arrays.copyOf(y, n + m);
      for (int k = 0; k < m; k++) {
        i[n + k] = o.index[k];
        gx[n + k] = -o.x[k];
        gy[n + k] = -o.y[k];
      }
      return new Gradient(i, gx, gy);
    }
  }

  /** Gradient at a placement, mean over the panels; levels by factor of the model, -1 unknown. */
  public Gradient gradient(double x, double y, double thetaDeg, int column, int row, int[] level) {
    int k = fit.random().length + fit.fixed().length;
    int[] idx = new int[k];
    double[][] g = new double[2][k];
    int m = 0;
    double c = Angles.cosDeg(thetaDeg);
    double s = Angles.sinDeg(thetaDeg);
    FamilyMap.Layout l = map.layout();
    double px = (x - cols.centreX) / cols.radius;
    double py = (y - cols.centreY) / cols.radius;
    for (int p = 0; p < cols.panels; p++) {
      for (int e = 0; e < 2; e++) {
        idx[m] = b(2 * p + e);
        g[e][m++] = 1.0 / cols.panels;
      }
    }
    int shapes = l.rotation() < 0 ? 0 : cols.panels + scaleCount();
    for (int j = 0; j < shapes; j++) {
      int par = l.rotation() + j;
      idx[m] = b(par);
      double[] row0 = map.c()[par];
      for (int p = 0; p < cols.panels; p++) {
        int at = PositionColumns.PER_PANEL * p + 2;
        g[0][m] += (row0[at] * px + row0[at + 1] * py) / cols.panels;
        g[1][m] += (row0[at + 2] * px + row0[at + 3] * py) / cols.panels;
      }
      m++;
    }
    for (int e = 0; e < 2; e++) {
      if (l.column() >= 0) {
        idx[m] = b(l.column() + e);
        g[e][m++] = column - 1;
      }
      if (l.row() >= 0) {
        idx[m] = b(l.row() + e);
        g[e][m++] = row - 1;
      }
    }
    if (l.common() >= 0) {
      m = turned(idx, g, m, b(l.common()), c, s);
    }
    for (int f = 0; f < cols.factors.size(); f++) {
      if (level[f] < 0) {
        continue;
      }
      int j = cols.baseOf[f] + 2 * level[f];
      if (cols.factors.get(f).partFrame()) {
        m = turned(idx, g, m, j, c, s);
      } else {
        for (int e = 0; e < 2; e++) {
          idx[m] = j + e;
          g[e][m++] = 1;
        }
      }
    }
    return new Gradient(Arrays.copyOf(idx, m), Arrays.copyOf(g[0], m), Arrays.copyOf(g[1], m));
  }

  /**
   * Covariance of the error of what a gradient belongs to, panel registration and scatter left out.
   *
   * @return (xx, xy, yy), mm^2
   */
  public double[] covariance(Gradient g) {
    int m = g.index.length;
    double[] v = new double[3];
    for (int i = 0; i < m; i++) {
      for (int j = 0; j < m; j++) {
        double q = uncertainty.moments[g.index[i]][g.index[j]];
        v[0] += g.x[i] * q * g.x[j];
        v[1] += g.x[i] * q * g.y[j];
        v[2] += g.y[i] * q * g.y[j];
      }
    }
    return v;
  }

  /** Number of coefficients: random, then fixed. */
  public int coefficients() {
    return fit.random().length + fit.fixed().length;
  }

  /**
   * Errors of the coefficients as they may be together.
   *
   * @param z standard normal numbers, one per coefficient
   */
  public double[] error(double[] z) {
    Cholesky l = root;
    if (l == null) {
      double[][] known = new double[coefficients()][];
      for (int i = 0; i < known.length; i++) {
        known[i] =
            Arrays.stream(uncertainty.moments[i]).map(v -> Double.isNaN(v) ? 0 : v).toArray();
      }
      l = new Cholesky(known, 1e-10);
      root = l;
    }
    return l.times(z);
  }

  /** Lower root of the second moments; columns that depend on earlier ones are nought. */
  private @Nullable Cholesky root;

  private static int turned(int[] idx, double[][] g, int m, int j, double c, double s) {
    idx[m] = j;
    g[0][m] = c;
    g[1][m] = s;
    idx[m + 1] = j + 1;
    g[0][m + 1] = -s;
    g[1][m + 1] = c;
    return m + 2;
  }

  /** Scatter of one placement by part type, measuring included, mm^2. */
  public TypeScatter scatter() {
    return scatter;
  }

  /** Weights of the rows. */
  RowWeights weights() {
    return weight;
  }

  /** Relative standard deviations of the components, x and y of each in order. */
  double[] theta() {
    return fit.theta().clone();
  }

  /** The components: factors with the frame in which each acts. */
  List<FactorUse> uses() {
    return cols.factors;
  }
}
