package org.padtrue.mixed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.mixed.PositionColumns.FactorUse;
import org.padtrue.mixed.reml.CrossProducts;
import org.padtrue.mixed.reml.Estimation;
import org.padtrue.mixed.reml.MixedSystem;
import org.padtrue.mixed.reml.RandomEffects;
import org.padtrue.mixed.reml.RandomEffectsFit;
import org.padtrue.mixed.reml.ThetaSearch;
import org.padtrue.mixed.reml.VarianceUncertainty;
import org.padtrue.numeric.Tails;
import org.padtrue.numeric.UndeterminedException;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;

/**
 * The model of positions: panel transform, array, common offset, and random offsets by factor.
 *
 * <p>Richer families are taken only if the nested F test (5 %) and the small-sample Akaike
 * criterion both favour them, with the same random terms in every candidate. Known measuring
 * uncertainties that differ between placements enter as extra variance, sigma^2 + u_i^2.
 */
public final class OffsetModel {
  private static final double ALPHA = 0.05;
  private static final int GAUSS_NEWTON = 12;
  private static final PanelFamily[] RICHEST_FIRST = {
    PanelFamily.AFFINE, PanelFamily.SIMILARITY, PanelFamily.RIGID, PanelFamily.SHIFT
  };

  private final OffsetOptions options;
  private PositionColumns cols;
  private RowWeights weight;
  private TypeScatter scatter;
  private final double meanVariance;
  private final double measuringSd;
  private CrossProducts plain;
  private CrossProducts full;
  private final boolean hasColumns;
  private final boolean hasRows;
  private final List<String> dropped = new ArrayList<>();

  private OffsetModel(DeviationTable table, OffsetOptions options) {
    this.options = options;
    cols = new PositionColumns(table, uses(table, options, dropped), options.free(), false);
    hasColumns = options.scaleVisible() && varies(table.column());
    hasRows = options.scaleVisible() && varies(table.row());
    measuringSd = rms(table.u());
    plain = cols.accumulate(RowWeights.EQUAL);
    full = plain;
    double[] byU = weights(table);
    weight = byU.length == 0 ? RowWeights.EQUAL : RowWeights.both(byU);
    full = weight.equal() ? plain : cols.accumulate(weight);
    ScatterSearch.@Nullable Found found = options.equalScatter() ? null : byType();
    scatter = found == null ? NO_SCATTER : found.scatter();
    meanVariance = found == null ? Double.NaN : found.meanVariance();
    if (found != null) {
      weight = found.weights();
      if (weight.axesApart()) {
        cols = new PositionColumns(table, cols.factors, options.free(), true);
        plain = cols.accumulate(RowWeights.EQUAL);
      }
      full = cols.accumulate(weight);
    }
  }

  private static final TypeScatter NO_SCATTER =
      TypeScatter.equal(List.of(), Double.NaN, Double.NaN, Double.NaN);

  /** Scatter by part type; null where the rows carry none. */
  private ScatterSearch.@Nullable Found byType() {
    // Whatever family is asked for, scatter is what the richest one leaves: the weights must not
    // depend on the choice.
    Terms rich = new Terms(PanelFamily.AFFINE, options.array(), options.common(), false);
    for (PanelFamily f : RICHEST_FIRST) {
      rich = rich.with(f);
      if ((f.shared() == 0 || options.scaleVisible()) && determined(rich)) {
        break;
      }
    }
    if ((hasColumns || hasRows) && determined(rich.withArray(true))) {
      rich = rich.withArray(true);
    }
    if (!determined(rich)) {
      return null;
    }
    At at = converge(rich, FamilyMap.Shape.none(cols.panels), new double[parameters()]);
    return ScatterSearch.of(cols, at.map(), weight);
  }

  /** Scatter by type at the scale of the final fit. */
  private TypeScatter scatterAt(RandomEffectsFit fit) {
    if (!Double.isNaN(meanVariance)) {
      return scatter.times(fit.residualVariance() / meanVariance);
    }
    LevelColumn part = cols.table.factors().get(Factor.PART);
    double m = Double.isNaN(measuringSd) ? Double.NaN : measuringSd * measuringSd;
    return TypeScatter.equal(
        part == null ? List.of() : part.levels(),
        fit.residualVariance(),
        fit.rows() - fit.rank(),
        m);
  }

  /** Fits the model; the table has at least one row. */
  public static OffsetFit fit(DeviationTable table, OffsetOptions options) {
    if (table.size() == 0) {
      throw new UndeterminedException("rows = 0; expected at least 1");
    }
    return new OffsetModel(table, options).run();
  }

