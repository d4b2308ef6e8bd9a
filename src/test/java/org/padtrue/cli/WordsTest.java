package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.words.WordScan;

/**
 * Consoles, reports, record and tables of the samples, scanned for what nobody of the trade says.
 */
class WordsTest {
  private static final String JOB = "samples/main-job/job.json";

  @TempDir private Path dir;

  private static void plain(Run r) {
    assertThat(r.code()).as(r.err()).isZero();
    assertThat(WordScan.faults(r.out())).as(r.out()).isEmpty();
  }

  private void page(String file) throws IOException {
    assertThat(WordScan.faultsOfPage(Files.readString(dir.resolve(file)))).as(file).isEmpty();
  }

  @Test
  void analysisReportAndTables() throws IOException {
    Run r = Run.of("analyse", JOB, "samples/main-job/article-1.csv", "--out", dir);
    plain(r);
    assertThat(r.out().lines().filter(l -> l.length() > 98)).isEmpty();
    assertThat(r.out())
        .contains("Behind +-: one standard error.")
        .contains("Rounding to the machine's steps leaves")
        .containsPattern(
            "registration +-60 \\+- \\d+ +\\+40 \\+- \\d+ +-0\\.035 \\+- 0\\.006 panel +\\d+")
        .doesNotContain("squareness, mrad")
        .contains("a moving gantry")
        .contains("measurement system conditionally acceptable")
        .doesNotContain("expected -");
    page("report.html");
    String text = WordScan.text(Files.readString(dir.resolve("report.html")));
    assertThat(text)
        .contains("Acceptance limits in use, class 2 (IPC-A-610)")
        .contains("chips 50 % of termination or land width, the lesser none published")
        .contains("from memory")
        .contains("measured minus nominal, plus = right, up, counter-clockwise as placed")
        .contains("Short-term machine performance index Pmk (ISO 22514-3)")
        .contains("Statistical tolerance interval (ISO 16269-6)")
        .contains("takes out most comes first");
    for (String csv : List.of("trims.csv", "residuals.csv")) {
      assertThat(WordScan.faults(Files.readString(dir.resolve(csv)).lines().findFirst().orElse("")))
          .as(csv)
          .isEmpty();
    }
  }

  /** What takes out most comes first, and each value stands beside its standard error. */
  @Test
  void theSheetIsInOrder() throws IOException {
    plain(Run.of("analyse", JOB, "samples/main-job/article-1.csv", "--out", dir));
    List<String> rows = Files.readAllLines(dir.resolve("trims.csv"));
    List<String> names = List.of(rows.get(0).split(",", -1));
    int takes = names.indexOf("takes_out_um_rms");
    double before = Double.POSITIVE_INFINITY;
    for (String row : rows.subList(1, rows.size())) {
      String[] c = row.replaceFirst(",\"panel origin.*|,\"sits.*", "").split(",", -1);
      if (c[names.indexOf("add_turn_deg")].isEmpty()) {
        double own = Double.parseDouble(c[takes]);
        assertThat(own).isPositive().isLessThanOrEqualTo(before);
        before = own;
        boolean x = !c[names.indexOf("add_x")].isEmpty();
        assertThat(c[names.indexOf("se_x")].isEmpty()).isNotEqualTo(x);
      }
    }
  }

  @Test
  void checkApplyRecord() throws IOException {
    Run check =
        Run.of("check", JOB, SampleRun.analysis(), "samples/main-job/article-2.csv", "--out", dir);
    plain(check);
    assertThat(check.out())
        .containsPattern("ADD x -120 um, y \\+80 um,\\s+rotation -1\\.2\\d+ deg")
        .containsPattern("The\\s+gantry moves")
        .containsOnlyOnce("CAUTION");
    page("check.html");
    Run apply = Run.of("apply", JOB, SampleRun.analysis(), "--out", dir.resolve("corrected.csv"));
    plain(apply);
    assertThat(apply.out())
        .contains("What was added is minus what was found")
        .contains("interlocks and")
        .containsOnlyOnce("CAUTION");
    plain(
        Run.of(
            "firstarticle",
            JOB,
            SampleRun.analysis(),
            "--check",
            dir.resolve("check.json"),
            "--out",
            dir));
    try (PDDocument pdf = Loader.loadPDF(dir.resolve("first-article.pdf").toFile())) {
      String text = new PDFTextStripper().getText(pdf);
      assertThat(WordScan.faults(text)).isEmpty();
      assertThat(text.replaceAll("\\s+", " "))
          .contains("published for chips")
          .contains("from memory for bottom terminations")
          .doesNotContain("Published limits");
    }
    List<String> csv = Files.readAllLines(dir.resolve("first-article.csv"));
    assertThat(WordScan.faults(String.join("\n", csv.subList(0, 200)))).isEmpty();
  }

  @Test
  void planGaugeInspect() {
    plain(Run.of("plan", JOB, "--count", "40"));
    plain(Run.of("gauge", "samples/gauge/repeats.csv", "--job", JOB));
    plain(Run.of("inspect", JOB));
    plain(Run.of("inspect", "samples/main-job/placements.csv"));
  }

  @Test
  void recordAndDrift() throws IOException {
    String log = dir.resolve("log.db").toString();
    plain(
        Run.of(
            "record",
            "samples/history/job.json",
            "--import",
            "samples/history/articles",
            "--conditions",
            "samples/history/conditions.csv",
            "--history",
            log));
    plain(
        Run.of(
            "record", JOB, "samples/main-job/article-1.csv", "--machine", "M9", "--history", log));
    plain(
        Run.of(
            "record",
            JOB,
            "samples/main-job/article-2.csv",
            "--machine",
            "M9",
            "--history",
            log,
            "--trims",
            SampleRun.analysis()));
    Run drift = Run.of("drift", "--machine", "M1", "--history", log, "--out", dir);
    plain(drift);
    assertThat(drift.out())
        .containsPattern("between\\s+published\\s+values")
        .containsOnlyOnce("CAUTION");
    page("drift.html");
  }

  /** The list of commands and every command's help end their sentences. */
  @Test
  void helpCutsNothing() {
    String top = Run.of("--help").out();
    assertThat(WordScan.faults(top)).isEmpty();
    String commands = top.substring(top.indexOf("Commands:") + 9);
    for (String entry : commands.strip().split("\n {2}(?=[a-z])")) {
      assertThat(entry.strip()).as(entry).matches("(?s).*[.?]");
      String name = entry.strip().split("\\s+")[0];
      assertThat(WordScan.faults(Run.of(name, "--help").out())).as(name).isEmpty();
    }
  }
}
