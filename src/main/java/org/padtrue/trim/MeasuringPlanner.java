package org.padtrue.trim;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.trim.MeasuringPlan.Basis;
import org.padtrue.trim.MeasuringPlan.PlanLine;
import org.padtrue.trim.MeasuringPlan.Term;

/** Puts a plan together: candidates, model, what can be known, how many, which, in which order. */
final class MeasuringPlanner {
  /** Share of the scatter by which one more placement must lower the worst term to pay. */
  static final double PAYS = 0.01;

  private static final double CURVE_BEYOND = 1.5;

  private final Job job;
  private final MeasuringPlanOptions options;
  private final List<MeasuringPlanCandidate> all;
  private final MeasuringPlanFrame frame;
  private final MeasuringPlanModel model;
  private final MeasuringPlanNullSpace space;
  private final List<MeasuringPlanTerm> terms;
  private final double[] everything;

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
    model =
        MeasuringPlanModel.position(
            all,
            frame,
            job.measurement().reference(),
            options,
            withReading(options.scatterMm(), job.measurement().uncertaintyMm()));
    space = MeasuringPlanNullSpace.of(model);
    terms = MeasuringPlanTerms.of(model, space);
    everything = allMeasured(model, terms);
  }

  /** Scatter and, where it is known, the uncertainty of the reading. */
  static double withReading(double scatter, double uncertainty) {
    return Double.isNaN(uncertainty) ? scatter : Math.hypot(scatter, uncertainty);
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
      MeasuringPlanSearch search = new MeasuringPlanSearch(model.of(kept), terms);
      int n = size(search, kept.size() == all.size());
      if (n > 0) {
        return assemble(search, kept, n);
      }
      limit *= 2;
    }
  }

  private MeasuringPlanSummary wholePanel() {
    return MeasuringPlanSummary.of(everything, terms);
  }

  private Basis basis() {
    if (options.count().isPresent()) {
      return Basis.COUNT;
    }
    if (options.withinMm().isEmpty()) {
      return Basis.STOPS_PAYING;
    }
    return wholePanel().worst() <= options.withinMm().getAsDouble()
        ? Basis.WITHIN
        : Basis.WITHIN_NOT_REACHABLE;
  }

  /** How many; -1 when more candidates have to be let in to reach the wanted uncertainty. */
  private int size(MeasuringPlanSearch search, boolean complete) {
    return switch (basis()) {
      case COUNT -> Math.min(options.count().orElseThrow(), search.candidates());
      case WITHIN -> {
        int n = search.smallestWithin(options.withinMm().orElseThrow());
        yield n < 0 && complete ? search.candidates() : n;
      }
      case WITHIN_NOT_REACHABLE, STOPS_PAYING -> search.stopsPaying(PAYS * options.scatterMm());
    };
  }

  private MeasuringPlan assemble(MeasuringPlanSearch search, List<Integer> kept, int n) {
    double within = options.withinMm().orElse(Double.POSITIVE_INFINITY);
    MeasuringPlanDesign design = search.best(n, within * within);
    List<Integer> chosen = new ArrayList<>();
    for (int i : design.chosen()) {
      chosen.add(kept.get(i));
    }
    List<Pose> points = chosen.stream().map(i -> all.get(i).pose()).toList();
    List<Integer> way = MeasuringPlanWalk.order(points);
    List<PlanLine> lines = new ArrayList<>();
    for (int k : way) {
      lines.add(line(lines.size() + 1, all.get(chosen.get(k))));
    }
    MeasuringPlanSummary s = MeasuringPlanSummary.of(design.variances(), terms);
    int beyond = Math.max(n + 10, (int) Math.ceil(CURVE_BEYOND * n));
    MeasuringPlanCount count = new MeasuringPlanCount(all, chosen);
    List<Term> position = describe(model, terms, design.variances(), everything, count);
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
            rotationTerms(chosen, count),
            search.curve(beyond),
            MeasuringPlanAliasText.of(model, space),
            List.of(),
            List.of());
    return new MeasuringPlanText(job, options, draft).complete();
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

  private List<Term> rotationTerms(List<Integer> chosen, MeasuringPlanCount count) {
    MeasuringPlanModel m =
        MeasuringPlanModel.rotation(
            all,
            options,
            withReading(options.scatterRotationDeg(), job.measurement().rotationUncertaintyDeg()));
    List<MeasuringPlanTerm> t = MeasuringPlanTerms.of(m, MeasuringPlanNullSpace.of(m));
    MeasuringPlanDesign d = new MeasuringPlanDesign(m, t);
    chosen.forEach(d::add);
    d.refresh();
    return describe(m, t, d.variances(), allMeasured(m, t), count);
  }

  private static List<Term> describe(
      MeasuringPlanModel m,
      List<MeasuringPlanTerm> terms,
      double[] variances,
      double[] everything,
      MeasuringPlanCount count) {
    List<Term> list = new ArrayList<>();
    for (int j = 0; j < terms.size(); j++) {
      MeasuringPlanColumn c = m.columns().get(terms.get(j).column());
      double se = MeasuringPlanSummary.known(Math.sqrt(variances[j]));
      list.add(
          new Term(
              c.name(),
              c.factor().word(),
              se,
              MeasuringPlanSummary.known(Math.sqrt(everything[j])),
              se * c.unitsPerOne(),
              c.unit(),
              count.chosen(c),
              count.available(c)));
    }
    return list;
  }
}
