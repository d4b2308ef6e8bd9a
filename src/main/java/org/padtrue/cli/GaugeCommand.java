package org.padtrue.cli;

import java.io.PrintWriter;
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
import org.padtrue.load.text.Words;
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
      "Is the measuring good enough to decide anything? From repeated readings of the",
      "same placements: repeatability, reproducibility, bias, share of the tightest",
      "tolerance, and the numbers for \"measurement\" in the job."
    },
    footer = {
      "",
      "REPEATS.csv has columns ref, operator, trial and dx, dy, drotation, or x, y,",
      "rotation together with --job; optional column, row, panel, and turned (0 or 180).",
      "Ten placements, three operators and three trials are customary. Register the",
      "panel anew for every trial, and read some trials with the panel turned by 180",
      "degrees: repeats alone do not show a bias. --form writes all that down.",
      "",
      "Examples:",
      "  padtrue gauge --form --job job.json --operators Ann,Bo,Cy > form.csv",
      "      the form to fill in, for ten placements that span types and panel",
      "  padtrue gauge repeats.csv --job job.json",
      "      the study, against the tightest tolerance of the job's parts",
      "  padtrue gauge repeats.csv --job job.json --out reports/gauge",
      "      the same, and gauge.json for other programs",
      "",
      "  ref,column,row,operator,trial,turned,dx,dy,drotation",
      "  R1,1,1,Ann,1,0,0.012,-0.008,0.05",
      "  R1,1,1,Ann,2,180,0.015,-0.011,0.10"
    })
final class GaugeCommand implements Callable<Integer> {
  private static final int FORM_PLACEMENTS = 10;

  /** Standard errors from which a bias is clearly one. */
  private static final double SURE = 2;

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
      description = "Job file (JSON): nominal positions and tolerances.")
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
        console.println("FILE       " + json);
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
    if (repeats != null) {
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
              "",
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
        Words.count(s.placements(), "placement")
            + ", "
            + Words.count(s.operators(), "operator")
            + ", "
            + Words.count(s.readings(), "reading")
            + (s.balanced() ? "" : ", not balanced"));
    lines.add("");
    lines.addAll(table(s, known));
    lines.add("");
    List<String> verdicts =
        s.axes().stream().filter(a -> judged(a, known)).map(GaugeAxis::sentence).toList();
    lines.addAll(Wrap.say("VERDICT", verdicts.isEmpty() ? List.of(notJudged(known)) : verdicts));
    lines.addAll(Wrap.say("BIAS", bias(s.bias())));
    lines.addAll(Wrap.say("ENTER", enter(s)));
    lines.addAll(Wrap.say("SUSPECT", s.suspects()));
    lines.addAll(Wrap.say("NOTE", notes(s, file, withJob)));
    lines.forEach(l -> console.println(TextTable.plain(l)));
  }

  private static boolean judged(GaugeAxis a, boolean known) {
    return known || !Double.isNaN(a.shareOfTolerance());
  }

  private static String notJudged(boolean known) {
    return known
        ? "not judged."
        : "not judged: positions were read and no --job says where the placements belong, so"
            + " neither a tolerance nor how placements differ is known.";
  }

  /** The lines of the job that the study feeds. */
  private static String enter(GaugeStudy s) {
    return "in the job: \"measurement\": {\"uncertainty\": "
        + plain(s.uncertaintyMm(), 4)
        + (Double.isNaN(s.rotationUncertaintyDeg())
            ? ""
            : ", \"rotationUncertainty\": " + plain(s.rotationUncertaintyDeg(), 3))
        + (s.bias() == null ? "" : ", \"bias\": " + plain(s.bias().biasMm(), 4))
        + "}";
  }

  private static List<String> notes(GaugeStudy s, GaugeRepeats file, boolean withJob) {
    List<String> notes = new ArrayList<>(s.notes());
    if (s.bias() != null) {
      notes.removeIf(n -> n.startsWith("Bias of camera and person from turning"));
    }
    if (!withJob && file.nominalKnown()) {
      notes.add("No --job: there is no tolerance to compare with.");
    }
    if (file.notFilledIn() > 0) {
      notes.add(Words.count(file.notFilledIn(), "row") + " not filled in.");
    }
    return notes;
  }

  private static List<String> table(GaugeStudy s, boolean known) {
    boolean persons = s.operators() > 1;
    boolean parts = known && s.placements() > 1;
    List<List<String>> columns = new ArrayList<>();
    columns.add(
        List.of(
            "standard deviation",
            "repeatability",
            "reproducibility",
            "interaction",
            "gauge",
            "part-to-part",
            "total",
            "share of tolerance",
            "share of study",
            "verdict"));
    for (GaugeAxis a : s.axes()) {
      String name = a.axis() + (a.unit().equals("deg") ? ", deg" : ", um");
      List<String> first = sds(a, a.components(), persons, parts);
      first.add(0, a.anova() == null ? name + ", REML" : name);
      first.add(percent(a.shareOfTolerance()));
      first.add(parts ? percent(a.shareOfStudy()) : "-");
      first.add(judged(a, parts) ? a.verdict().key() : "notJudged");
      columns.add(first);
      if (a.anova() != null) {
        List<String> second = sds(a, a.reml(), persons, parts);
        second.add(0, "by REML");
        second.addAll(List.of("", "", ""));
        columns.add(second);
      }
    }
    TextTable t = new TextTable("", "t" + "n".repeat(columns.size() - 1));
    for (int i = 0; i < columns.get(0).size(); i++) {
      int row = i;
      t.row(columns.stream().map(c -> c.get(row)).toArray(String[]::new));
    }
    return t.lines();
  }

  private static List<String> sds(GaugeAxis a, GaugeComponents c, boolean persons, boolean parts) {
    boolean deg = a.unit().equals("deg");
    double unit = deg ? 1 : 1e3;
    int d = deg ? 3 : 1;
    return new ArrayList<>(
        List.of(
            plain(unit * c.repeatability(), d),
            persons ? plain(unit * c.reproducibility(), d) : "-",
            persons ? plain(unit * c.interaction(), d) : "-",
            plain(unit * c.gauge(), d),
            parts ? plain(unit * c.part(), d) : "-",
            parts ? plain(unit * c.total(), d) : "-"));
  }

  private static List<String> bias(@Nullable GaugeBias b) {
    if (b == null) {
      return List.of();
    }
    String size =
        String.format(
            Locale.ROOT,
            "x %+.1f um (+- %s), y %+.1f um (+- %s), seen by turning the panel; it does not average"
                + " out.",
            1e3 * b.xMm(),
            plain(1e3 * b.standardErrorXMm(), 1),
            1e3 * b.yMm(),
            plain(1e3 * b.standardErrorYMm(), 1));
    boolean sure =
        Math.abs(b.xMm()) > SURE * b.standardErrorXMm()
            || Math.abs(b.yMm()) > SURE * b.standardErrorYMm();
    String registered =
        b.registrationSeen() ? "" : " What registering anew changes is not in the standard errors.";
    return List.of(size + (sure ? "" : " Not clearly different from none.") + registered);
  }

  private static String plain(double v, int decimals) {
    return Double.isNaN(v) ? "-" : String.format(Locale.ROOT, "%." + decimals + "f", v + 0.0);
  }

  private static String percent(double share) {
    return Double.isNaN(share) ? "-" : String.format(Locale.ROOT, "%.0f %%", 100 * share);
  }
}
