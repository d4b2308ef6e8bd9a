package org.padtrue.report.words;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.padtrue.land.clearance.NominalOverlaps;
import org.padtrue.panel.Job;
import org.padtrue.plan.MeasuringPlan;

/** A measuring plan on the console: what it will decide and what not, the list. */
public final class PlanSummary {
  private static final int MOST_TERMS = 8;
  private static final int MOST_LINES = 60;
  private static final int CURVE_POINTS = 12;
  private static final int BAR = 25;

  private PlanSummary() {}

  /**
   * The summary.
   *
   * @param job the job
   * @param plan what to measure
   * @param sources where the scatter comes from, one sentence each
   * @param files what was written; none: the list is shown
   * @return lines without line ends
   */
  public static List<String> of(
      Job job, MeasuringPlan plan, List<String> sources, List<Path> files) {
    List<String> lines = new ArrayList<>(Wrap.say("OVERLAP", NominalOverlaps.of(job)));
    lines.addAll(Wrap.say("PLAN", plan.summary()));
    lines.add("");
    lines.addAll(terms(plan));
    lines.add("");
    lines.addAll(curve(plan));
    lines.add("");
    lines.addAll(Wrap.say("UNDECIDED", undecided(plan)));
    lines.addAll(
        Wrap.say("ASSUMED", Stream.concat(sources.stream(), plan.notes().stream()).toList()));
    lines.add("");
    if (files.isEmpty()) {
      lines.addAll(walk(plan));
      lines.add("");
      lines.addAll(Wrap.say("FILE", "--out FILE writes this list, a chart and a map of the walk."));
    } else {
      lines.add("FILE       " + files.get(0));
      files.stream().skip(1).forEach(f -> lines.add("CHART      " + f));
    }
    return lines;
  }

  private static List<String> undecided(MeasuringPlan plan) {
    List<String> s = new ArrayList<>(plan.undecided());
    plan.aliases().stream().map(MeasuringPlan.PlanAlias::sentence).distinct().forEach(s::add);
    if (!s.isEmpty()) {
      s.add(0, "This plan will not be able to decide:");
    }
    return s;
  }

  private static String mm(double v) {
    return Double.isNaN(v) ? "unknown" : String.format(Locale.ROOT, "%.1f", 1e3 * v);
  }

  /** The terms that need to be largest to be found, in their own units too. */
  private static List<String> terms(MeasuringPlan plan) {
    TextTable t = new TextTable("  ", "tnnntn");
    t.row(
        "trim",
        "found from, um",
        "known +-, um",
        "all measured +-, um",
        "as entered +-",
        "in the plan");
    plan.terms().stream()
        .sorted(Comparator.comparingDouble(x -> -worst(x.foundFrom() / x.matters())))
        .limit(MOST_TERMS)
        .forEach(
            x ->
                t.row(
                    x.name(),
                    mm(x.foundFrom()),
                    mm(x.standardError()),
                    mm(x.everything()),
                    Double.isNaN(x.ownUnits())
                        ? "-"
                        : String.format(Locale.ROOT, "%.3g %s", x.ownUnits(), x.unit()),
                    x.chosen() + " of " + x.available()));
    List<String> lines = new ArrayList<>(t.lines());
    if (plan.terms().size() > MOST_TERMS) {
      lines.add("  and " + (plan.terms().size() - MOST_TERMS) + " more that are found sooner");
    }
    plan.rotationTerms().stream()
        .max(Comparator.comparingDouble(x -> worst(x.foundFrom() / x.matters())))
        .ifPresent(
            x ->
                lines.add(
                    "  rotations: the least sure is "
                        + x.name()
                        + (Double.isNaN(x.foundFrom())
                            ? ", not measured"
                            : String.format(
                                Locale.ROOT,
                                ", found from %.2f degrees, known +- %.3f degrees",
                                x.foundFrom(),
                                x.standardError()))));
    lines.add(
        "  found from: an offset of this size is found nine times in ten, should it be the only"
            + " one; +- is one standard error");
    return lines;
  }

  private static double worst(double v) {
    return Double.isNaN(v) ? Double.MAX_VALUE : v;
  }

  /** What is kept and the worst standard error against the number measured. */
  private static List<String> curve(MeasuringPlan plan) {
    TextTable t = new TextTable("  ", "nntnt");
    t.row("measured", "gain kept, %", "", "worst +-, um", "worst is");
    for (MeasuringPlan.CurvePoint c : thinned(plan)) {
      double kept = Math.floor(100 * Math.max(0, c.keeps()) + 1e-9);
      t.row(
          Integer.toString(c.count()),
          c.keeps() > 0 ? String.format(Locale.ROOT, "%.0f", kept) : "none sure",
          "#".repeat((int) Math.round(BAR * kept / 100)),
          mm(c.worstMm()),
          c.worstTerm()
              + (c.count() == plan.lines().size() ? "  <- this plan, before exchanges" : ""));
    }
    List<String> lines = new ArrayList<>(t.lines());
    lines.add(
        "  gain kept: what trims take out of the next panel's systematic deviation (mean square),"
            + " at least, on 19 panels of 20,");
    lines.add("  beside trims decided from every placement");
    return lines;
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
    t.row("order", "column", "row", "ref", "part", "x, mm", "y, mm", "rotation, deg");
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
