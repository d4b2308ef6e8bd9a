package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.padtrue.apply.AnalysisMatch;
import org.padtrue.apply.Chosen;
import org.padtrue.apply.CorrectedList;
import org.padtrue.apply.RoomMoves;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.cli.option.TrimKinds;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.load.corrected.CorrectedFile;
import org.padtrue.load.corrected.CorrectedFileChange;
import org.padtrue.load.corrected.CorrectedFileInputs;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.TrimKind;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.json.StoredRoom;
import org.padtrue.report.words.ResultWords;
import org.padtrue.report.words.TextTable;
import org.padtrue.report.words.Wrap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The user's own placement file with trims put into its coordinates. */
@Command(
    name = "apply",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Writes the job's placement file with trims added to x, y and rotation, all else "
          + "byte for byte.",
      "Part type trims only, unless --trims says otherwise: panel trims usually go into "
          + "the machine."
    },
    footer = {
      "",
      "Trims: registration, rotation, scale, array, common, rotationZero; part, nozzle and what"
          + " else",
      "the files list; 'placement' for what stands out but the machine does not accept as an",
      "offset; 'panel' for registration, rotation, scale and array; 'all'.",
      "What is put into the file must not be entered in the machine as well.",
      "",
      "Examples:",
      "  padtrue apply job.json report/analysis.json --out corrected.csv",
      "  padtrue apply job.json report/analysis.json --out corrected.csv --trims part,rotationZero",
      "  padtrue apply job.json report/analysis.json --out corrected.csv --trims part --refs R7,C3",
      "  padtrue apply job.json report/analysis.json --out corrected.csv --types R0603",
      "  padtrue apply job.json --room report/room.json --out corrected.csv"
    })