  /** For tests of further columns: given uses and row weights. */
  private OffsetModel(
      DeviationTable table, OffsetOptions options, List<FactorUse> uses, RowWeights weight) {
    this.options = options;
    cols = new PositionColumns(table, uses, options.free(), weight.axesApart());
    hasColumns = options.scaleVisible() && varies(table.column());
    hasRows = options.scaleVisible() && varies(table.row());
    measuringSd = Double.NaN;
    scatter = NO_SCATTER;
    meanVariance = Double.NaN;
    this.weight = weight;
    full = cols.accumulate(weight);
    plain = full;
  }

  /** The model with the richest fixed terms that the placements determine. */
  static RandomEffects richest(
      DeviationTable table, OffsetOptions options, List<FactorUse> uses, RowWeights weight) {
    OffsetModel m = new OffsetModel(table, options, uses, weight);
    return m.converge(
            m.richTerms(), FamilyMap.Shape.none(m.cols.panels), new double[m.parameters()])
        .model();
  }

  static List<FactorUse> uses(DeviationTable t, OffsetOptions o, List<String> dropped) {
    List<FactorUse> uses = new ArrayList<>();
    for (Factor name : o.factors()) {
      @Nullable LevelColumn f = t.factors().get(name);
      if (f == null) {
        continue;
      }
      if (f.levels().size() < 2) {
        dropped.add(name.key() + ": one level only");
        continue;
      }
      if (f.levels().size() >= t.size()) {
        dropped.add(name.key() + ": every placement its own level");
        continue;
      }
      for (boolean part : new boolean[] {true, false}) {
        if (!o.acts(name, part)) {
          continue;
        }
        @Nullable String twin = twin(uses, f, part);
        if (twin == null) {
          uses.add(new FactorUse(f, part));
        } else {
          dropped.add(name.key() + ": groups the placements exactly as " + twin + " does");
        }
      }
    }
    return uses;
  }

  /** An earlier factor in the same frame that groups the placements alike. */
  static @Nullable String twin(List<FactorUse> uses, LevelColumn f, boolean partFrame) {
    for (FactorUse u : uses) {
      LevelColumn g = u.column();
      if (u.partFrame() != partFrame || g.levels().size() != f.levels().size()) {
        continue;
      }
      int[] map = new int[g.levels().size()];
      Arrays.fill(map, -1);
      boolean same = true;
      for (int i = 0; i < f.level().length && same; i++) {
        int a = g.level()[i];
        int b = f.level()[i];
        if (a < 0 || b < 0) {
          same = a == b;
        } else if (map[a] < 0) {
          map[a] = b;
        } else {
          same = map[a] == b;
        }
      }
      if (same) {
        return g.factor().key();
      }
    }
    return null;
  }

  private static boolean varies(int[] v) {
    for (int a : v) {
      if (a != v[0]) {
        return true;
      }
    }
    return false;
  }

  private static double rms(double[] u) {
    double s = 0;
    for (double a : u) {
      if (Double.isNaN(a)) {
        return Double.NaN;
      }
      s += a * a;
    }
    return Math.sqrt(s / u.length);
  }

  /** Relative weights when stated uncertainties differ; empty when they are alike or unknown. */
  private double[] weights(DeviationTable t) {
    double[] u = t.u();
    boolean differ = false;
    double mean2 = 0;
    for (double a : u) {
      double v = Double.isNaN(a) ? 0 : a;
      differ |= Double.compare(a, u[0]) != 0;
      mean2 += v * v / u.length;
    }
    if (!differ || t.size() < 5) {
      return new double[0];
    }
    Terms rich = terms(richestFamily());
    double base = plainVariance(rich);
    double best = Double.POSITIVE_INFINITY;
    double at = base;
    double[] start = new double[0];
    for (int k = -12; k <= 3; k++) {
      double s2 = base * Math.pow(2, k);
      KnownScale d = knownScale(u, s2, rich, start);
      start = d.theta();
      if (d.deviance() < best) {
        best = d.deviance();
        at = s2;
      }
    }
    double lo = Math.log(at) - Math.log(2);
    double hi = Math.log(at) + Math.log(2);
    double golden = 0.6180339887498949;
    for (int k = 0; k < 14; k++) {
      double a = hi - golden * (hi - lo);
      double b = lo + golden * (hi - lo);
      if (knownScale(u, Math.exp(a), rich, start).deviance()
          < knownScale(u, Math.exp(b), rich, start).deviance()) {
        hi = b;
      } else {
        lo = a;
      }
    }
    return weights(u, Math.exp(0.5 * (lo + hi)), mean2);
  }

