package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.CorrectedFile;
import org.padtrue.load.CorrectedFileInputs;
import org.padtrue.load.JobLoader;
import org.padtrue.load.LoadedJob;
import org.padtrue.report.PlanReport;
import org.padtrue.trim.MeasuringPlan;
import org.padtrue.trim.MeasuringPlanOptions;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Which few placements to measure, and what that buys. */
@Command(
    name = "plan",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Chooses which placements of a panel to measure, in a short walk, so that every",
      "trim is known. With neither --count nor --within: as many as still pay."
    },
    footer = {
      "",
      "Beside FILE stand a chart of uncertainty against number measured and a map of",
      "the walk (PNG and SVG). To measure: add columns dx, dy, drotation to FILE (or",
      "have them from --form), fill them in, and give FILE to 'analyse'; rows left",
      "empty count as not measured.",
      "",
      "Examples:",
      "  padtrue plan job.json",
      "      the list on the console, as many as still pay",
      "  padtrue plan job.json --count 20 --form --out to-measure.csv",
      "      the best 20, as a form to fill in",
      "  padtrue plan job.json --within 0.02 --scatter 0.03 --out to-measure.csv",
      "      as few as let every trim be known to 0.02 mm on a machine that scatters",
      "      by 0.03 mm (the scatter that 'analyse' found)"
    })
final class PlanCommand implements Callable<Integer> {
  private static final int MOST_TERMS = 8;
  private static final int MOST_LINES = 60;
  private static final int CURVE_POINTS = 12;
  private static final int BAR = 40;

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "JOB", description = "Job file (JSON).")
  @SuppressWarnings("NullAway.Init")
  private Path jobFile;

  @Option(names = "--count", paramLabel = "N", description = "Measure this many placements.")
  private @Nullable Integer count;

  @Option(
      names = "--within",
      paramLabel = "MM",
      description = "As few as let every trim be known to this standard error, mm.")
  private @Nullable Double within;

  @Option(
      names = "--scatter",
      paramLabel = "MM",
      description = {
        "Scatter of one placement (standard deviation per axis) to reckon with, mm.",
        "Default: 0.02 (common practice)."
      })
  private @Nullable Double scatter;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Write the list (CSV), the chart and the map.")
  private @Nullable Path out;

  @Option(
      names = "--form",
      description = "Add empty columns dx, dy, drotation to FILE, to be filled in.")
  private boolean form;

  @Option(names = "--quiet", description = "Print nothing but errors.")
  private boolean quiet;

  @Override
  public Integer call() {
    MeasuringPlanOptions o = MeasuringPlanOptions.withDefaults();
    o = scatter == null ? o : o.withScatterMm(scatter);
    o = count == null ? o : o.withCount(count);
    o = within == null ? o : o.withWithinMm(within);
    LoadedJob job = JobLoader.loadWithFile(jobFile).orThrow();
    if (out != null) {
      CorrectedFile.refuseInput(out, CorrectedFileInputs.of(jobFile));
    } else if (form) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--form needs --out FILE, the file to fill in");
    }
    MeasuringPlan plan = MeasuringPlan.of(job.job(), o);
    List<Path> files =
        out == null
            ? List.of()
            : PlanReport.write(job.job(), plan, within == null ? Double.NaN : within, form, out);
    if (!quiet) {
      print(job, plan, files);
    }
    return Main.DONE;
  }

  private void print(LoadedJob job, MeasuringPlan plan, List<Path> files) {
    PrintWriter console = spec.commandLine().getOut();
    List<String> lines = new ArrayList<>(Wrap.say("OVERLAP", NominalOverlaps.of(job.job())));
    lines.addAll(Wrap.say("PLAN", plan.buys()));
    lines.add("");
    lines.addAll(terms(plan));
    lines.add("");
    lines.addAll(curve(plan));
    lines.add("");
    lines.addAll(
        Wrap.say(
            "UNDECIDED", plan.aliases().stream().map(MeasuringPlan.PlanAlias::sentence).toList()));
    lines.addAll(Wrap.say("ASSUMED", assumed(plan)));
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
    lines.forEach(l -> console.println(TextTable.plain(l)));
  }

  private List<String> assumed(MeasuringPlan plan) {
    List<String> s = new ArrayList<>();
    if (scatter == null) {
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
          c.worstTerm() + (c.count() == plan.lines().size() ? "  <- this plan" : ""));
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
