package org.padtrue.report.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.report.HostileResults;
import org.padtrue.report.SampleResults;

class ConsoleSummaryTest {
  private static final Path DIR = Path.of("out", "first");

  @Test
  void saysWhatToChangeWhatToExpectWhatIsAtRiskAndWhereTheReportIs() {
    List<String> lines = ConsoleSummary.of(SampleResults.of(360), DIR);
    String all = String.join("\n", lines);
    assertThat(all)
        .containsSubsequence(
            "demo-controller: 356 of 360 placements measured on 1 panel, 352 used, 4 left out",
            "CHANGE",
            "values to ADD",
            "registration",
            "-42",
            "+18",
            "panel rotation",
            "-0.02",
            "part type R0603",
            "+35",
            "-6",
            "scale of the axes, ppm",
            "-310",
            "board 3/2 origin",
            "one clear trim (0.2 mm)",
            "LIBRARY",
            "SOT23",
            "UNDECIDED",
            "part type CONN-8",
            "EXPECT",
            "next panel 63 um RMS if nothing is changed, 24 um with the trims; scatter alone"
                + " leaves",
            "RISK",
            "LEFT OUT",
            "1/1/J1 is turned by 90 degrees",
            "MEASURING",
            "measurement system conditionally acceptable",
            "CAUTION",
            "qualified person",
            "REPORT",
            DIR.resolve("report.html").toString());
  }

  @Test
  void leavingEverythingAloneIsSaidPlainly() {
    String all = String.join("\n", ConsoleSummary.of(SampleResults.nothingToDo(60), DIR));
    assertThat(all).contains("What is seen is scatter").contains("23 um RMS as measured");
    assertThat(all).doesNotContain("values to ADD").doesNotContain("with the trims");
  }

  @ParameterizedTest
  @ValueSource(ints = {20, 360, 1000})
  void fitsAScreenAndAnyConsole(int placements) {
    fits(ConsoleSummary.of(SampleResults.of(placements), DIR));
    fits(ConsoleSummary.of(SampleResults.ofPanels(placements, "P1", "P2", "P3"), DIR));
  }

  @Test
  void hostileNamesCannotColourTheTerminal() {
    List<String> lines = ConsoleSummary.of(HostileResults.of(SampleResults.of(60)), DIR);
    assertThat(lines).allMatch(l -> l.chars().allMatch(c -> c >= ' ' && c != 0x7f));
  }

  private static void fits(List<String> lines) {
    assertThat(lines).hasSizeLessThanOrEqualTo(34);
    assertThat(lines)
        .allSatisfy(
            l -> {
              assertThat(l.length()).as(l).isLessThanOrEqualTo(98);
              assertThat(l.chars().allMatch(c -> c >= ' ' && c < 0x7f)).as(l).isTrue();
            });
  }
}
