package org.padtrue.trim;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.padtrue.panel.Job;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Stage;
import org.padtrue.trim.MeasuringPlan.Basis;
import org.padtrue.trim.MeasuringPlan.CurvePoint;
import org.padtrue.trim.MeasuringPlan.Term;

/** The sentences of a plan: what the number of placements buys, and what a reader should know. */
final class MeasuringPlanText {
  private static final int NAMED = 5;
  private static final int MORE = 10;

  private final Job job;
  private final MeasuringPlanOptions options;
  private final MeasuringPlan plan;

  MeasuringPlanText(Job job, MeasuringPlanOptions options, MeasuringPlan plan) {
    this.job = job;
    this.options = options;
    this.plan = plan;
  }

  /** The plan with its sentences. */
  MeasuringPlan complete() {
    return new MeasuringPlan(
        plan.candidates(),
        plan.searched(),
        plan.basis(),
        plan.lines(),
        plan.walkMm(),
        plan.halfDiagonalMm(),
        plan.worstMm(),
        plan.medianMm(),
        plan.worstTerm(),
        plan.terms(),
        plan.rotationTerms(),
        plan.curve(),
        plan.aliases(),
        buys(),
        notes());
  }

  private List<String> buys() {
    List<String> s = new ArrayList<>();
    int n = plan.lines().size();
    s.add(
        String.format(
            Locale.ROOT,
            "Measure %d of %d placements, a walk of %.0f mm over the panel.",
            n,
            plan.candidates(),
            plan.walkMm()));
    s.add(reached());
    if (plan.basis() == Basis.WITHIN_NOT_REACHABLE) {
      s.add(notReachable());
    } else if (options.withinMm().isPresent()) {
      s.add(wanted(options.withinMm().getAsDouble()));
    }
    if (n < plan.candidates()) {
      s.add(
          "With all "
              + plan.candidates()
              + " measured the worst would be "
              + mm(worst(plan.terms()).everything())
              + ".");
      more(s);
    }
    return s;
  }

  private String reached() {
    if (Double.isNaN(plan.worstMm())) {
      return "That is too few: nothing is known of "
          + names(plan.terms().stream().filter(t -> Double.isNaN(t.standardError())).toList())
          + ".";
    }
    return "Every trim is then known to a standard error of "
        + mm(plan.worstMm())
        + " or better, half of them to "
        + mm(plan.medianMm())
        + "; the worst is "
        + plan.worstTerm()
        + ".";
  }

  private String wanted(double within) {
    if (plan.basis() == Basis.WITHIN) {
      return "Wanted were " + mm(within) + ": this is the smallest number found that reaches it.";
    }
    return plan.worstMm() <= within
        ? "Wanted were " + mm(within) + ": reached."
        : "Wanted were " + mm(within) + ": this number does not reach it.";
  }

  private String notReachable() {
    double within = options.withinMm().orElseThrow();
    List<Term> failing = plan.terms().stream().filter(t -> !(t.everything() <= within)).toList();
    Term t = worst(failing);
    return "Wanted were "
        + mm(within)
        + ", which cannot be reached: with every placement measured "
        + t.name()
        + " would still stand at "
        + mm(t.everything())
        + ", because "
        + why(t)
        + (failing.size() > 1 ? "; out of reach likewise: " + others(failing, t) : "")
        + ". Measure more panels, or accept more.";
  }

  private static String others(List<Term> failing, Term named) {
    return names(failing.stream().filter(x -> !x.name().equals(named.name())).toList());
  }

  private String why(Term t) {
    boolean array = plan.terms().stream().anyMatch(x -> x.factor().equals("array step"));
    return switch (t.factor()) {
      case "rotation", "scale x", "scale y", "squareness", "array step" ->
          array
              ? "rotation, scale and squareness are told from array steps only by what differs"
                  + " within one board"
              : "each of the panel's " + t.available() + " placements scatters";
      case "part", "nozzle", "feeder", "head" ->
          "only " + t.available() + " of the panel's placements show it and each scatters";
      default -> "each of the panel's " + t.available() + " placements scatters";
    };
  }

  private static Term worst(List<Term> terms) {
    Term w = terms.get(0);
    for (Term t : terms) {
      if (t.everything() > w.everything()) {
        w = t;
      }
    }
    return w;
  }

