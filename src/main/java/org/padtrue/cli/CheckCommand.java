package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.apply.AnalysisMatch;
import org.padtrue.apply.RoomMoves;
import org.padtrue.apply.SecondArticleCheck;
import org.padtrue.check.TrimCheckFinding;
import org.padtrue.check.TrimCheckResult;
import org.padtrue.check.TrimCheckTerm;
import org.padtrue.cli.option.AsIsOption;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.cli.option.JsonOnlyOption;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.cli.option.ReportFolderOption;
import org.padtrue.load.article.ArticleLoader;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.WithProblems;
import org.padtrue.report.TrimCheckReport;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.json.StoredRoom;
import org.padtrue.report.words.TextTable;
import org.padtrue.report.words.TrimCheckWords;
import org.padtrue.report.words.Wrap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Did the trims do what was predicted. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Holds a second article, placed with the trims entered, against what the analysis "
          + "predicted: which trims held, and which look entered with the wrong sign, in the "
          + "wrong frame, twice or not at all. Writes check.json and check.html into a folder."
    },
    footer = {
      "",
      "JOB is the job that was analysed, with its placement file as it was, also when 'apply' has",
      "put trims into another one. The verdict does not change the exit code.",
      "",
      "Examples:",
      "  padtrue check job.json report/analysis.json second-panel.csv",
      "  padtrue check job.json report/analysis.json second-panel.csv --out report"
    })
final class CheckCommand implements Callable<Integer> {
  private static final int MOST_TERMS = 12;

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "JOB", description = "Job file (JSON).")
  @SuppressWarnings("NullAway.Init")
  private Path jobFile;

  @Parameters(
      index = "1",
      paramLabel = "ANALYSIS.json",
      description = "The analysis.json whose trims were entered.")
  @SuppressWarnings("NullAway.Init")
  private Path analysisFile;

  @Parameters(
      index = "2..*",
      arity = "1..*",
      paramLabel = "ARTICLE2",
      description = "Articles (CSV) that were placed with the trims.")
  @SuppressWarnings("NullAway.Init")
  private List<Path> articles;

  @Mixin private final ReportFolderOption out = new ReportFolderOption();

  @Option(
      names = "--room",
      paramLabel = "ROOM.json",
      description =
          "The placements were moved as well, as this room.json says: says whether the gaps are"
              + " there.")
  private @Nullable Path roomFile;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private AsIsOption asIs;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private JsonOnlyOption json;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    ConsoleProgress progress = new ConsoleProgress(spec.commandLine().getErr(), quiet.given);
    progress.step("reading " + jobFile, 0, 1);
    LoadedJob job = JobLoader.loadWithFile(jobFile).orThrow().asIs(asIs.given);
    StoredAnalysis analysis = AnalysisJson.read(analysisFile);
    AnalysisMatch.require(analysis, job);
    RoomMoves room = roomFile == null ? null : RoomMoves.of(job, StoredRoom.read(roomFile));
    List<Article> second = read(room == null ? job : room.moved(), progress);
    progress.step("checking", 0, 1);
    SecondArticleCheck checked =
        room == null
            ? SecondArticleCheck.of(job, analysis, second)
            : SecondArticleCheck.of(job, analysis, room, second);
    TrimCheckResult r = checked.result();
    TrimCheckReport.Head head = checked.head();
    if (json.given) {
      Path file = TrimCheckReport.writeJson(r, head, out.folder);
      if (!quiet.given) {
        spec.commandLine().getOut().println(file);
      }
      return Main.DONE;
    }
    TrimCheckReport.write(r, head, out.folder);
    if (!quiet.given) {
      print(r, spec.commandLine().getOut());
    }
    return Main.DONE;
  }

  private List<Article> read(LoadedJob job, ConsoleProgress progress) {
    List<Article> read = new ArrayList<>();
    List<Problem> problems = new ArrayList<>();
    for (Path a : articles) {
      progress.step("reading " + a, read.size(), articles.size());
      WithProblems<Article> w = ArticleLoader.load(a, job);
      read.add(w.value());
      problems.addAll(w.problems());
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return read;
  }

  private void print(TrimCheckResult r, PrintWriter console) {
    for (String line : TrimCheckWords.lines(r)) {
      console.println(TextTable.plain(line));
    }
    // what needs a hand first
    List<TrimCheckTerm> terms = new ArrayList<>(r.terms());
    terms.sort(
        Comparator.comparing(t -> t.kept() ? t.finding() == TrimCheckFinding.HELD ? 2 : 1 : 0));
    table(terms).forEach(console::println);
    List<String> todo =
        terms.stream()
            .limit(MOST_TERMS)
            .filter(t -> t.finding() != TrimCheckFinding.HELD)
            .map(t -> TextTable.plain(TrimCheckWords.term(t) + ": " + t.sentence() + "."))
            .toList();
    Wrap.say("FINDING", todo).forEach(console::println);
    if (!terms.isEmpty()) {
      Wrap.say("NUMBERS", numbers(terms)).forEach(console::println);
    }
    r.notes().stream()
        .flatMap(n -> Wrap.say("NOTE", TextTable.plain(n + ".")).stream())
        .forEach(console::println);
    if (!r.excluded().isEmpty()) {
      console.println(r.excluded().size() + " placements left out; check.html names them.");
    }
    for (String line : Wrap.say("CAUTION", TrimCheckReport.CAUTION)) {
      console.println(line);
    }
    console.println("REPORT     " + TextTable.plain(out.folder.resolve("check.html").toString()));
  }

  private static List<String> table(List<TrimCheckTerm> terms) {
    boolean turns = terms.stream().anyMatch(c -> c.turn() != null);
    TextTable t = new TextTable("  ", "ttttnn");
    t.row("trim", "finding", "predicted", "seen", "z", turns ? "turn" : "");
    for (TrimCheckTerm c : terms.subList(0, Math.min(MOST_TERMS, terms.size()))) {
      t.row(
          TrimCheckWords.term(c),
          TrimCheckWords.finding(c.finding()),
          TrimCheckWords.values(c, c.promised()),
          TrimCheckWords.values(c, c.seen()),
          TrimCheckWords.worst(c),
          TrimCheckWords.turned(c));
    }
    List<String> lines = new ArrayList<>(terms.isEmpty() ? List.of() : t.lines());
    if (terms.size() > MOST_TERMS) {
      lines.add("  and " + (terms.size() - MOST_TERMS) + " more in check.html");
    }
    return lines;
  }

  private static List<String> numbers(List<TrimCheckTerm> terms) {
    return terms.stream().anyMatch(c -> c.turn() != null)
        ? List.of(
            TrimCheckWords.NUMBERS,
            "Turn: whole turn in degrees that most of the type still show; 0 is right.")
        : List.of(TrimCheckWords.NUMBERS);
  }
}
