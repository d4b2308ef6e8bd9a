package org.padtrue.firstarticle.decide;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.fitted.ArticleSet;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.fitted.TestList;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.mixed.FactorEffect;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.mixed.RotationFit;
import org.padtrue.numeric.LeastSquares;
import org.padtrue.numeric.UndeterminedException;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.quantity.Angles;

/** One entry per level of each factor: prediction, plain least squares beside it, trim. */
public final class Groups {
  /** Placements that an affine fit of one type should have before it is shown. */
  private static final int AFFINE_FROM = 8;

  private final Fits fits;
  private final Decisions decisions;
  private final ArticleSet set;

  private Groups(Fits fits, Decisions decisions, ArticleSet set) {
    this.fits = fits;
    this.decisions = decisions;
    this.set = set;
  }

  public static List<GroupResult> of(Fits fits, Decisions decisions, ArticleSet set) {
    return new Groups(fits, decisions, set).build();
  }

  private List<GroupResult> build() {
    List<GroupResult> out = new ArrayList<>();
    for (Factor factor : Factor.values()) {
      LevelColumn f = fits.used().factors().get(factor);
      if (f == null || !fits.factors().contains(factor)) {
        continue;
      }
      List<List<Integer>> rows = rows(f);
      for (Fits.Part p : fits.parts(factor)) {
        double[][] means = levelMeans(f, p);
        for (int l = 0; l < f.levels().size(); l++) {
          out.add(group(factor, f.levels().get(l), l, rows.get(l), p, means[l]));
        }
      }
    }
    return out;
  }

  private static List<List<Integer>> rows(LevelColumn f) {
    List<List<Integer>> rows = new ArrayList<>();
    f.levels().forEach(l -> rows.add(new ArrayList<>()));
    for (int i = 0; i < f.level().length; i++) {
      if (f.level()[i] >= 0) {
        rows.get(f.level()[i]).add(i);
      }
    }
    return rows;
  }

  /** Standard errors of a part type's offset with what all types share: mm, degrees. */
  private Xyr combinedSe(@Nullable FactorEffect e, int l, @Nullable RotationFit r, int k, int rl) {
    double[] cse = fits.position().commonSe();
    double rotSe = Double.NaN;
    if (r != null) {
      rotSe =
          rl < 0
              ? Math.sqrt(TestList.rotationZeroVariance(fits, r))
              : Math.hypot(r.combinedSe(k, rl), panelRotationSe());
    }
    return new Xyr(
        e == null ? cse[0] : e.combinedSeX()[l], e == null ? cse[1] : e.combinedSeY()[l], rotSe);
  }

  private GroupResult group(
      Factor factor, String level, int l, List<Integer> rows, Fits.Part p, double[] mean) {
    @Nullable FactorEffect e = p.effect();
    RotationFit r = p.rotations() ? fits.rotation() : null;
    int k = r == null ? -1 : r.factors().indexOf(factor);
    int rl = r == null || k < 0 ? -1 : r.level(k, level);
    double rot = Double.NaN;
    double rotSe = Double.NaN;
    double rotDf = Double.NaN;
    if (r != null && rl >= 0) {
      rot = r.offset(k, rl);
      rotSe = r.offsetSe(k, rl);
      rotDf = r.offsetDf(k, rl);
    }
    Xyr offset =
        e == null ? new Xyr(Double.NaN, Double.NaN, rot) : new Xyr(e.x()[l], e.y()[l], rot);
    Xyr se =
        e == null ? new Xyr(Double.NaN, Double.NaN, rotSe) : new Xyr(e.seX()[l], e.seY()[l], rotSe);
    Xyr df =
        e == null ? new Xyr(Double.NaN, Double.NaN, rotDf) : new Xyr(e.dfX()[l], e.dfY()[l], rotDf);
    boolean part = factor == Factor.PART;
    double[] c = fits.position().common();
    double zero = r == null ? Double.NaN : r.zero();
    Xyr combined =
        part ? new Xyr(plus(offset.x(), c[0]), plus(offset.y(), c[1]), plus(rot, zero)) : offset;
    Xyr combinedSe = part ? combinedSe(e, l, r, k, rl) : se;
    TrimValue trim = decisions.levels().get(new LevelKey(factor, level, p.frame()));
    TreeSet<Long> turns = new TreeSet<>();
    rows.forEach(i -> turns.add(Math.round(Angles.wrap(fits.used().theta()[i]) * 10)));
    return new GroupResult(
        factor,
        level,
        p.frame().key(),
        rows.size(),
        turns.size(),
        part ? fits.zeroOrientation(level) : 0,
        offset,
        se,
        df,
        combined,
        combinedSe,
        new Xyr(mean[0], mean[1], mean[2]),
        own(rows),
        trim == null ? new TrimValue(Xyr.ZERO, Decision.LEAVE, "") : trim);
  }

  private double panelRotationSe() {
    double v = 0;
    int n = fits.panels().size();
    for (var p : fits.panels()) {
      v += p.rotationSeDeg() * p.rotationSeDeg() / ((double) n * n);
    }
    return Math.sqrt(v);
  }

  /** Where the common term is not in the model, the offset holds it already. */
  private static double plus(double offset, double common) {
    if (Double.isNaN(common)) {
      return offset;
    }
    return Double.isNaN(offset) ? common : offset + common;
  }

