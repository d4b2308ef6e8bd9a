package org.padtrue.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.problem.InputException;
import org.padtrue.report.file.Progress;
import org.padtrue.report.plot.ink.ChartFormat;

class AnalysisReportTest {
  @TempDir Path folder;

  @Test
  void writesEveryFileAndNothingElse() throws IOException {
    Path out = folder.resolve("deep/er/out");
    List<String> steps = new ArrayList<>();
    List<Path> files =
        AnalysisReport.write(
            SampleResults.of(60),
            out,
            ChartFormat.shown(),
            (step, done, total) -> steps.add(step + done + "/" + total));
    assertThat(files)
        .contains(
            out.resolve("analysis.json"),
            out.resolve("trims.csv"),
            out.resolve("residuals.csv"),
            out.resolve("report.html"),
            out.resolve("charts/map-before.svg"));
    assertThat(files).allMatch(Files::isRegularFile);
    assertThat(files(out)).containsExactlyInAnyOrderElementsOf(files);
    assertThat(steps).contains("drawing charts1/13", "drawing charts13/13");
  }

  @Test
  void writesOverAnOlderReport() throws IOException {
    AnalysisReport.write(SampleResults.of(60), folder, ChartFormat.shown(), Progress.SILENT);
    byte[] before = Files.readAllBytes(folder.resolve("trims.csv"));
    AnalysisReport.write(
        SampleResults.nothingToDo(60), folder, ChartFormat.shown(), Progress.SILENT);
    assertThat(Files.readAllBytes(folder.resolve("trims.csv"))).isNotEqualTo(before);
  }

  @Test
  void theSameResultGivesTheSameTables() throws IOException {
    AnalysisReport.write(
        SampleResults.of(60), folder.resolve("a"), ChartFormat.shown(), Progress.SILENT);
    AnalysisReport.write(
        SampleResults.of(60), folder.resolve("b"), ChartFormat.shown(), Progress.SILENT);
    for (String f : List.of("analysis.json", "trims.csv", "residuals.csv", "charts/normal.svg")) {
      assertThat(folder.resolve("a/" + f)).hasSameBinaryContentAs(folder.resolve("b/" + f));
    }
  }

  @Test
  void aFileInPlaceOfTheFolderIsOneSentence() throws IOException {
    Path out = Files.writeString(folder.resolve("out"), "mine");
    assertThatThrownBy(
            () ->
                AnalysisReport.write(
                    SampleResults.of(20), out, ChartFormat.shown(), Progress.SILENT))
        .isInstanceOf(InputException.class)
        .hasMessage(
            out.resolve("analysis.json")
                + ": the file cannot be written (something else of that name is in the way);"
                + " choose another folder with --out");
    assertThat(files(folder)).containsExactly(out);
    assertThat(out).hasContent("mine");
  }

  @Test
  void whenTheChartsCannotBeWrittenNothingIsAndAnOlderReportStays() throws IOException {
    Path charts = Files.writeString(folder.resolve("charts"), "mine");
    Path older = Files.writeString(folder.resolve("analysis.json"), "older");
    assertThatThrownBy(
            () ->
                AnalysisReport.write(
                    SampleResults.of(20), folder, ChartFormat.shown(), Progress.SILENT))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("something else of that name is in the way");
    assertThat(files(folder)).containsExactlyInAnyOrder(charts, older);
    assertThat(older).hasContent("older");
  }

  @Test
  void foldersMadeForAReportThatFailsAreTakenAwayAgain() throws IOException {
    Path out = folder.resolve("new/one");
    Progress fails =
        (step, done, total) -> {
          throw new IllegalStateException("stop");
        };
    assertThatThrownBy(
            () -> AnalysisReport.write(SampleResults.of(20), out, ChartFormat.shown(), fails))
        .isInstanceOf(IllegalStateException.class)
        .hasMessage("stop");
    assertThat(folder.resolve("new")).doesNotExist();
  }

  @Test
  void aReadOnlyFolderIsOneSentence() {
    Path out = folder.resolve("locked");
    assertThat(out.toFile().mkdir()).isTrue();
    assertThat(out.toFile().setWritable(false)).isTrue();
    // an administrator may write anywhere: then there is nothing to see here
    assumeFalse(Files.isWritable(out));
    assertThatThrownBy(
            () ->
                AnalysisReport.write(
                    SampleResults.of(20), out, ChartFormat.shown(), Progress.SILENT))
        .isInstanceOf(InputException.class)
        .hasMessage(
            out.resolve("analysis.json")
                + ": the file cannot be written (no right to); choose another folder with --out");
  }

  private static List<Path> files(Path in) throws IOException {
    try (Stream<Path> s = Files.walk(in)) {
      return s.filter(Files::isRegularFile).toList();
    }
  }
}
