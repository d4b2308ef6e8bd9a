package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.AsIsOption;
import org.padtrue.cli.option.ChartsOption;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.cli.option.JsonOnlyOption;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.cli.option.ReportFolderOption;
import org.padtrue.door.Door;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.AnalysisOptions.Transform;
import org.padtrue.history.ArticleLog;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.log.RegistrationFromLog;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.WithProblems;
import org.padtrue.report.AnalysisReport;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.words.ConsoleSummary;
import org.padtrue.report.words.Sentences;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The main job: what is systematic, what to change, what that buys. */
@Command(
    name = "analyse",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Reads a job and one or more measured articles of the same batch and says what to "
          + "change.",
      "Writes report.html, trims.csv, residuals.csv, analysis.json and charts into a " + "folder."
    },
    footer = {
      "",
      "Examples:",
      "  padtrue analyse job.json first-panel.csv",
      "  padtrue analyse job.json panel1.csv panel2.csv --out reports/batch-7",
      "  padtrue analyse job.json first-panel.csv --transform affine --array",
      "  padtrue analyse job.json first-panel.csv --history padtrue-history.db",
      "  padtrue analyse job.json first-panel.csv --frame nozzle=panel",
      "  padtrue analyse job.json first-panel.csv --transcription-error 1/1/R7",
      "  padtrue analyse job.json first-panel.csv --charts svg,png"
    })
