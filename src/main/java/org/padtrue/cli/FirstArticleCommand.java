package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.padtrue.apply.AnalysisMatch;
import org.padtrue.apply.RoomMoves;
import org.padtrue.cli.option.ConsoleProgress;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.cli.option.ReportFolderOption;
import org.padtrue.load.corrected.CorrectedFileInputs;
import org.padtrue.load.job.JobLoader;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.text.Nearest;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.json.StoredCheck;
import org.padtrue.report.json.StoredRoom;
import org.padtrue.report.record.Attachment;
import org.padtrue.report.record.Attachments;
import org.padtrue.report.record.Conformity;
import org.padtrue.report.record.DecisionRule;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.FirstArticleRecords;
import org.padtrue.report.record.Identification;
import org.padtrue.report.record.IdentificationField;
import org.padtrue.report.record.IdentificationFile;
import org.padtrue.report.record.RecordOptions;
import org.padtrue.report.record.print.FirstArticleFiles;
import org.padtrue.report.record.print.Paper;
import org.padtrue.report.words.TextTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** A record to sign and file. */
@Command(
    name = "firstarticle",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Writes the first article record to sign and file: every placement's x, y and "
          + "rotation as a numbered characteristic with requirement, result, uncertainty and "
          + "conformity, with the field numbers of AS9102. Writes first-article.pdf, .csv and "
          + ".json into a folder."
    },
    footer = {
      "",
      "Fields that are not given are printed empty, to be filled in by hand. 'padtrue schema",
      "identification' lists them all. The record is of the article as it was measured; for a"
          + " panel",
      "placed with the trims, analyse that one and make its own record.",
      "",
      "Examples:",
      "  padtrue firstarticle job.json report/analysis.json --identification part.json",
      "  padtrue firstarticle job.json report/analysis.json --check report/check.json \\",
      "      --field serialNumber=P-0017 --attach article.csv --paper letter --out record"
    })