  /**
   * Mean by level, in the component's frame, of what the panel terms and the factor's other
   * component leave; rotation likewise.
   */
  private double[][] levelMeans(LevelColumn f, Fits.Part part) {
    boolean partFrame = part.frame() == OffsetFrame.PART;
    int[] off = fits.besides(f.factor(), part);
    DeviationTable t = fits.used();
    OffsetFit fit = fits.position();
    double[][] s = new double[f.levels().size()][3];
    int[] n = new int[s.length];
    int[] nr = new int[s.length];
    double[] cos = t.cosTheta();
    double[] sin = t.sinTheta();
    for (int i = 0; i < t.size(); i++) {
      int l = f.level()[i];
      if (l < 0) {
        continue;
      }
      double[][] c = fit.contributions(i);
      double rx = t.dx()[i];
      double ry = t.dy()[i];
      for (int k : off) {
        rx -= c[k][0];
        ry -= c[k][1];
      }
      s[l][0] += partFrame ? cos[i] * rx + sin[i] * ry : rx;
      s[l][1] += partFrame ? -sin[i] * rx + cos[i] * ry : ry;
      n[l]++;
      if (part.rotations() && !Double.isNaN(t.dr()[i])) {
        s[l][2] +=
            Angles.wrap(
                t.dr()[i]
                    - fits.zeroOrientation(t.rows().get(i).placement().part())
                    - fits.panels().get(t.panel()[i]).rotationDeg(),
                set.symmetry()[fits.usedRow()[i]]);
        nr[l]++;
      }
    }
    for (int l = 0; l < s.length; l++) {
      s[l][0] = n[l] == 0 ? Double.NaN : s[l][0] / n[l];
      s[l][1] = n[l] == 0 ? Double.NaN : s[l][1] / n[l];
      s[l][2] = nr[l] == 0 ? Double.NaN : s[l][2] / nr[l];
    }
    return s;
  }

  /** Rigid or affine fit of the level's own placements; null where they carry neither. */
  private GroupResult.@Nullable OwnTransform own(List<Integer> rows) {
    if (rows.size() < 3 || fits.panels().size() > 1) {
      return null;
    }
    DeviationTable t = fits.used();
    if (rows.size() >= AFFINE_FROM) {
      try {
        return affine(t, rows);
      } catch (UndeterminedException e) {
        // In line: the rigid fit below still says something.
      }
    }
    try {
      return rigid(t, rows);
    } catch (UndeterminedException e) {
      return null;
    }
  }

  private static double mean(double[] v, List<Integer> rows) {
    return rows.stream().mapToDouble(i -> v[i]).average().orElse(0);
  }

  private static GroupResult.OwnTransform affine(DeviationTable t, List<Integer> rows) {
    double cx = mean(t.x(), rows);
    double cy = mean(t.y(), rows);
    double[][] x = new double[rows.size()][];
    double[] dx = new double[x.length];
    double[] dy = new double[x.length];
    for (int k = 0; k < x.length; k++) {
      int i = rows.get(k);
      x[k] = new double[] {1, t.x()[i] - cx, t.y()[i] - cy};
      dx[k] = t.dx()[i];
      dy[k] = t.dy()[i];
    }
    LeastSquares fx = LeastSquares.fit(x, dx);
    LeastSquares fy = LeastSquares.fit(x, dy);
    double[] a = fx.coefficients();
    double[] b = fy.coefficients();
    double[] sa = fx.standardErrors();
    double[] sb = fy.standardErrors();
    double rotation = Math.atan2(b[1], 1 + a[1]);
    double up = Math.atan2(1 + b[2], a[2]) - Math.PI / 2;
    return new GroupResult.OwnTransform(
        "affine",
        new TransformValues(
            a[0] - a[1] * cx - a[2] * cy,
            b[0] - b[1] * cx - b[2] * cy,
            Math.toDegrees(rotation),
            1e6 * (Math.hypot(1 + a[1], b[1]) - 1),
            1e6 * (Math.hypot(a[2], 1 + b[2]) - 1),
            1e3 * (up - rotation)),
        new TransformValues(
            Math.hypot(sa[0], Math.hypot(sa[1] * cx, sa[2] * cy)),
            Math.hypot(sb[0], Math.hypot(sb[1] * cx, sb[2] * cy)),
            Math.toDegrees(sb[1]),
            1e6 * sa[1],
            1e6 * sb[2],
            1e3 * Math.hypot(sa[2], sb[1])));
  }

  private static GroupResult.OwnTransform rigid(DeviationTable t, List<Integer> rows) {
    double cx = mean(t.x(), rows);
    double cy = mean(t.y(), rows);
    double[][] x = new double[2 * rows.size()][];
    double[] y = new double[x.length];
    for (int k = 0; k < rows.size(); k++) {
      int i = rows.get(k);
      x[2 * k] = new double[] {1, 0, -(t.y()[i] - cy)};
      x[2 * k + 1] = new double[] {0, 1, t.x()[i] - cx};
      y[2 * k] = t.dx()[i];
      y[2 * k + 1] = t.dy()[i];
    }
    LeastSquares f = LeastSquares.fit(x, y);
    double[] b = f.coefficients();
    double[] s = f.standardErrors();
    return new GroupResult.OwnTransform(
        "rigid",
        new TransformValues(
            b[0] + b[2] * cy, b[1] - b[2] * cx, Math.toDegrees(Math.atan(b[2])), 0, 0, 0),
        new TransformValues(
            Math.hypot(s[0], s[2] * cy),
            Math.hypot(s[1], s[2] * cx),
            Math.toDegrees(s[2]),
            0,
            0,
            0));
  }
}
