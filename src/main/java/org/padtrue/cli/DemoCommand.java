package org.padtrue.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.padtrue.apply.RoomAnswer;
import org.padtrue.cli.option.ChartsOption;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.load.job.JobLoader;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.AnalysisReport;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.words.ConsoleSummary;
import org.padtrue.report.words.RoomWords;
import org.padtrue.report.words.Wrap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Runs the main job on the sample that comes with the program. */
@Command(
    name = "demo",
    mixinStandardHelpOptions = true,
    description = "Runs the main job on the bundled sample and says where the report is.",
    footer = {"", "Example:", "  padtrue demo --out reports/demo"})
final class DemoCommand implements Callable<Integer> {
  private static final String BASE = "/org/padtrue/samples/main-job/";
  private static final List<String> FILES =
      List.of("job.json", "placements.csv", "parts.json", "article-1.csv");

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Folder for the results. Default: ${DEFAULT-VALUE}.",
      defaultValue = "reports/demo")
  @SuppressWarnings("NullAway.Init")
  private Path out;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private ChartsOption charts;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() throws IOException {
    Set<ChartFormat> formats = charts.formats();
    PrintWriter console = spec.commandLine().getOut();
    ConsoleProgress progress = new ConsoleProgress(spec.commandLine().getErr(), quiet.given);
    Path work = Files.createTempDirectory("padtrue-demo");
    try {
      for (String f : FILES) {
        copy(f, work);
      }
      FirstArticleResult r =
          AnalyseCommand.analyse(
              work.resolve("job.json"),
              List.of(work.resolve("article-1.csv")),
              AnalysisOptions.withDefaults(),
              progress);
      AnalysisReport.write(r, out, formats, progress::step);
      RoomAnswer room =
          RoomAnswer.of(
              JobLoader.loadWithFile(work.resolve("job.json")).orThrow(),
              RoomAnswer.Asked.withDefaults(),
              RoomAnswer.Analysed.of(r));
      List<Path> files = room.write(out);
      if (!quiet.given) {
        ConsoleSummary.of(r, out).forEach(console::println);
        Wrap.say("ROOM", RoomWords.answer(room.result(), room.options(), room.head()))
            .forEach(console::println);
        console.println("           " + files.get(files.size() - 1));
      }
    } finally {
      delete(work);
    }
    return Main.DONE;
  }

  private static void copy(String file, Path to) throws IOException {
    try (InputStream in = DemoCommand.class.getResourceAsStream(BASE + file)) {
      if (in == null) {
        throw new InputException(
            Problem.of(file, "the sample is not on the class path", "build the program again"));
      }
      Files.copy(in, to.resolve(file));
    }
  }

  private static void delete(Path dir) throws IOException {
    try (Stream<Path> s = Files.walk(dir)) {
      for (Path p : s.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(p);
      }
    }
  }
}
