package org.padtrue.log;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.history.LoggedParameter;
import org.padtrue.numeric.NormalEquations;
import org.padtrue.numeric.NormalEquations.Solution;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.panel.term.Term;

/**
 * Unshrunk estimates of every term of one article, with standard errors: the points of its series.
 *
 * <p>One model for all articles: each panel's shift and rotation, scale x, scale y and squareness,
 * every part type's offset in full, nozzles, feeders and heads so that their levels sum to zero (a
 * constant over all nozzles is one over all parts). The board array is not a term: its error shows
 * as scale, and its trims are logged as what they do to scale. What an article cannot tell is left
 * out: factors first, then what part types share, then scale. Differences between levels are taken
 * from a fit of all factors in full, so that those stay known which no tie touches. Weighted by the
 * scatter of each part type and the stated uncertainties; standard errors take the scatter from the
 * mixed fit, which is steadier in small articles.
 */
final class PlainFit {
  static final String CENTRE_X = "centreX";
  static final String CENTRE_Y = "centreY";
  static final String CENTRE_SHIFT_X = "centreShiftX";
  static final String CENTRE_SHIFT_Y = "centreShiftY";

  private static final String MM = "mm";
  private static final String DEG = "deg";

  private final ArticleTerms terms;
  private final DeviationTable t;
  private final double[] dx;
  private final double[] dy;
  private final double[] weight;
  private final double sd;
  private final List<LoggedParameter> out = new ArrayList<>();
  private final Map<String, Double> turn = new HashMap<>();
  private double turnVariance;

  private PlainFit(ArticleTerms terms, double[] dx, double[] dy) {
    this.terms = terms;
    this.t = terms.used();
    this.dx = dx;
    this.dy = dy;
    this.sd = terms.scatter().residualSd();
    this.weight = weights(terms.expected(), sd);
  }

  /** The estimates; empty when the placements determine nothing. */
  static List<LoggedParameter> of(ArticleTerms terms) {
    PlainFit f = new PlainFit(terms, terms.used().dx(), terms.used().dy());
    f.positions();
    f.scatter();
    f.out.addAll(DeadBands.parameters(terms.bands()));
    f.out.addAll(TurnFit.of(terms, f.turn, Math.sqrt(f.turnVariance)));
    return List.copyOf(f.out);
  }

  /**
   * What a field of corrections does to the terms: the same fit with the field in place of the
   * deviations.
   *
   * @param dx correction of each used row, mm
   * @param dy the same along y
   * @return change by series name, that of the first panel for shift and rotation
   */
  static Map<String, LoggedParameter> ofField(ArticleTerms terms, double[] dx, double[] dy) {
    PlainFit f = new PlainFit(terms, dx, dy);
    f.positions();
    Map<String, LoggedParameter> m = new LinkedHashMap<>();
    for (LoggedParameter p : f.out) {
      if (!p.name().startsWith("centre")) {
        m.putIfAbsent(p.name(), p);
      }
    }
    return m;
  }

  /**
   * Weights residual variance over what is expected of each row, 1 where nothing is known.
   *
   * @param expected variance of each row
   * @param residualSd of all rows together
   */
  static double[] weights(List<Double> expected, double residualSd) {
    double[] w = new double[expected.size()];
    for (int i = 0; i < w.length; i++) {
      w[i] = residualSd * residualSd / expected.get(i);
      if (!(w[i] > 0) || Double.isInfinite(w[i])) {
        w[i] = 1;
      }
    }
    return w;
  }