  private static double[] weights(double[] u, double s2, double mean2) {
    double[] w = new double[u.length];
    for (int i = 0; i < w.length; i++) {
      double v = Double.isNaN(u[i]) ? 0 : u[i];
      w[i] = (s2 + mean2) / (s2 + v * v);
    }
    return w;
  }

  private double plainVariance(Terms terms) {
    RandomEffectsFit f =
        model(plain, map(terms, FamilyMap.Shape.none(cols.panels))).fit(Estimation.REML);
    return Math.max(f.residualVariance(), 1e-14);
  }

  private record KnownScale(double deviance, double[] theta) {}

  /** Restricted deviance when the residual variance of row i is s2 + u_i^2. */
  private KnownScale knownScale(double[] u, double s2, Terms terms, double[] start) {
    double[] w = weights(u, s2, 0);
    CrossProducts cp = cols.accumulate(RowWeights.both(w));
    RandomEffects m = model(cp, map(terms, FamilyMap.Shape.none(cols.panels)));
    MixedSystem s = m.system();
    java.util.function.ToDoubleFunction<double[]> f =
        t -> {
          s.factor(t);
          return s.logDetL
              + s.logDetX
              + (s.n - s.rank) * Math.log(2 * Math.PI * s2)
              + s.rss / s2
              - cp.logWeights;
        };
    double[] theta = ThetaSearch.minimise(f, m.parameters(), start);
    return new KnownScale(f.applyAsDouble(theta), theta);
  }

  private FamilyMap map(Terms terms, FamilyMap.Shape shape) {
    return FamilyMap.at(cols, terms, hasColumns, hasRows, shape);
  }

  private RandomEffects model(CrossProducts cp, FamilyMap map) {
    return new RandomEffects(
        cp.map(map.c(), map.offset()), cols.thetaOf, cols.blockOf, cols.parameters);
  }

  private PanelFamily richestFamily() {
    if (options.family() != null) {
      return options.family();
    }
    for (PanelFamily f : RICHEST_FIRST) {
      if ((f.shared() == 0 || options.scaleVisible()) && determined(terms(f))) {
        return f;
      }
    }
    return PanelFamily.SHIFT;
  }

  private Terms terms(PanelFamily f) {
    return new Terms(f, options.array(), options.common(), false);
  }

  /** True when the placements determine the terms with something left over. */
  private boolean determined(Terms t) {
    FamilyMap map = map(t, FamilyMap.Shape.none(cols.panels));
    int p = map.layout().size();
    if (2 * cols.table.size() - p < 2) {
      return false;
    }
    CrossProducts cp = plain.map(map.c(), map.offset());
    MixedSystem s = new MixedSystem(cp, cols.thetaOf, cols.blockOf, cols.parameters);
    s.factor(new double[cols.parameters]);
    return s.rank == p;
  }

  /** A model at the shape where Gauss-Newton has converged for given theta. */
  private record At(Terms terms, FamilyMap map, RandomEffects model, FamilyMap.Shape shape) {}

  private At converge(Terms terms, FamilyMap.Shape start, double[] theta) {
    FamilyMap.Shape shape = start;
    for (int k = 0; k < GAUSS_NEWTON; k++) {
      FamilyMap m = map(terms, shape);
      RandomEffects re = model(full, m);
      if (m.layout().rotation() < 0) {
        return new At(terms, m, re, shape);
      }
      MixedSystem s = re.system();
      s.factor(theta);
      double[] c = s.solve(theta);
      double[] b = Arrays.copyOfRange(c, s.q, s.q + s.p);
      double size = 0;
      int end = m.layout().rotation() + cols.panels + terms.family().shared();
      for (int j = m.layout().rotation(); j < end; j++) {
        size = Math.max(size, Math.abs(b[j]));
      }
      if (size < 1e-14) {
        return new At(terms, m, re, shape);
      }
      shape = m.step(shape, b, cols.panels);
    }
    FamilyMap m = map(terms, shape);
    return new At(terms, m, model(full, m), shape);
  }

  private Terms richTerms() {
    boolean mayArray = hasColumns || hasRows;
    Terms rich =
        terms(richestFamily()).withArray(mayArray && (options.family() == null || options.array()));
    return rich.array() && !determined(rich) ? rich.withArray(false) : rich;
  }

