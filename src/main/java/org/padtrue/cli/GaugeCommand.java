package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LandFit;
import org.padtrue.load.GaugeRepeat;
import org.padtrue.load.GaugeRepeats;
import org.padtrue.load.JobLoader;
import org.padtrue.load.LoadedJob;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Tolerance;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.GaugeJson;
import org.padtrue.trim.GaugeAxis;
import org.padtrue.trim.GaugeBias;
import org.padtrue.trim.GaugeComponents;
import org.padtrue.trim.GaugeForm;
import org.padtrue.trim.GaugeReading;
import org.padtrue.trim.GaugeStudy;
import org.padtrue.trim.MeasuringPlan;
import org.padtrue.trim.MeasuringPlanOptions;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Is the measuring good enough to decide anything? */
@Command(
    name = "gauge",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Evaluates repeated readings of the same placements: repeatability, persons, bias by turning",
      "the panel, and the share of the tightest tolerance. With --form: the blank form for it."
    },
    footer = {
      "",
      "REPEATS.csv has columns ref, operator, trial and dx, dy, drotation (or x, y, rotation with",
      "--job), and turned (0 or 180) where the panel was turned. Register the panel anew for every",
      "trial, and read some trials with the panel turned by 180 degrees: repeats alone do not show",
      "a bias.",
      "",
      "Examples:",
      "  padtrue gauge --form --job job.json --operators Ann,Bo,Cy --trials 3 > form.csv",
      "  padtrue gauge repeats.csv --job job.json",
      "  padtrue gauge repeats.csv --job job.json --out reports/gauge"
    })