  private void positions() {
    PlainColumns columns = null;
    Solution solution = null;
    List<LevelColumn> factors = PlainColumns.factors(t);
    for (PlainColumns base : bases(factors)) {
      solution = solve(base);
      if (solution != null) {
        columns = base;
        break;
      }
    }
    if (columns == null || solution == null) {
      return;
    }
    boolean mixedUp = false;
    for (LevelColumn f : factors) {
      boolean labelled = java.util.Arrays.stream(f.level()).allMatch(l -> l >= 0);
      if (f.factor() == Factor.PART || f.levels().size() < 2) {
        continue;
      }
      List<PlainColumns.Block> more = new ArrayList<>(columns.blocks);
      more.add(PlainColumns.Block.of(f, labelled, f.factor().frame() == OffsetFrame.PANEL));
      PlainColumns richer = new PlainColumns(t, columns.family, more);
      Solution s = solve(richer);
      if (s != null) {
        columns = richer;
        solution = s;
      } else {
        mixedUp |= !nested(f, factors.get(0));
      }
    }
    panels(columns, solution);
    if (!mixedUp) {
      levels(columns, solution);
    }
    differences(columns.family, factors, mixedUp);
  }

  /** What is known of levels against each other, from all factors in full, however tied. */
  private void differences(PlainColumns.Family family, List<LevelColumn> factors, boolean mixedUp) {
    List<PlainColumns.Block> full =
        factors.stream()
            .map(f -> PlainColumns.Block.of(f, false, f.factor().frame() == OffsetFrame.PANEL))
            .toList();
    PlainColumns c = new PlainColumns(t, family, full);
    NormalEquations.Tied s = equations(c).tied();
    if (2 * t.size() < s.rank() + 2) {
      return;
    }
    if (mixedUp) {
      out.addAll(TiedLevels.of(c, s, terms.relativeTypes(), sd));
    }
    for (int b = 0; b < full.size(); b++) {
      LevelColumn f = full.get(b).factor();
      for (int axis = 0; axis < 2; axis++) {
        int block = b;
        int along = axis;
        out.addAll(
            LevelDifferences.of(
                f,
                terms.relativeTypes(),
                axis == 0 ? OffsetAxis.X : OffsetAxis.Y,
                sd,
                s,
                l -> c.levelOf(block, l, along)));
      }
    }
  }

  /**
   * True when each level of the first factor has one level of the other only, as a part type its
   * feeder: then its offset stands for both, in every article alike. Otherwise what an article
   * cannot keep apart would be another mixture each time, and is not logged.
   */
  private static boolean nested(LevelColumn of, LevelColumn in) {
    int[] only = new int[in.levels().size()];
    java.util.Arrays.fill(only, -1);
    for (int i = 0; i < in.level().length; i++) {
      int l = in.level()[i];
      int m = of.level()[i];
      if (l >= 0 && m >= 0) {
        if (only[l] >= 0 && only[l] != m) {
          return false;
        }
        only[l] = m;
      }
    }
    return true;
  }

  /** Models without the rarer factors, the richest first. */
  private List<PlainColumns> bases(List<LevelColumn> factors) {
    List<List<PlainColumns.Block>> parts = new ArrayList<>();
    if (!factors.isEmpty() && factors.get(0).factor() == Factor.PART) {
      parts.add(List.of(PlainColumns.Block.of(factors.get(0), false, false)));
      parts.add(List.of(PlainColumns.Block.of(factors.get(0), true, false)));
    }
    parts.add(List.of());
    List<PlainColumns> all = new ArrayList<>();
    for (PlainColumns.Family family : PlainColumns.Family.values()) {
      if (family != PlainColumns.Family.AFFINE || terms.scaleVisible()) {
        parts.forEach(p -> all.add(new PlainColumns(t, family, p)));
      }
    }
    return all;
  }

  private @Nullable Solution solve(PlainColumns c) {
    if (2 * t.size() < c.count + 2) {
      return null;
    }
    return equations(c).solve();
  }

  private NormalEquations equations(PlainColumns c) {
    NormalEquations eq = new NormalEquations(c.count);
    int[] index = new int[c.widest()];
    double[] value = new double[index.length];
    for (int i = 0; i < t.size(); i++) {
      int n = c.row(i, 0, index, value);
      eq.add(index, value, n, dx[i], weight[i]);
      n = c.row(i, 1, index, value);
      eq.add(index, value, n, dy[i], weight[i]);
    }
    return eq;
  }

