package org.padtrue.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.plan.MeasuringPlan.Basis;
import org.padtrue.plan.MeasuringPlan.CurvePoint;
import org.padtrue.plan.MeasuringPlan.PlanLine;
import org.padtrue.plan.MeasuringPlan.Term;
import org.padtrue.plan.model.MeasuringPlanCandidate;
import org.padtrue.plan.model.MeasuringPlanCount;
import org.padtrue.plan.model.MeasuringPlanFamilies;
import org.padtrue.plan.model.MeasuringPlanFrame;
import org.padtrue.plan.model.MeasuringPlanModel;
import org.padtrue.plan.model.MeasuringPlanNullSpace;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.plan.model.MeasuringPlanScatter;
import org.padtrue.plan.model.MeasuringPlanSpread;
import org.padtrue.plan.model.MeasuringPlanTerm;
import org.padtrue.plan.model.MeasuringPlanTerms;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Puts a plan together: candidates, model, what can be known, how many, which, in which order. */
final class MeasuringPlanner {
  /** Share of the gain of measuring everything that is called enough. */
  static final double ENOUGH = 0.95;

  private static final double CURVE_BEYOND = 1.5;
  private static final int REFRESH = 50;

  /** A number that was asked for goes to the levels in turn up to this share, then to the panel. */
  private static final double FOR_LEVELS = 0.75;

  private final Job job;
  private final MeasuringPlanOptions options;
  private final List<MeasuringPlanCandidate> all;
  private final MeasuringPlanFrame frame;
  private final MeasuringPlanModel model;
  private final MeasuringPlanNullSpace space;
  private final List<MeasuringPlanTerm> terms;
  private final double[] everything;
  private final MeasuringPlanFamilies families;
  private final MeasuringPlanModel valued;
  private final double[][] weight;
  private final MeasuringPlanGain.Worth worth;

  MeasuringPlanner(Job job, MeasuringPlanOptions options) {
    this.job = job;
    this.options = options;
    all = MeasuringPlanCandidate.of(job);
    if (all.isEmpty()) {
      throw new InputException(
          Problem.of(
              "",
              "job '" + job.name() + "' has no placement that can be measured",
              job.placements().isEmpty()
                  ? "give a placement file with at least one row of the placed side"
                  : "measure before reflow: every part centres itself on its lands"));
    }
    frame = MeasuringPlanFrame.of(all);
    model = position(scatter(), MeasuringPlanSpread.NONE);
    space = MeasuringPlanNullSpace.of(model);
    terms = MeasuringPlanTerms.of(model, space);
    everything = allMeasured(model, terms);
    families = MeasuringPlanFamilies.of(model, terms, true);
    valued = position(scatter(), MeasuringPlanSpread.USUAL);
    weight = weight(position(new MeasuringPlanScatter(1, Map.of()), MeasuringPlanSpread.USUAL));
    worth = MeasuringPlanGain.Worth.of(valued, weight);
  }

  private MeasuringPlanScatter scatter() {
    return MeasuringPlanScatter.of(
        options.scatterMm(), options.scatterMmByType(), job.measurement().uncertaintyMm());
  }

  /** Scatter of placing alone. */
  private MeasuringPlanScatter placing() {
    return new MeasuringPlanScatter(options.scatterMm(), options.scatterMmByType());
  }

  private MeasuringPlanModel position(MeasuringPlanScatter scatter, MeasuringPlanSpread spread) {
    return MeasuringPlanModel.position(
        all, frame, job.measurement().reference(), options, scatter, spread);
  }

  /** Mean of x x' over all placements. */
  private double[][] weight(MeasuringPlanModel unscaled) {
    double[][] v = unscaled.gram();
    for (double[] row : v) {
      for (int i = 0; i < row.length; i++) {
        row[i] /= all.size();
      }
    }
    return v;
  }

  private static double[] allMeasured(MeasuringPlanModel m, List<MeasuringPlanTerm> t) {
    MeasuringPlanDesign d = new MeasuringPlanDesign(m, t);
    d.addAll();
    return d.variances();
  }

  MeasuringPlan plan() {
    int limit = MeasuringPlanThinning.LIMIT;
    if (options.count().isPresent()) {
      limit = Math.max(limit, 2 * options.count().getAsInt());
    }
    while (true) {
      List<Integer> kept = MeasuringPlanThinning.of(all, limit);
      MeasuringPlan plan = plan(kept);
      if (plan != null) {
        return plan;
      }
      limit *= 2;
    }
  }

  /** The plan among some candidates; null when more have to be let in to reach what is wanted. */
  private @Nullable MeasuringPlan plan(List<Integer> kept) {
    boolean complete = kept.size() == all.size();
    int most =
        options.count().isPresent()
            ? (int) (FOR_LEVELS * options.count().getAsInt())
            : Integer.MAX_VALUE;
    List<Integer> start =
        MeasuringPlanMinimum.of(kept.stream().map(all::get).toList(), families::each, most);
    MeasuringPlanGain gain = new MeasuringPlanGain(valued.of(kept), weight, worth, start);
    Basis basis = basis();
    if (basis == Basis.WITHIN || basis == Basis.COUNT && options.withinMm().isPresent()) {
      MeasuringPlanSearch search = new MeasuringPlanSearch(model.of(kept), terms, start);
      double within = options.withinMm().orElseThrow();
      int n = size(search, within);
      if (n < 0 && !complete) {
        return null;
      }
      n = n < 0 ? kept.size() : n;
      return assemble(gain, kept, n, search.best(n, within * within).chosen());
    }
    int n =
        basis == Basis.COUNT
            ? Math.min(options.count().orElseThrow(), kept.size())
            : gain.enough(ENOUGH);
    if (n < 0 && !complete) {
      return null;
    }
    n = n < 0 ? kept.size() : n;
    return assemble(gain, kept, n, gain.best(n).chosen());
  }