final class FirstArticleCommand implements Callable<Integer> {
  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "JOB", description = "Job file (JSON).")
  @SuppressWarnings("NullAway.Init")
  private Path jobFile;

  @Parameters(
      index = "1",
      paramLabel = "ANALYSIS.json",
      description = "The analysis.json that 'analyse' wrote for this job.")
  @SuppressWarnings("NullAway.Init")
  private Path analysisFile;

  @Option(
      names = "--identification",
      paramLabel = "FILE",
      description = "Part, process, people, tools (JSON).")
  private @Nullable Path identificationFile;

  @Option(
      names = "--field",
      paramLabel = "NAME=TEXT",
      description = "One field, before what the file says; may be repeated.")
  private Map<String, String> fields = new LinkedHashMap<>();

  @Option(
      names = "--check",
      paramLabel = "CHECK.json",
      description = "The check.json of a later article, placed with the trims.")
  private @Nullable Path checkFile;

  @Option(
      names = "--room",
      paramLabel = "ROOM.json",
      description =
          "The room.json whose moves the placement list carries: listed as deviations from the"
              + " design, with a line for who approved them.")
  private @Nullable Path roomFile;

  @Option(
      names = "--attach",
      paramLabel = "FILE",
      description = "A file that belongs to the record, by its SHA-256; may be repeated.")
  private List<Path> attach = new ArrayList<>();

  @Option(
      names = "--rule",
      paramLabel = "RULE",
      defaultValue = "simple",
      description = "Decision rule: simple or guarded. Default: ${DEFAULT-VALUE}.")
  @SuppressWarnings("NullAway.Init")
  private DecisionRule rule;

  @Option(
      names = "--coverage",
      paramLabel = "K",
      defaultValue = "2",
      description = "Coverage factor of the expanded uncertainty. Default: ${DEFAULT-VALUE}.")
  private double coverage;

  @Option(
      names = "--paper",
      paramLabel = "PAPER",
      defaultValue = "a4",
      description = "a4 or letter. Default: ${DEFAULT-VALUE}.")
  @SuppressWarnings("NullAway.Init")
  private Paper paper;

  @Mixin private final ReportFolderOption out = new ReportFolderOption();

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() {
    if (!(coverage > 0 && coverage <= 10)) {
      throw new ParameterException(
          spec.commandLine(), "--coverage " + coverage + " is no coverage factor; use 2 or 3");
    }
    LoadedJob job = JobLoader.loadWithFile(jobFile).orThrow();
    StoredAnalysis analysis = AnalysisJson.read(analysisFile);
    AnalysisMatch.require(analysis, job);
    RecordOptions options =
        RecordOptions.withDefaults()
            .with(identification())
            .with(rule)
            .withCoverageFactor(coverage)
            .with(checkFile == null ? null : StoredCheck.read(checkFile))
            .with(roomFile == null ? null : RoomMoves.of(job, StoredRoom.read(roomFile)).room())
            .withAttachments(attachments());
    FirstArticleRecord record = FirstArticleRecords.of(job.job(), analysis, options);
    ConsoleProgress progress = new ConsoleProgress(spec.commandLine().getErr(), quiet.given);
    progress.step("writing the record", 0, 1);
    FirstArticleFiles.write(record, paper, out.folder);
    progress.step("writing the record", 1, 1);
    if (!quiet.given) {
      print(record);
    }
    return Main.DONE;
  }

  private Identification identification() {
    Identification i =
        identificationFile == null
            ? Identification.none()
            : IdentificationFile.read(identificationFile).orThrow();
    for (Map.Entry<String, String> e : fields.entrySet()) {
      IdentificationField f = IdentificationField.parse(e.getKey()).orElse(null);
      if (f == null) {
        List<String> near = Nearest.of(e.getKey(), IdentificationField.keys(), 1);
        throw new ParameterException(
            spec.commandLine(),
            "--field "
                + e.getKey()
                + " is not known; "
                + (near.isEmpty()
                    ? "known are " + String.join(", ", IdentificationField.keys())
                    : "did you mean " + near.get(0)));
      }
      if (!e.getValue().isBlank()) {
        i = i.with(f, e.getValue().strip());
      }
    }
    return i;
  }

  private List<Attachment> attachments() {
    List<Attachment> all = new ArrayList<>();
    CorrectedFileInputs.of(jobFile)
        .forEach(f -> all.add(Attachments.of(f.equals(jobFile) ? "job" : "nominal", f)));
    all.add(Attachments.of("analysis", analysisFile));
    if (checkFile != null) {
      all.add(Attachments.of("check", checkFile));
    }
    if (roomFile != null) {
      all.add(Attachments.of("room", roomFile));
    }
    if (identificationFile != null) {
      all.add(Attachments.of("identification", identificationFile));
    }
    attach.forEach(a -> all.add(Attachments.of("attachment", a)));
    return all;
  }

  private void print(FirstArticleRecord r) {
    PrintWriter console = spec.commandLine().getOut();
    console.println(
        TextTable.plain(
            r.characteristics().size()
                + " characteristics: "
                + r.count(Conformity.WITHIN)
                + " within, "
                + (r.count(Conformity.OUTSIDE) + r.count(Conformity.CONDITIONALLY_OUTSIDE))
                + " outside, "
                + r.count(Conformity.CONDITIONALLY_WITHIN)
                + " within by less than the uncertainty, "
                + r.count(Conformity.SLIP)
                + " transcription errors, "
                + r.count(Conformity.NOT_MEASURED)
                + " not measured, "
                + r.count(Conformity.BY_LAND_FIT)
                + " limited by the land fit, "
                + r.count(Conformity.NO_LIMIT)
                + " without a limit"));
    console.println(
        "Sign it by hand; acceptance follows the customer's contract and the current standard.");
    console.println(
        "RECORD " + TextTable.plain(out.folder.resolve(FirstArticleFiles.PDF).toString()));
  }
}
