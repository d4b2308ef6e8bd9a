package org.padtrue.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Stage;
import org.padtrue.plan.MeasuringPlan.Basis;
import org.padtrue.plan.MeasuringPlan.Term;
import org.padtrue.plan.model.MeasuringPlanFactor;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.plan.model.MeasuringPlanSpread;

/** The sentences of a plan: how well trims are then known, and what a reader should know. */
final class MeasuringPlanText {
  private static final int NAMED = 5;

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
        plan.keeps(),
        plan.enough(),
        plan.curve(),
        plan.aliases(),
        plan.undecided(),
        summary(),
        notes());
  }

  private List<String> summary() {
    List<String> s = new ArrayList<>();
    int n = plan.lines().size();
    s.add(
        String.format(
            Locale.ROOT,
            "Measure %d of %d placements, a walk of %.0f mm over the panel.",
            n,
            plan.candidates(),
            plan.walkMm()));
    s.add(kept());
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
    }
    return s;
  }

  /** What decisions from the plan are worth beside decisions from everything. */
  private String kept() {
    int n = plan.lines().size();
    if (n == plan.candidates()) {
      return plan.enough() < n
          ? "That is every placement; " + plan.enough() + " would be enough to decide by."
          : "That is every placement: with fewer the decisions would be clearly worse.";
    }
    String share =
        String.format(
            Locale.ROOT,
            "trims decided from these take out at least %.0f %% of the systematic deviation (mean"
                + " square, next panel) that trims decided from all %d would take out, on 19 panels"
                + " of 20",
            Math.floor(100 * Math.max(0, plan.keeps()) + 1e-9),
            plan.candidates());
    if (plan.keeps() >= MeasuringPlanner.ENOUGH) {
      return "That is enough to decide by: " + share + ".";
    }
    return (plan.keeps() > 0
            ? Character.toUpperCase(share.charAt(0)) + share.substring(1)
            : "Decided from so few, no share of what all would bring is sure")
        + "; "
        + plan.enough()
        + " would be enough (95 %).";
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
    boolean array =
        plan.terms().stream().anyMatch(x -> x.factor().equals(MeasuringPlanFactor.ARRAY.word()));
    if (array && MeasuringPlanUndecided.linear(t.factor())) {
      return "rotation, scale and squareness are told from array steps only by what differs"
          + " within one board";
    }
    return Factor.parse(t.factor()).isPresent()
        ? "only " + t.available() + " of the panel's placements show it and each scatters"
        : "each of the panel's " + t.available() + " placements scatters";
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
              + ": of those alike in type, rotation, "
              + Factor.words(Factor.listedOnes())
              + " the outermost ones.");
    }
    conditions(s);
    return s;
  }

  private String assumed() {
    double u = job.measurement().uncertaintyMm();
    MeasuringPlanSpread panel = MeasuringPlanSpread.USUAL;
    return String.format(
        Locale.ROOT,
        "Assumed (one standard deviation): scatter of a placement %s%s and %.2f degrees%s; %s;"
            + " offsets differ between %s, in"
            + " rotation by %.2f degrees; panel offset %s, rotation, scale, squareness and array"
            + " steps %s. Where offsets are smaller, there is less to gain and a smaller share of"
            + " it is kept.",
        mm(options.scatterMm()),
        byType(options.scatterMmByType(), " mm"),
        options.scatterRotationDeg(),
        byType(options.scatterDegByType(), " degrees"),
        Double.isNaN(u) ? "measuring without error" : "measuring " + mm(u),
        Factor.carried().stream()
            .map(f -> f.nouns() + (f == Factor.PART ? " by " : " ") + mm(options.spreadMm(f)))
            .collect(Collectors.joining(", ")),
        options.offsetSdRotationDeg(),
        mm(panel.shift()),
        mm(panel.linear()));
  }

  /** Scatter of the part types that have their own. */
  private String byType(Map<String, Double> own, String unit) {
    Map<String, Double> here = new TreeMap<>(own);
    here.keySet().retainAll(job.placements().stream().map(p -> p.part()).toList());
    if (here.isEmpty()) {
      return "";
    }
    return here.entrySet().stream()
        .map(e -> String.format(Locale.ROOT, "%s %.3f%s", e.getKey(), e.getValue(), unit))
        .collect(Collectors.joining(", ", " (", ")"));
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
