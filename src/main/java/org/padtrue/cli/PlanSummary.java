package org.padtrue.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.padtrue.panel.Job;
import org.padtrue.trim.MeasuringPlan;
import org.padtrue.trim.MeasuringPlanOptions;

/** A measuring plan on the console: what it buys, how well each trim is known, the list. */
final class PlanSummary {
  private static final int MOST_TERMS = 8;
  private static final int MOST_LINES = 60;
  private static final int CURVE_POINTS = 12;
  private static final int BAR = 40;

  private PlanSummary() {}

  /**
   * The summary.
   *
   * @param job the job
   * @param plan what to measure
   * @param usualScatter true when the scatter is the default
   * @param files what was written; none: the list is shown
   * @return lines without line ends
   */
  static List<String> of(Job job, MeasuringPlan plan, boolean usualScatter, List<Path> files) {
    List<String> lines = new ArrayList<>(Wrap.say("OVERLAP", NominalOverlaps.of(job)));
    lines.addAll(Wrap.say("PLAN", plan.buys()));
    lines.add("");
    lines.addAll(terms(plan));
    lines.add("");
    lines.addAll(curve(plan));
    lines.add("");
    lines.addAll(
        Wrap.say(
            "UNDECIDED", plan.aliases().stream().map(MeasuringPlan.PlanAlias::sentence).toList()));
    lines.addAll(Wrap.say("ASSUMED", assumed(plan, usualScatter)));
    lines.add("");
    if (files.isEmpty()) {
      lines.addAll(walk(plan));
      lines.add("");
      lines.addAll(Wrap.say("FILE", "--out FILE writes this list, a chart and a map of the walk."));
    } else {
      lines.add("FILE       " + files.get(0));
      files.stream()
          .skip(1)
          .filter(f -> f.toString().endsWith(".png"))
          .forEach(f -> lines.add("CHART      " + f));
    }
    return lines;
  }

  private static List<String> assumed(MeasuringPlan plan, boolean usualScatter) {
    List<String> s = new ArrayList<>();
    if (usualScatter) {
      s.add(
          String.format(
              Locale.ROOT,
              "Scatter %.3f mm is common practice, not your machine's: give the one that 'analyse'"
                  + " found with --scatter.",
              MeasuringPlanOptions.withDefaults().scatterMm()));
    }
    s.addAll(plan.notes());
    return s;
  }

  private static String mm(double v) {
    return Double.isNaN(v) ? "unknown" : String.format(Locale.ROOT, "%.1f", 1e3 * v);
  }

  /** The worst known terms, in their own units too. */
  private static List<String> terms(MeasuringPlan plan) {
    TextTable t = new TextTable("  ", "tnntn");
    t.row("trim", "known to, um", "all measured, um", "as entered", "measured of");
    plan.terms().stream()
        .sorted(Comparator.comparingDouble(x -> -worst(x.standardError())))
        .limit(MOST_TERMS)
        .forEach(
            x ->
                t.row(
                    x.name(),
                    mm(x.standardError()),
                    mm(x.everything()),
                    Double.isNaN(x.ownUnits())
                        ? "-"
                        : String.format(Locale.ROOT, "%.3g %s", x.ownUnits(), x.unit()),
                    x.chosen() + " of " + x.available()));
    List<String> lines = new ArrayList<>(t.lines());
    if (plan.terms().size() > MOST_TERMS) {
      lines.add("  and " + (plan.terms().size() - MOST_TERMS) + " more that are known better");
    }
    plan.rotationTerms().stream()
        .max(Comparator.comparingDouble(x -> worst(x.standardError())))
        .ifPresent(
            x ->
                lines.add(
                    "  rotations: worst "
                        + x.name()
                        + String.format(Locale.ROOT, ", %.3f degrees", x.standardError())));
    return lines;
  }

  private static double worst(double v) {
    return Double.isNaN(v) ? Double.MAX_VALUE : v;
  }

  /** Standard error of the worst trim against the number measured, with bars. */
  private static List<String> curve(MeasuringPlan plan) {
    List<MeasuringPlan.CurvePoint> some = thinned(plan);
    double most =
        some.stream()
            .mapToDouble(MeasuringPlan.CurvePoint::worstMm)
            .filter(v -> !Double.isNaN(v))
            .max()
            .orElse(1);
    TextTable t = new TextTable("  ", "nnntt");
    t.row("measured", "worst, um", "middle, um", "", "worst is");
    for (MeasuringPlan.CurvePoint c : some) {
      boolean known = !Double.isNaN(c.worstMm());
      t.row(
          Integer.toString(c.count()),
          mm(c.worstMm()),
          mm(c.medianMm()),
          known ? "#".repeat((int) Math.max(1, Math.round(BAR * c.worstMm() / most))) : "",
          c.worstTerm()
              + (c.count() == plan.lines().size() ? "  <- this plan, before exchanges" : ""));
    }
    return t.lines();
  }

  private static List<MeasuringPlan.CurvePoint> thinned(MeasuringPlan plan) {
    List<MeasuringPlan.CurvePoint> all =
        plan.curve().stream()
            .filter(c -> !Double.isNaN(c.worstMm()) || c.count() == plan.lines().size())
            .toList();
    List<MeasuringPlan.CurvePoint> some = new ArrayList<>();
    double step = Math.max(1, (all.size() - 1) / (double) (CURVE_POINTS - 1));
    double next = 0;
    for (int i = 0; i < all.size(); i++) {
      boolean own = all.get(i).count() == plan.lines().size();
      if (i >= Math.round(next) || own || i == all.size() - 1) {
        some.add(all.get(i));
        next = i >= Math.round(next) ? next + step : next;
      }
    }
    return some;
  }

  private static List<String> walk(MeasuringPlan plan) {
    TextTable t = new TextTable("  ", "nnnttnnn");
    t.row("order", "column", "row", "ref", "part", "x", "y", "rotation");
    for (MeasuringPlan.PlanLine l :
        plan.lines().subList(0, Math.min(MOST_LINES, plan.lines().size()))) {
      t.row(
          Integer.toString(l.order()),
          Integer.toString(l.column()),
          Integer.toString(l.row()),
          l.ref(),
          l.part(),
          String.format(Locale.ROOT, "%.3f", l.x()),
          String.format(Locale.ROOT, "%.3f", l.y()),
          String.format(Locale.ROOT, "%.4g", l.rotation()));
    }
    List<String> lines = new ArrayList<>(t.lines());
    if (plan.lines().size() > MOST_LINES) {
      lines.add("  and " + (plan.lines().size() - MOST_LINES) + " more");
    }
    return lines;
  }
}