  private int size(MeasuringPlanSearch search, double within) {
    return options.count().isPresent()
        ? Math.min(options.count().getAsInt(), search.candidates())
        : search.smallestWithin(within);
  }

  private MeasuringPlanSummary wholePanel() {
    return MeasuringPlanSummary.of(everything, terms);
  }

  private Basis basis() {
    if (options.count().isPresent()) {
      return Basis.COUNT;
    }
    if (options.withinMm().isEmpty()) {
      return Basis.ENOUGH;
    }
    return wholePanel().worst() <= options.withinMm().getAsDouble()
        ? Basis.WITHIN
        : Basis.WITHIN_NOT_REACHABLE;
  }

  private MeasuringPlan assemble(
      MeasuringPlanGain gain, List<Integer> kept, int n, int[] chosenOfKept) {
    List<Integer> chosen = Arrays.stream(chosenOfKept).map(kept::get).boxed().toList();
    MeasuringPlanDesign design = new MeasuringPlanDesign(model, terms);
    MeasuringPlanDesign valuedDesign = new MeasuringPlanDesign(valued, List.of(), weight);
    for (int i : chosen) {
      design.add(i);
      valuedDesign.add(i);
    }
    design.refresh();
    valuedDesign.refresh();
    List<Pose> points = chosen.stream().map(i -> all.get(i).pose()).toList();
    List<Integer> way = MeasuringPlanWalk.order(points);
    List<PlanLine> lines = new ArrayList<>();
    for (int k : way) {
      lines.add(line(lines.size() + 1, all.get(chosen.get(k))));
    }
    MeasuringPlanSummary s = MeasuringPlanSummary.of(design.variances(), terms);
    MeasuringPlanCount count = new MeasuringPlanCount(all, chosen);
    List<Term> position =
        new MeasuringPlanKnown(families, count, placing())
            .position(spread -> position(scatter(), spread), terms);
    List<Term> rotations = rotationTerms(count);
    int enough = gain.enough(ENOUGH);
    MeasuringPlan draft =
        new MeasuringPlan(
            all.size(),
            kept.size(),
            basis(),
            lines,
            MeasuringPlanWalk.length(points, way),
            frame.halfDiagonalMm(),
            MeasuringPlanSummary.known(s.worst()),
            MeasuringPlanSummary.known(s.median()),
            s.worstTerm(),
            position,
            rotations,
            worth.kept(valuedDesign),
            enough < 0 ? all.size() : enough,
            curve(gain, kept, n),
            MeasuringPlanAliasText.of(model, space),
            MeasuringPlanUndecided.of(all, position, rotations, frame.halfDiagonalMm()),
            List.of(),
            List.of());
    return new MeasuringPlanText(job, options, draft).complete();
  }

  /** Standard errors and share kept as the greedy choice grows. */
  private List<CurvePoint> curve(MeasuringPlanGain gain, List<Integer> kept, int n) {
    int last = Math.min(kept.size(), Math.max(n + 10, (int) Math.ceil(CURVE_BEYOND * n)));
    MeasuringPlanDesign d = new MeasuringPlanDesign(model, terms);
    List<CurvePoint> curve = new ArrayList<>();
    for (int k : List.copyOf(gain.first(last))) {
      d.add(kept.get(k));
      int size = curve.size() + 1;
      if (size % REFRESH == 0) {
        d.refresh();
      }
      MeasuringPlanSummary s = MeasuringPlanSummary.of(d.variances(), terms);
      curve.add(
          new CurvePoint(
              size,
              MeasuringPlanSummary.known(s.worst()),
              MeasuringPlanSummary.known(s.median()),
              s.worstTerm(),
              gain.keeps(size)));
    }
    return curve;
  }

  private static PlanLine line(int order, MeasuringPlanCandidate c) {
    return new PlanLine(
        order,
        c.board().column(),
        c.board().row(),
        c.placement().ref(),
        c.placement().part(),
        c.pose().xMm(),
        c.pose().yMm(),
        c.pose().rotationDeg());
  }

  private List<Term> rotationTerms(MeasuringPlanCount count) {
    MeasuringPlanModel m =
        MeasuringPlanModel.rotation(
            all,
            options,
            MeasuringPlanScatter.of(
                options.scatterRotationDeg(),
                options.scatterDegByType(),
                job.measurement().rotationUncertaintyDeg()));
    MeasuringPlanScatter placing =
        new MeasuringPlanScatter(options.scatterRotationDeg(), options.scatterDegByType());
    return new MeasuringPlanKnown(families, count, placing)
        .rotation(m, MeasuringPlanTerms.of(m, MeasuringPlanNullSpace.of(m)));
  }
}