final class AnalyseCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "JOB", description = "Job file (JSON).")
  @SuppressWarnings("NullAway.Init")
  private Path job;

  @Parameters(
      index = "1..*",
      arity = "1..*",
      paramLabel = "ARTICLE",
      description = "Measured articles (CSV) of one batch.")
  @SuppressWarnings("NullAway.Init")
  private List<Path> articles;

  @Mixin private final ReportFolderOption out = new ReportFolderOption();

  @Option(
      names = "--transform",
      paramLabel = "FAMILY",
      description = {
        "auto (default), shift, rigid, similarity or affine.",
        "A named family is fitted as it stands, with array and common terms only when asked "
            + "for."
      },
      defaultValue = "auto")
  @SuppressWarnings("NullAway.Init")
  private Transform transform;

  @Option(names = "--array", description = "Take array terms (a step per column and row) in.")
  private boolean array;

  @Option(names = "--common", description = "Take an offset that all parts share in.")
  private boolean common;

  @Option(names = "--keep-outliers", description = "Fit everything that was measured.")
  private boolean keepOutliers;

  @Option(names = "--all", description = "List offsets that are too small to be worth typing, too.")
  private boolean all;

  @Option(
      names = "--equal-scatter",
      description = "One scatter for all part types, instead of one for each.")
  private boolean equalScatter;

  @Option(
      names = "--random",
      paramLabel = "FACTOR",
      split = ",",
      completionCandidates = FactorKeys.class,
      description = "Exactly these factors: ${COMPLETION-CANDIDATES}.")
  private @Nullable List<String> random;

  /** The factors that an analysis can be asked for. */
  static final class FactorKeys implements Iterable<String> {
    @Override
    public Iterator<String> iterator() {
      return Arrays.stream(Factor.values()).map(Factor::key).iterator();
    }
  }

  @Option(
      names = "--frame",
      paramLabel = "FACTOR=FRAME",
      split = ",",
      description = {
        "Fixes the frame of a factor's offsets: nozzle, feeder or head = part (turns with "
            + "the part) or panel (stays with the panel). Without it the measurements decide."
      })
  private List<String> frames = new ArrayList<>();

  @Option(
      names = "--fault",
      paramLabel = "REF",
      split = ",",
      description = "These excluded placements are real faults (REF or COLUMN/ROW/REF).")
  private List<String> faults = new ArrayList<>();

  @Option(
      names = {"--slip", "--transcription-error"},
      paramLabel = "REF",
      split = ",",
      description =
          "These excluded placements are transcription errors (of the record, not of the part).")
  private List<String> slips = new ArrayList<>();

  @Option(
      names = "--history",
      paramLabel = "URL",
      description = {
        "The log of 'record': gives the registration from panel to panel where the job gives "
            + "none."
      })
  private @Nullable String history;

  @Option(
      names = "--machine",
      paramLabel = "M",
      description = "With --history: the machine; may be left out when the log has only one.")
  private @Nullable String machine;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private AsIsOption asIs;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private ChartsOption charts;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private JsonOnlyOption json;

  @Mixin private final QuietOption quiet = new QuietOption();

  private @Nullable String fromLog;

  @Override
  public Integer call() {
    PrintWriter console = spec.commandLine().getOut();
    Set<ChartFormat> formats = charts.formats();
    charts.refuseWhere(json.given, JsonOnlyOption.NO_CHARTS);
    ConsoleProgress progress = new ConsoleProgress(spec.commandLine().getErr(), quiet.given);
    FirstArticleResult result =
        analyse(
            job,
            articles,
            new AnalysisOptions(
                    transform,
                    array,
                    common,
                    keepOutliers,
                    factors(),
                    new LinkedHashSet<>(faults),
                    new LinkedHashSet<>(slips))
                .withFrames(frames())
                .withEqualScatter(equalScatter)
                .withAll(all),
            this::fromHistory,
            asIs.given,
            progress);
    if (json.given) {
      Path file = AnalysisReport.writeJson(result, out.folder);
      if (!quiet.given) {
        console.println(file);
      }
      return Main.DONE;
    }
    AnalysisReport.write(result, out.folder, formats, progress::step);
    if (!quiet.given) {
      ConsoleSummary.of(result, out.folder).forEach(console::println);
      if (fromLog != null) {
        new Sentences().say("LOG", fromLog + ".").lines().forEach(console::println);
      }
    }
    return Main.DONE;
  }

  /** The job with the registration that the log tells, if there is a log. */
  private Job fromHistory(Job given) {
    if (history == null) {
      return given;
    }
    try (ArticleLog log = ArticleLog.openToRead(history)) {
      Job filled = RegistrationFromLog.filled(given, log, machine);
      fromLog = filled.notes().get(filled.notes().size() - 1);
      return filled;
    }
  }

  private @Nullable List<Factor> factors() {
    if (random == null) {
      return null;
    }
    List<Factor> out = new ArrayList<>();
    for (String f : random) {
      out.add(
          Factor.parse(f)
              .orElseThrow(
                  () ->
                      new CommandLine.ParameterException(
                          spec.commandLine(),
                          "--random names '"
                              + f
                              + "'; expected some of "
                              + keys(List.of(Factor.values())))));
    }
    return out;
  }

  private static String keys(List<Factor> factors) {
    return factors.stream().map(Factor::key).collect(Collectors.joining(", "));
  }

  private Map<Factor, OffsetFrame> frames() {
    Map<Factor, OffsetFrame> out = new LinkedHashMap<>();
    List<Factor> open = Arrays.stream(Factor.values()).filter(Factor::frameOpen).toList();
    for (String given : frames) {
      int at = given.indexOf('=');
      Factor factor = Factor.parse(at < 0 ? given : given.substring(0, at)).orElse(null);
      OffsetFrame frame = OffsetFrame.parse(given.substring(at + 1)).orElse(null);
      if (at < 0 || frame == null || factor == null || !open.contains(factor)) {
        throw new CommandLine.ParameterException(
            spec.commandLine(),
            "--frame says '"
                + given
                + "'; expected "
                + keys(open)
                + " = part or panel, such as nozzle=part");
      }
      OffsetFrame before = out.putIfAbsent(factor, frame);
      if (before != null && before != frame) {
        throw new CommandLine.ParameterException(
            spec.commandLine(), "--frame names " + factor.key() + " twice; give it one frame");
      }
    }
    return out;
  }

  /** Reads and analyses; every problem of all files is reported at once. */
  static FirstArticleResult analyse(
      Path job, List<Path> articles, AnalysisOptions options, ConsoleProgress progress) {
    return analyse(job, articles, options, j -> j, false, progress);
  }

  private static FirstArticleResult analyse(
      Path job,
      List<Path> articles,
      AnalysisOptions options,
      UnaryOperator<Job> completed,
      boolean asIs,
      ConsoleProgress progress) {
    progress.step("reading " + job, 0, 1);
    LoadedJob loaded = JobLoader.loadWithFile(job).orThrow().asIs(asIs);
    List<Article> read = new ArrayList<>();
    List<Problem> problems = new ArrayList<>();
    for (Path a : articles) {
      progress.step("reading " + a, read.size(), articles.size());
      WithProblems<Article> w = ArticleLoader.load(a, loaded);
      read.add(w.value());
      problems.addAll(w.problems());
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    Door.require(loaded.job(), read, loaded.asIs());
    Job complete = completed.apply(loaded.job());
    return FirstArticleAnalysis.run(complete, read, options, what -> progress.step(what, 0, 1));
  }
}