  private void add(String panel, String name, String unit, double value, double variance) {
    if (Double.isFinite(value)) {
      out.add(new LoggedParameter(panel, name, unit, value, sd * Math.sqrt(variance)));
    }
  }

  private void add(String panel, Term term, double value, double variance) {
    add(panel, term.series(), term.unit(), value, variance);
  }

  private void panels(PlainColumns c, Solution s) {
    double[] b = s.estimates();
    for (int p = 0; p < c.panels; p++) {
      PanelTerms of = new PanelTerms(c, p, b);
      String name = t.panels().get(p);
      boolean turns = c.family != PlainColumns.Family.SHIFT;
      if (turns) {
        turn.put(name, of.rotationDeg());
        double v = sd * sd * s.variance(of.rotationBy());
        turnVariance += v / ((double) c.panels * c.panels);
      }
      if (!terms.partsRegistered()) {
        add(name, FixedTerm.SHIFT_X, of.shift(0), s.variance(of.shiftBy(0)));
        add(name, FixedTerm.SHIFT_Y, of.shift(1), s.variance(of.shiftBy(1)));
        if (turns) {
          add(name, FixedTerm.ROTATION, of.rotationDeg(), s.variance(of.rotationBy()));
        }
        out.add(new LoggedParameter(name, CENTRE_X, MM, c.centreX, Double.NaN));
        out.add(new LoggedParameter(name, CENTRE_Y, MM, c.centreY, Double.NaN));
        add(name, CENTRE_SHIFT_X, MM, b[c.shift(p, 0)], s.covariance()[2 * p][2 * p]);
        add(name, CENTRE_SHIFT_Y, MM, b[c.shift(p, 1)], s.covariance()[2 * p + 1][2 * p + 1]);
      }
    }
    if (c.family == PlainColumns.Family.AFFINE) {
      PanelTerms first = new PanelTerms(c, 0, b);
      int l = c.linear();
      double k = 1 / (c.half * c.half);
      add("", FixedTerm.SCALE_X, first.scaleXPpm(), 1e12 * k * s.covariance()[l][l]);
      add("", FixedTerm.SCALE_Y, first.scaleYPpm(), 1e12 * k * s.covariance()[l + 1][l + 1]);
      add("", FixedTerm.SQUARENESS, first.squarenessMrad(), 1e6 * k * s.covariance()[l + 2][l + 2]);
    }
  }

  private void levels(PlainColumns c, Solution s) {
    for (int b = 0; b < c.blocks.size(); b++) {
      LevelColumn f = c.blocks.get(b).factor();
      for (int l = 0; l < f.levels().size(); l++) {
        if (f.factor() == Factor.PART && terms.relativeTypes().contains(f.levels().get(l))) {
          continue;
        }
        for (int axis = 0; axis < 2; axis++) {
          double[] by = c.levelOf(b, l, axis);
          double v = 0;
          for (int k = 0; k < by.length; k++) {
            v += by[k] * s.estimates()[k];
          }
          OffsetAxis along = axis == 0 ? OffsetAxis.X : OffsetAxis.Y;
          add("", LevelTerm.of(f.named(l), along), v, s.variance(by));
        }
      }
    }
  }

  private void scatter() {
    Scatter s = terms.scatter();
    double m = Double.isNaN(s.measuringSd()) ? 0 : s.measuringSd();
    // one axis has half the degrees of freedom: relative standard error of its variance
    // sqrt(2/(f/2))
    scatter(FixedTerm.SCATTER_X, s.sdX(), m, s.degreesOfFreedom() / 2);
    scatter(FixedTerm.SCATTER_Y, s.sdY(), m, s.degreesOfFreedom() / 2);
  }

  private void scatter(FixedTerm term, double scatterSd, double measuringSd, double df) {
    if (!Double.isFinite(scatterSd) || !(df > 0)) {
      return;
    }
    double v = scatterSd * scatterSd + measuringSd * measuringSd;
    double se = scatterSd > 0 ? v * Math.sqrt(2 / df) / (2 * scatterSd) : Double.NaN;
    out.add(LoggedParameter.of(term, scatterSd, se));
  }
}