  private OffsetFit run() {
    PanelFamily top = richestFamily();
    boolean free = options.family() == null;
    if (!free && !determined(terms(top)) && cols.table.size() > 1) {
      throw new UndeterminedException(
          "the placements that were measured do not determine a transform of family " + top.key());
    }
    Terms rich = richTerms();
    At at = converge(rich, FamilyMap.Shape.none(cols.panels), new double[parameters()]);
    RandomEffectsFit richFit = at.model().fit(Estimation.REML);
    double[] theta = richFit.theta();
    Choice choice = new Choice(theta, rich);
    Terms chosen = free ? choice.choose() : choice.only(rich);
    // From rest: a poorer family cannot undo what the richest one's scale and squareness were.
    At best = converge(chosen, FamilyMap.Shape.none(cols.panels), theta);
    double commonP = Double.NaN;
    double settlingP = Double.NaN;
    if (free) {
      Terms withCommon = chosen.withCommon(true);
      if (!chosen.common() && determined(withCommon)) {
        commonP = commonTest(withCommon, best.shape(), theta);
        if (options.offerCommon()
            && commonP < ALPHA
            && choice.aicc(withCommon) < choice.aicc(chosen)) {
          chosen = withCommon;
          best = converge(chosen, best.shape(), theta);
        }
      }
      if (cols.hasOrder() && chosen.family() == PanelFamily.AFFINE) {
        Terms withSettling = chosen.withSettling(true);
        if (determined(withSettling)) {
          settlingP = choice.nestedP(chosen, withSettling);
          if (settlingP < ALPHA && choice.aicc(withSettling) < choice.aicc(chosen)) {
            chosen = withSettling;
            best = converge(chosen, best.shape(), theta);
          }
        }
      }
    }
    RandomEffectsFit fit = best.model().fit(Estimation.REML, theta);
    best = converge(chosen, best.shape(), fit.theta());
    fit = best.model().fit(Estimation.REML, fit.theta());
    best = converge(chosen, best.shape(), fit.theta());
    fit = best.model().at(fit.theta(), Estimation.REML);
    return new OffsetFit(
        cols,
        best.map(),
        best.shape(),
        best.model(),
        fit,
        VarianceUncertainty.of(best.model(), fit, combined(best.map())),
        choice.lines(),
        choice.nestedTests(chosen),
        commonP,
        settlingP,
        measuringSd,
        scatterAt(fit),
        weight,
        List.copyOf(dropped));
  }

  /** Pairs (level of the part factor, common offset), x and y of each level. */
  private int[][] combined(FamilyMap map) {
    int common = map.layout().common();
    for (int f = 0; f < cols.factors.size(); f++) {
      if (common >= 0 && cols.factors.get(f).factor() == Factor.PART) {
        int n = 2 * cols.factors.get(f).levels().size();
        int[][] sums = new int[n][];
        for (int j = 0; j < n; j++) {
          sums[j] = new int[] {cols.baseOf[f] + j, cols.random + common + j % 2};
        }
        return sums;
      }
    }
    return new int[0][];
  }

  private int parameters() {
    return 2 * cols.factors.size();
  }

  private double commonTest(Terms withCommon, FamilyMap.Shape shape, double[] theta) {
    At at = converge(withCommon, shape, theta);
    RandomEffectsFit f = at.model().fit(Estimation.REML, theta);
    VarianceUncertainty v = VarianceUncertainty.of(at.model(), f);
    return OffsetFit.wald(
            f, v, new int[] {at.map().layout().common(), at.map().layout().common() + 1})
        .p();
  }

  /** The choice among families, with and without array. */
  private final class Choice {
    private final double[] theta;
    private final List<Terms> nodes = new ArrayList<>();
    private final List<At> ats = new ArrayList<>();
    private final List<Double> rss = new ArrayList<>();
    private final double richRss;
    private final int richDf;

    Choice(double[] theta, Terms rich) {
      this.theta = theta;
      for (PanelFamily f : PanelFamily.values()) {
        if (f.compareTo(rich.family()) > 0) {
          break;
        }
        for (int a = 0; a < 2; a++) {
          Terms t = rich.with(f).withArray(a == 1);
          if (a == 1 && !rich.array()
              || a == 0 && options.array() && rich.array()
              || options.family() != null && f != options.family()
              || !determined(t) && f != PanelFamily.SHIFT) {
            continue;
          }
          add(t);
        }
      }
      int last = nodes.indexOf(rich);
      if (last < 0) {
        add(rich);
        last = nodes.size() - 1;
      }
      richRss = rss.get(last);
      richDf = 2 * cols.table.size() - size(last);
    }