final class ApplyCommand implements Callable<Integer> {
  private static final int MOST_LINES = 12;

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "JOB", description = "Job file (JSON).")
  @SuppressWarnings("NullAway.Init")
  private Path jobFile;

  @Parameters(
      index = "1",
      arity = "0..1",
      paramLabel = "ANALYSIS.json",
      description =
          "The analysis.json that 'analyse' wrote for this job; may be left out with --room.")
  private @Nullable Path analysisFile;

  @Option(
      names = "--room",
      paramLabel = "ROOM.json",
      description = "Move placements as the room.json says that 'room' wrote for this job.")
  private @Nullable Path roomFile;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FILE",
      description = "The corrected placement file.")
  @SuppressWarnings("NullAway.Init")
  private Path out;

  @Option(
      names = "--trims",
      paramLabel = "KIND",
      split = ",",
      description = "Kinds of trim to put into the file. Default: part.")
  private List<String> trims = new ArrayList<>(List.of(TrimKind.PART.key()));

  @Option(
      names = "--refs",
      paramLabel = "REF",
      split = ",",
      description = "Correct these placements only (REF or COLUMN/ROW/REF).")
  private List<String> refs = new ArrayList<>();

  @Option(
      names = "--types",
      paramLabel = "PART",
      split = ",",
      description = "Correct placements of these part types only.")
  private List<String> types = new ArrayList<>();

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    Set<TrimKind> kinds = TrimKinds.parse("--trims", trims, spec.commandLine());
    LoadedJob job = JobLoader.loadWithFile(jobFile).orThrow();
    List<Path> inputs = CorrectedFileInputs.of(jobFile);
    if (analysisFile == null && roomFile == null) {
      throw new ParameterException(
          spec.commandLine(), "give the ANALYSIS.json whose trims to put in, or --room ROOM.json");
    }
    Stream.of(Optional.ofNullable(analysisFile), Optional.ofNullable(roomFile))
        .flatMap(Optional::stream)
        .forEach(inputs::add);
    CorrectedFile.refuseInput(out, inputs);
    StoredAnalysis analysis = analysisFile == null ? null : AnalysisJson.read(analysisFile);
    if (analysis != null) {
      AnalysisMatch.require(analysis, job);
    }
    RoomMoves room = roomFile == null ? null : RoomMoves.of(job, StoredRoom.read(roomFile));
    Chosen chosen = new Chosen(refs, types);
    chosen.require(job, "--refs", "--types");
    CorrectedList list = CorrectedList.of(job, analysis, kinds, chosen, room);
    list.file().write(out, inputs);
    if (!quiet.given) {
      print(job, list, room);
    }
    return Main.DONE;
  }

  private void print(LoadedJob job, CorrectedList list, @Nullable RoomMoves room) {
    CorrectedFile file = list.file();
    PrintWriter console = spec.commandLine().getOut();
    console.println(
        TextTable.plain(
            out
                + ": "
                + file.changes().size()
                + " of "
                + job.placed().size()
                + " rows of the placed side changed, all else as in "
                + job.placements().name()));
    if (job.placements().standard().isPresent()) {
      console.println(
          "Written as a table (CSV: ref, part, x, y, rotation, side, value; mm, as seen from the"
              + " top); boards and fiducials stay in "
              + job.placements().name()
              + ", so give them in the job's \"panel\" where the table takes its place.");
    }
    if (room != null) {
      console.println(
          list.moved()
              + " placements moved to make room: deviations from the design, to be approved.");
      room.room().unsolved().stream()
          .flatMap(u -> Wrap.say("LEFT OUT", TextTable.plain(u + ".")).stream())
          .forEach(console::println);
    }
    levels(list.levels()).forEach(console::println);
    changes(file.changes()).forEach(console::println);
    list.undecided().forEach((k, d) -> console.println(undecided(k, d)));
    if (!list.originMoves().isEmpty()) {
      console.println(
          "Turned and stretched about each board's own origin; ADD to the origins too, mm: "
              + String.join(", ", list.originMoves()));
    }
    if (!list.forMachine().isEmpty()) {
      console.println(
          TextTable.plain("For the machine: " + String.join(", ", list.forMachine()) + "."));
    }
    if (!list.levels().isEmpty()) {
      Wrap.say("SIGNS", CorrectedList.SIGNS).forEach(console::println);
    }
    if (!file.changes().isEmpty()) {
      Wrap.say("CAUTION", CorrectedList.CAUTION).forEach(console::println);
    }
  }

  private static String name(TrimKind k) {
    return ResultWords.trimKind(k.key());
  }

  private static List<String> levels(List<GroupResult> levels) {
    boolean turns = levels.stream().anyMatch(g -> g.trim().turn() != 0);
    TextTable t = new TextTable("  ", "ttnnnnn");
    t.row(
        "added",
        "frame",
        "x, mm",
        "y, mm",
        "rotation, deg",
        turns ? "turn, deg" : "",
        "placements seen");
    for (GroupResult g : levels.subList(0, Math.min(MOST_LINES, levels.size()))) {
      Xyr v = g.trim().value();
      t.row(
          g.named().words(),
          g.frame(),
          added(v.x(), "%+.3f"),
          added(v.y(), "%+.3f"),
          added(v.rotation(), "%+.2f"),
          turns ? Integer.toString(g.trim().turn()) : "",
          Integer.toString(g.count()));
    }
    List<String> lines = new ArrayList<>(levels.isEmpty() ? List.of() : t.lines());
    if (levels.size() > MOST_LINES) {
      lines.add("  and " + (levels.size() - MOST_LINES) + " more");
    }
    return lines;
  }

  private static String added(double v, String format) {
    return Double.isNaN(v) ? "" : v == 0 ? "0" : String.format(Locale.ROOT, format, v);
  }

  /** The first few rows before and after, to compare with the file. */
  private static List<String> changes(List<CorrectedFileChange> all) {
    TextTable t = new TextTable("  ", "nttt");
    t.row("line", "ref", "was (x, y, rotation, as the file counts)", "is now");
    for (CorrectedFileChange ch : all.subList(0, Math.min(3, all.size()))) {
      t.row(Integer.toString(ch.line()), ch.ref(), ch.before(), ch.after());
    }
    return all.isEmpty() ? List.of() : t.lines();
  }

  /** Why a kind that was asked for changes nothing. */
  private static String undecided(TrimKind k, Decision d) {
    return switch (d) {
      case TRIM -> throw new IllegalArgumentException("trimmed");
      case LEAVE -> name(k) + ": the analysis leaves it alone.";
      case CANNOT_TELL -> name(k) + ": the analysis cannot tell.";
      case NOT_ACCEPTED ->
          name(k) + ": not accepted by the machine; --trims placement puts it into the file.";
    };
  }
}