  /** What the greedy curve says that ten more would bring. */
  private void more(List<String> s) {
    int n = plan.lines().size();
    List<CurvePoint> c = plan.curve();
    boolean pays = plan.basis() == Basis.STOPS_PAYING || plan.basis() == Basis.WITHIN_NOT_REACHABLE;
    if (c.size() >= n + MORE && !Double.isNaN(c.get(n - 1).worstMm())) {
      double share = 1 - c.get(n + MORE - 1).worstMm() / c.get(n - 1).worstMm();
      s.add(
          String.format(
              Locale.ROOT,
              "%s more would lower the worst by about %.0f %%.",
              pays ? "Here measuring more stops paying: ten" : "Ten",
              100 * share));
    }
    if (pays) {
      s.add(
          String.format(
              Locale.ROOT,
              "Stops paying means: one placement more saves less than %.0f %% of the scatter"
                  + " (%s) on the worst standard error.",
              100 * MeasuringPlanner.PAYS,
              mm(MeasuringPlanner.PAYS * options.scatterMm())));
    }
  }

  private List<String> notes() {
    List<String> s = new ArrayList<>();
    s.add(assumed());
    s.add(
        "Rotation, scale and squareness are counted as what they do half a diagonal ("
            + String.format(Locale.ROOT, "%.0f mm", plan.halfDiagonalMm())
            + ") from the centre; an offset of a part type has the common offset in it.");
    unseen(s);
    if (options.count().isPresent() && options.count().getAsInt() > plan.candidates()) {
      s.add(
          "Asked for "
              + options.count().getAsInt()
              + " placements, but the panel has "
              + plan.candidates()
              + ": all of them are in the plan.");
    }
    if (plan.searched() < plan.candidates()) {
      s.add(
          "Of "
              + plan.candidates()
              + " placements the search looked at "
              + plan.searched()
              + ": of those alike in type, rotation, nozzle, feeder and head the outermost"
              + " ones.");
    }
    conditions(s);
    return s;
  }

  private String assumed() {
    double u = job.measurement().uncertaintyMm();
    return String.format(
        Locale.ROOT,
        "Assumed: scatter %s and %.2f degrees, %s, spread of offsets: part types %s, nozzles %s,"
            + " feeders %s, heads %s, rotation %.2f degrees.",
        mm(options.scatterMm()),
        options.scatterRotationDeg(),
        Double.isNaN(u) ? "measuring without error" : "measuring " + mm(u),
        mm(options.partSdMm()),
        mm(options.nozzleSdMm()),
        mm(options.feederSdMm()),
        mm(options.headSdMm()),
        options.offsetSdRotationDeg());
  }

  private void unseen(List<String> s) {
    List<Term> none = plan.terms().stream().filter(t -> t.chosen() == 0).toList();
    if (!none.isEmpty()) {
      s.add("Not measured at all, known only by the assumed spread: " + names(none) + ".");
    }
  }

  private void conditions(List<String> s) {
    if (job.measurement().reference() == Reference.MACHINE) {
      s.add(
          "Measured by the machine's own axes: scale, squareness and array error cancel and are"
              + " left out of the plan.");
    }
    if (job.stage() == Stage.REFLOWED) {
      s.add("After reflow parts that centre themselves show their lands: they are left out.");
    }
    double rx = job.machine().repeatabilityXMm();
    double ry = job.machine().repeatabilityYMm();
    if (rx > 0 || ry > 0) {
      double r = Double.isNaN(rx) ? ry : Double.isNaN(ry) ? rx : Math.max(rx, ry);
      s.add(
          "Registration varies from panel to panel by "
              + mm(r)
              + ": one panel, however well measured, tells the batch's shift no better.");
    }
    if (job.measurement().biasMm() > 0) {
      s.add(
          "A measuring bias of "
              + mm(job.measurement().biasMm())
              + " does not average out; no number of placements lowers it.");
    }
  }

  private static String names(List<Term> terms) {
    String head = terms.stream().limit(NAMED).map(Term::name).collect(Collectors.joining(", "));
    return terms.size() > NAMED ? head + " and " + (terms.size() - NAMED) + " more" : head;
  }

  private static String mm(double v) {
    return Double.isNaN(v)
        ? "unknown"
        : String.format(Locale.ROOT, v < 0.01 ? "%.4f mm" : "%.3f mm", v);
  }
}