    private void add(Terms t) {
      At at = converge(t, FamilyMap.Shape.none(cols.panels), theta);
      MixedSystem s = at.model().system();
      s.factor(theta);
      nodes.add(t);
      ats.add(at);
      rss.add(s.rss);
    }

    private int size(int i) {
      return ats.get(i).map().layout().size();
    }

    Terms only(Terms t) {
      return t;
    }

    private final java.util.Map<Terms, Double> aiccs = new java.util.HashMap<>();

    double aicc(Terms t) {
      return aiccs.computeIfAbsent(t, this::computeAicc);
    }

    private double computeAicc(Terms t) {
      At at = converge(t, FamilyMap.Shape.none(cols.panels), theta);
      RandomEffects m = at.model();
      MixedSystem s = m.system();
      double[] best =
          ThetaSearch.minimise(th -> s.deviance(th, Estimation.ML), m.parameters(), theta);
      double deviance = s.deviance(best, Estimation.ML);
      double n = 2.0 * cols.table.size();
      double k = s.rank + m.parameters() + 1;
      return n - k - 1 > 0
          ? deviance + 2 * k + 2 * k * (k + 1) / (n - k - 1)
          : Double.POSITIVE_INFINITY;
    }

    private double f(int poor, int richer) {
      int d = size(richer) - size(poor);
      if (d <= 0 || richDf <= 0) {
        return Double.NaN;
      }
      return Math.max(0, rss.get(poor) - rss.get(richer)) / d / (richRss / richDf);
    }

    private double p(int poor, int richer) {
      return Tails.f(f(poor, richer), size(richer) - size(poor), richDf);
    }

    private boolean contains(Terms rich, Terms poor) {
      return rich.family().compareTo(poor.family()) >= 0
          && (rich.array() || !poor.array())
          && !rich.equals(poor);
    }

    /** The best by AICc of those that earn their terms against every poorer candidate. */
    Terms choose() {
      int best = 0;
      for (int j = 1; j < nodes.size(); j++) {
        if (earned(j) && aicc(nodes.get(j)) < aicc(nodes.get(best))) {
          best = j;
        }
      }
      return nodes.get(best);
    }

    private boolean earned(int j) {
      for (int i = 0; i < nodes.size(); i++) {
        if (contains(nodes.get(j), nodes.get(i))
            && !(p(i, j) < ALPHA && aicc(nodes.get(j)) < aicc(nodes.get(i)))) {
          return false;
        }
      }
      return true;
    }

    double nestedP(Terms poor, Terms rich) {
      MixedSystem a = converge(poor, FamilyMap.Shape.none(cols.panels), theta).model().system();
      MixedSystem b = converge(rich, FamilyMap.Shape.none(cols.panels), theta).model().system();
      a.factor(theta);
      b.factor(theta);
      int d = b.rank - a.rank;
      double df = b.n - b.rank;
      return d <= 0 ? Double.NaN : Tails.f((a.rss - b.rss) / d / (b.rss / df), d, df);
    }

    private double between(Terms poor, Terms rich) {
      int i = nodes.indexOf(poor);
      int j = nodes.indexOf(rich);
      return i < 0 || j < 0 ? Double.NaN : p(i, j);
    }

    /**
     * Nested F tests of rotation, scale and array at the residual variance of the richest
     * candidate: adding the term where the chosen model lacks it, taking it out where it has it. No
     * choice has been made in them.
     */
    double[] nestedTests(Terms chosen) {
      Terms t = chosen.withCommon(options.common()).withSettling(false);
      PanelFamily f = t.family();
      PanelFamily stretched = f.shared() > 0 ? f : PanelFamily.AFFINE;
      return new double[] {
        between(t.with(PanelFamily.SHIFT), t.with(PanelFamily.RIGID)),
        between(t.with(PanelFamily.RIGID), t.with(stretched)),
        between(t.withArray(false), t.withArray(true))
      };
    }

    List<FamilyCandidate> lines() {
      List<FamilyCandidate> l = new ArrayList<>();
      for (int j = 0; j < nodes.size(); j++) {
        Terms t = nodes.get(j);
        int simpler =
            t.family() == PanelFamily.SHIFT
                ? (t.array() ? nodes.indexOf(t.withArray(false)) : -1)
                : nodes.indexOf(t.with(PanelFamily.values()[t.family().ordinal() - 1]));
        l.add(
            new FamilyCandidate(
                t.family(),
                t.array(),
                size(j),
                rss.get(j),
                aicc(t),
                simpler < 0 ? Double.NaN : f(simpler, j),
                simpler < 0 ? Double.NaN : p(simpler, j)));
      }
      return l;
    }
  }
}