final class GaugeCommand implements Callable<Integer> {
  private static final int FORM_PLACEMENTS = 10;

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "REPEATS.csv",
      description = "Repeated readings (CSV).")
  private @Nullable Path repeats;

  @Option(
      names = "--job",
      paramLabel = "JOB",
      description = "The job: nominal positions and tolerances.")
  private @Nullable Path jobFile;

  @Option(names = "--out", paramLabel = "DIR", description = "Folder for gauge.json.")
  private @Nullable Path out;

  @Option(
      names = "--form",
      description = "Print the blank form: for the placements of REPEATS.csv, or of the job.")
  private boolean form;

  @Option(
      names = "--operators",
      paramLabel = "NAME",
      split = ",",
      description = "Who reads, for --form. Default: A,B,C.")
  private List<String> operators = new ArrayList<>();

  @Option(
      names = "--trials",
      paramLabel = "N",
      description = "Repeats by each, for --form. Default: ${DEFAULT-VALUE}.",
      defaultValue = "3")
  private int trials;

  @Option(names = "--quiet", description = "Print nothing but errors.")
  private boolean quiet;

  @Override
  public Integer call() {
    LoadedJob job = jobFile == null ? null : JobLoader.loadWithFile(jobFile).orThrow();
    PrintWriter console = spec.commandLine().getOut();
    if (form) {
      form(job).forEach(l -> console.println(TextTable.plain(l)));
      return Main.DONE;
    }
    if (repeats == null) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "Missing required parameter: 'REPEATS.csv' (or --form)");
    }
    GaugeRepeats file = GaugeRepeats.load(repeats, job).orThrow();
    GaugeStudy study =
        GaugeStudy.of(file.file(), readings(file), job == null ? null : tightest(job.job()));
    Path json = out == null ? null : GaugeJson.write(study, file.nominalKnown(), out);
    if (!quiet) {
      print(study, file, job != null, console);
      if (json != null) {
        console.println("Details    " + json);
      }
    }
    return Main.DONE;
  }

  private static List<GaugeReading> readings(GaugeRepeats file) {
    return file.readings().stream()
        .map(
            r ->
                new GaugeReading(
                    r.id(),
                    r.operator(),
                    r.trial(),
                    r.turned(),
                    r.dxMm(),
                    r.dyMm(),
                    r.dRotationDeg(),
                    r.line()))
        .toList();
  }

  /** The tightest tolerance of any placement, along the panel's axes; null when none is known. */
  static @Nullable Tolerance tightest(Job job) {
    double x = Double.NaN;
    double y = Double.NaN;
    double r = Double.NaN;
    for (Placement p : job.placements()) {
      Tolerance t =
          LandFit.of(job.partType(p.part()), AcceptanceLimits.published(), job.acceptanceClass())
              .allowed();
      double turn = Math.abs(p.pose().rotationDeg() % 180);
      boolean along = turn < 1 || turn > 179;
      boolean across = Math.abs(turn - 90) < 1;
      double both = least(t.xMm(), t.yMm());
      x = least(x, along ? t.xMm() : across ? t.yMm() : both);
      y = least(y, along ? t.yMm() : across ? t.xMm() : both);
      r = least(r, t.rotationDeg());
    }
    return Double.isNaN(x) && Double.isNaN(y) && Double.isNaN(r) ? null : new Tolerance(x, y, r);
  }

  private static double least(double a, double b) {
    return Double.isNaN(a) ? b : Double.isNaN(b) ? a : Math.min(a, b);
  }

  private List<String> form(@Nullable LoadedJob job) {
    Set<String> refs = new LinkedHashSet<>();
    Set<String> who = new LinkedHashSet<>(operators);
    if (repeats != null && Files.exists(repeats)) {
      for (GaugeRepeat r : GaugeRepeats.load(repeats, job).orThrow().readings()) {
        refs.add(r.id());
        if (operators.isEmpty()) {
          who.add(r.operator());
        }
      }
    } else if (job != null) {
      boolean several = job.job().array().boards().size() > 1;
      MeasuringPlanOptions o = MeasuringPlanOptions.withDefaults().withCount(FORM_PLACEMENTS);
      for (MeasuringPlan.PlanLine l : MeasuringPlan.of(job.job(), o).lines()) {
        refs.add(several ? l.column() + "/" + l.row() + "/" + l.ref() : l.ref());
      }
    } else {
      throw new InputException(
          Problem.of(
              repeats == null ? "" : repeats.toString(),
              "the form needs placements to read",
              "give --job JOB, or a REPEATS.csv that names them"));
    }
    return GaugeForm.lines(
        List.copyOf(refs), who.isEmpty() ? List.of("A", "B", "C") : List.copyOf(who), trials);
  }

  private static void print(GaugeStudy s, GaugeRepeats file, boolean withJob, PrintWriter console) {
    boolean known = file.nominalKnown();
    List<String> lines = new ArrayList<>();
    lines.add(
        String.format(
            Locale.ROOT,
            "%d placements, %d %s, %d readings%s",
            s.placements(),
            s.operators(),
            s.operators() == 1 ? "operator" : "operators",
            s.readings(),
            s.balanced() ? "" : " (not balanced)"));
    lines.addAll(table(s, known));
    for (GaugeAxis a : s.axes()) {
      if (known || !Double.isNaN(a.shareOfTolerance())) {
        lines.add(a.sentence());
      }
    }
    bias(s.bias(), lines);
    lines.add(
        "For the job: \"measurement\": {\"uncertainty\": "
            + plain(s.uncertaintyMm(), 4)
            + (Double.isNaN(s.rotationUncertaintyDeg())
                ? ""
                : ", \"rotationUncertainty\": " + plain(s.rotationUncertaintyDeg(), 3))
            + (s.bias() == null ? "" : ", \"bias\": " + plain(s.bias().biasMm(), 4))
            + "}");
    s.suspects().forEach(x -> lines.add("Suspect    " + x));
    s.notes().forEach(x -> lines.add("Note       " + x));
    if (!known) {
      lines.add(
          "Note       x and y are positions and no --job says where the placements belong, so how"
              + " placements differ is not known and nothing is judged.");
    } else if (!withJob) {
      lines.add("Note       No --job: there is no tolerance to compare with.");
    }
    if (file.notFilledIn() > 0) {
      lines.add("Note       " + file.notFilledIn() + " rows are not filled in.");
    }
    lines.forEach(l -> console.println(TextTable.plain(l)));
  }

  private static List<String> table(GaugeStudy s, boolean known) {
    TextTable t = new TextTable("  ", "tnnnnnnnnt");
    t.row(
        "standard deviations",
        "repeatability",
        "persons",
        "interaction",
        "gauge",
        "placements",
        "total",
        "of tolerance",
        "of study",
        "verdict");
    for (GaugeAxis a : s.axes()) {
      boolean deg = a.unit().equals("deg");
      double unit = deg ? 1 : 1e3;
      int d = deg ? 3 : 1;
      GaugeComponents c = a.components();
      boolean judged = known || !Double.isNaN(a.shareOfTolerance());
      t.row(
          a.axis() + (deg ? ", degrees" : ", um"),
          plain(unit * c.repeatability(), d),
          plain(unit * c.reproducibility(), d),
          plain(unit * c.interaction(), d),
          plain(unit * c.gauge(), d),
          known ? plain(unit * c.part(), d) : "-",
          known ? plain(unit * c.total(), d) : "-",
          percent(a.shareOfTolerance()),
          known ? percent(a.shareOfStudy()) : "-",
          judged ? a.verdict().key() : "notJudged");
    }
    return t.lines();
  }

  private static void bias(@Nullable GaugeBias b, List<String> lines) {
    if (b == null) {
      return;
    }
    lines.add(
        String.format(
            Locale.ROOT,
            "Bias by turning the panel: x %+.1f um (+- %s), y %+.1f um (+- %s); it does not average"
                + " out.",
            1e3 * b.xMm(),
            plain(1e3 * b.standardErrorXMm(), 1),
            1e3 * b.yMm(),
            plain(1e3 * b.standardErrorYMm(), 1)));
  }

  private static String plain(double v, int decimals) {
    return Double.isNaN(v) ? "-" : String.format(Locale.ROOT, "%." + decimals + "f", v + 0.0);
  }

  private static String percent(double share) {
    return Double.isNaN(share) ? "-" : String.format(Locale.ROOT, "%.0f %%", 100 * share);
  }
}
