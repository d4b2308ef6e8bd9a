package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.AsIsOption;
import org.padtrue.cli.option.CircumstanceOptions;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.cli.option.Correction;
import org.padtrue.cli.option.HistoryOption;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.cli.option.TrimOptions;
import org.padtrue.cli.option.ZoneOption;
import org.padtrue.door.Door;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.Conditions;
import org.padtrue.history.FolderImport;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedAttachment;
import org.padtrue.history.LoggedTrim;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.log.Recording;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.report.words.RecordWords;
import org.padtrue.report.words.TimeText;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Logs articles. */
@Command(
    name = "record",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Logs a measured article with its circumstances, so that 'drift' can tell what " + "drifts.",
      "Nothing is ever changed or deleted in the log; a correction is a new row that "
          + "points at the old one. The same measurements recorded twice are refused."
    },
    footer = {
      "",
      "Examples:",
      "  padtrue record job.json article.csv --machine M1 --shift early --temperature 23.5",
      "  padtrue record job.json article.csv --at 2026-03-02T06:10 --minutes-running 25",
      "  padtrue record job.json panel2.csv --trims report/analysis.json",
      "  padtrue record job.json panel2.csv --trim scaleXPpm=-120 --trim \"part R0603 x=0.02\"",
      "  padtrue record job.json --import old/ --conditions conditions.csv --machine M1",
      "  padtrue record job.json article.csv --corrects 17 --reason \"wrong shift\" --shift late"
    })
final class RecordCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "JOB", description = "Job file (JSON).")
  @SuppressWarnings("NullAway.Init")
  private Path jobFile;

  @Parameters(index = "1", arity = "0..1", paramLabel = "ARTICLE", description = "Measured (CSV).")
  private @Nullable Path articleFile;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private HistoryOption history;

  @Option(names = "--at", paramLabel = "TIME", description = "When it was placed. Default: now.")
  private @Nullable String at;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private ZoneOption zone;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private CircumstanceOptions circumstances;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private TrimOptions trims;

  @Option(
      names = "--attach",
      paramLabel = "FILE",
      description = "A picture or other file that belongs to it; its hash is kept, not the file.")
  private List<Path> attach = new ArrayList<>();

  @Option(
      names = "--corrects",
      paramLabel = "N",
      description = "This corrects article number N; what is not given is taken over from it.")
  private @Nullable Long corrects;

  @Option(names = "--reason", paramLabel = "TEXT", description = "Why it corrects.")
  private @Nullable String reason;

  @Option(
      names = "--import",
      paramLabel = "FOLDER",
      description = "Instead of ARTICLE: every CSV file of a folder of old articles.")
  private @Nullable Path folder;

  @Option(
      names = "--conditions",
      paramLabel = "FILE",
      description = {
        "With --import: a table with columns article, at, machine, shift, operator, "
            + "temperature, minutesRunning, note ... and 'trim NAME'. Without it, a file's own "
            + "time is taken."
      })
  private @Nullable Path conditions;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private AsIsOption asIs;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    if ((articleFile == null) == (folder == null)) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "give either an ARTICLE or --import FOLDER");
    }
    LoadedJob job = JobLoader.loadWithFile(jobFile).orThrow().asIs(asIs.given);
    return folder != null ? importAll(job, folder) : recordOne(job, articleFile);
  }

  private Integer importAll(LoadedJob job, Path from) {
    ConsoleProgress progress = new ConsoleProgress(spec.commandLine().getErr(), quiet.given);
    ImportArticles articles =
        new ImportArticles(job, circumstances, zone.zone(), conditions, progress);
    FolderImport.Imported done;
    try (ArticleLog log = ArticleLog.open(history.url)) {
      done = articles.run(log, from);
    }
    if (!quiet.given) {
      say(
          done.recorded().size()
              + " articles recorded, "
              + done.known().size()
              + " known already, "
              + done.problems().size()
              + " problems");
    }
    if (!done.problems().isEmpty()) {
      throw new InputException(done.problems());
    }
    return Main.DONE;
  }

  private Integer recordOne(LoadedJob job, @Nullable Path file) {
    if (file == null) {
      throw new IllegalStateException("checked before");
    }
    Article article = ArticleLoader.load(file, job).orThrow();
    Door.require(job.job(), List.of(article), job.asIs());
    ArticleTerms terms = ArticleTerms.of(job.job(), article);
    List<LoggedTrim> entered = trims.read(job.job(), terms, spec.commandLine());
    List<LoggedAttachment> attached = attach.stream().map(LoggedAttachment::of).toList();
    Instant when = at == null ? null : TimeText.parse(at, zone.zone(), "--at");
    try (ArticleLog log = ArticleLog.open(history.url)) {
      LoggedArticle old = Correction.old(log, corrects);
      LoggedArticle a =
          Recording.of(
              job.job(),
              article,
              terms,
              new Recording.Circumstances(
                  circumstances.machine(old),
                  when != null ? when : old != null ? old.measuredAt() : Instant.now(),
                  circumstances.conditions(old == null ? Conditions.UNKNOWN : old.conditions()),
                  circumstances.note(old),
                  entered.isEmpty() && old != null ? old.trims() : entered,
                  attached.isEmpty() && old != null ? old.attachments() : attached));
      long id =
          corrects == null
              ? log.record(a)
              : log.correct(corrects, a, Correction.reason(reason, spec));
      if (!quiet.given) {
        RecordWords.of(id, corrects, a, history.url).forEach(l -> say(l));
      }
    }
    return Main.DONE;
  }

  private void say(String line) {
    PrintWriter console = spec.commandLine().getOut();
    console.println(line);
  }
}
