package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.panel.Factor;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.json.StoredGroups;

/** {@code apply} on files, and the loop closed with a line that places what the file says. */
class ApplyCommandTest {
  /** Three standard errors of a type's mean (2 um / sqrt 16), and half a step of the file. */
  private static final double LEFT_MM = 0.002;

  private static final double LEFT_DEG = 0.015;

  @TempDir private Path dir;

  private Path job;
  private Path article;

  private static LineSimulation line() {
    LineSimulation s = new LineSimulation(7, 48, "R0603", "C0402", "SOT23");
    s.offset.put("R0603", new double[] {0.050, -0.030, 0.40});
    s.offset.put("C0402", new double[] {-0.040, 0.020, -0.30});
    s.offset.put("SOT23", new double[] {0.010, 0.060, -0.10});
    return s;
  }

  private void files(LineSimulation s) {
    LineSimulation.write(dir.resolve("p.csv"), s.placements());
    job = LineSimulation.write(dir.resolve("job.json"), s.job("line", "p.csv"));
    article = LineSimulation.write(dir.resolve("a1.csv"), s.article(s.placements(), 1));
  }

  private StoredAnalysis analyse(Path what, String name) {
    return Run.analyse(job, what, dir.resolve(name));
  }

  private String apply(String... more) throws IOException {
    Path out = dir.resolve("corrected.csv");
    Object[] args = new Object[5 + more.length];
    args[0] = "apply";
    args[1] = job;
    args[2] = dir.resolve("r1").resolve("analysis.json");
    args[3] = "--out";
    args[4] = out;
    System.arraycopy(more, 0, args, 5, more.length);
    Run r = Run.of(args);
    assertThat(r.err()).isEmpty();
    assertThat(r.code()).isZero();
    return Files.readString(out);
  }

  private static double[] offset(StoredAnalysis a, String part) {
    var g = StoredGroups.of(a, Factor.PART, part).orElseThrow();
    return new double[] {g.leastSquares().x(), g.leastSquares().y(), g.leastSquares().rotation()};
  }

  @ParameterizedTest
  @CsvSource({
    "false, false, false, false",
    "false, false, true, false",
    "false, false, false, true",
    "false, false, true, true",
    "true, false, false, false",
    "true, true, false, false",
    "true, false, true, false",
    "true, false, false, true",
    "true, true, true, true"
  })
  void trimsAreTakenOutAndAWrongSignWouldDoubleThem(
      boolean bottom, boolean fromBottom, boolean yDown, boolean clockwise) throws IOException {
    LineSimulation s = line();
    s.bottom = bottom;
    s.fromBottom = fromBottom;
    s.yDown = yDown;
    s.clockwise = clockwise;
    files(s);
    analyse(article, "r1");
    String corrected = apply();
    assertThat(corrected.lines().filter(l -> l.startsWith("X1")))
        .containsExactly("X1,other,3.0,4.0,90," + (bottom ? "T" : "B") + ",N1");

    Path right = LineSimulation.write(dir.resolve("a2.csv"), s.article(corrected, 1));
    StoredAnalysis after = analyse(right, "r2");
    Path wrong = LineSimulation.write(dir.resolve("a3.csv"), s.article(corrected, -1));
    StoredAnalysis doubled = analyse(wrong, "r3");
    s.offset.forEach(
        (type, o) -> {
          double[] left = offset(after, type);
          double[] twice = offset(doubled, type);
          for (int k = 0; k < 3; k++) {
            double tol = k < 2 ? LEFT_MM : LEFT_DEG;
            assertThat(left[k]).as(type + " " + k).isBetween(-tol, tol);
            assertThat(twice[k])
                .as(type + " doubled " + k)
                .isBetween(2 * o[k] - 2 * tol, 2 * o[k] + 2 * tol);
          }
        });
  }

  @Test
  void panelTrimsAreTakenOutOfAFileOfOneBoard() throws IOException {
    LineSimulation s = line();
    s.shiftX = 0.08;
    s.shiftY = -0.05;
    s.turnDeg = 0.1;
    files(s);
    StoredAnalysis before = analyse(article, "r1");
    assertThat(before.batchTrim().rotation().decision()).isEqualTo(Decision.TRIM);
    String corrected = apply("--trims", "panel,part,rotationZero");
    StoredAnalysis after =
        analyse(LineSimulation.write(dir.resolve("a2.csv"), s.article(corrected, 1)), "r2");
    var p = after.panels().get(0);
    // Of 94 um the share 2 (12 um)^2 / (94 um)^2 is kept back: nobody says how well it repeats.
    assertThat(Math.abs(p.shiftAtCentroid().x())).isLessThan(0.002 + 0.0034);
    assertThat(Math.abs(p.shiftAtCentroid().y())).isLessThan(0.002 + 0.0034);
    // 0.01 degrees is the machine's step; the article's own error is 2 um over 40 mm.
    assertThat(Math.abs(p.transform().rotation())).isLessThan(0.012);
  }

  @Test
  void everyCopyOfAWholePanelFileGetsItsOwnCorrection() throws IOException {
    LineSimulation s = line();
    s.boards = 3;
    s.wholePanel = true;
    s.turnDeg = 0.1;
    files(s);
    analyse(article, "r1");
    String corrected = apply("--trims", "registration,rotation,part");
    StoredAnalysis after =
        analyse(LineSimulation.write(dir.resolve("a2.csv"), s.article(corrected, 1)), "r2");
    // One more step of turn over 120 mm would show as 20 um.
    assertThat(Math.abs(after.panels().get(0).transform().rotation())).isLessThan(0.008);
    after
        .placements()
        .forEach(
            r -> assertThat(Math.hypot(r.deviation().x(), r.deviation().y())).isLessThan(0.03));
  }

  @Test
  void aFileOfOneBoardForSeveralTurnsAboutTheBoardsOwnOrigin() throws IOException {
    LineSimulation s = line();
    s.boards = 3;
    s.turnDeg = 0.1;
    files(s);
    StoredAnalysis a = analyse(article, "r1");
    Run r =
        Run.of(
            "apply",
            job,
            dir.resolve("r1").resolve("analysis.json"),
            "--out",
            dir.resolve("c.csv"),
            "--trims",
            "rotation");
    assertThat(r.code()).isZero();
    double phi = Math.toRadians(a.batchTrim().rotation().value());
    assertThat(r.out())
        .contains(
            String.format(
                Locale.ROOT,
                "board 3/1 x %+.4f, y %+.4f",
                (Math.cos(phi) - 1) * 100,
                Math.sin(phi) * 100))
        .doesNotContain("board 1/1 x");
    List<String> was = Files.readAllLines(dir.resolve("p.csv"));
    List<String> now = Files.readAllLines(dir.resolve("c.csv"));
    String[] p = was.get(2).split(",");
    String[] q = now.get(2).split(",");
    double x = Double.parseDouble(p[2]);
    double y = Double.parseDouble(p[3]);
    assertThat(Double.parseDouble(q[2])).isBetween(x - phi * y - 6e-4, x - phi * y + 6e-4);
    assertThat(Double.parseDouble(q[3])).isBetween(y + phi * x - 6e-4, y + phi * x + 6e-4);
  }

  @Test
  void arrayTrimsAreRefusedForAFileOfOneBoard() throws IOException {
    LineSimulation s = line();
    s.boards = 3;
    files(s);
    StoredAnalysis a = analyse(article, "r1");
    Path json = dir.resolve("r1").resolve("analysis.json");
    String text = Files.readString(json);
    // The board array of the simulation is true; the trim is put in by hand.
    String trimmed =
        text.replaceFirst(
            "\"array\": \\{ \"boards\": \\[[^]]*\\], \"decision\": \"[a-zA-Z]*\"",
            "\"array\": {\"boards\": [{\"column\": 3, \"row\": 1, \"x\": 100.06, \"y\": 0}],"
                + " \"decision\": \"trim\"");
    assertThat(trimmed).isNotEqualTo(text);
    LineSimulation.write(json, trimmed);
    Path out = dir.resolve("c.csv");
    Run r = Run.of("apply", job, json, "--out", out, "--trims", "part,array");
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err())
        .isEqualTo(
            dir.resolve("p.csv")
                + ": array trims move whole boards against each other, and this file gives one"
                + " board for all 3; enter it in the machine: board 3/1 at (100.060, 0.000) and"
                + " leave 'array' out of --trims, or give a file of the whole panel"
                + System.lineSeparator());
    assertThat(out).doesNotExist();
    assertThat(a.placements()).hasSize(144);
  }

  @Test
  void whatTheMachineDoesNotAcceptComesAsCoordinates() throws IOException {
    LineSimulation s = line();
    s.nozzle2X = 0.05;
    s.machine = ", \"machine\": {\"accepts\": [\"placement\"]}";
    s.shiftX = 0.06;
    files(s);
    StoredAnalysis before = analyse(article, "r1");
    assertThat(StoredGroups.of(before, Factor.PART, "R0603").orElseThrow().trim().decision())
        .isEqualTo(Decision.NOT_ACCEPTED);
    assertThat(apply()).isEqualTo(s.placements());
    String corrected = apply("--trims", "placement");
    StoredAnalysis after =
        analyse(LineSimulation.write(dir.resolve("a2.csv"), s.article(corrected, 1)), "r2");
    after
        .placements()
        .forEach(
            r -> assertThat(Math.hypot(r.deviation().x(), r.deviation().y())).isLessThan(0.012));
  }

  @Test
  void singlePlacementsAndTypesCanBeChosen() throws IOException {
    LineSimulation s = line();
    files(s);
    analyse(article, "r1");
    List<String> was = s.placements().lines().toList();
    List<String> one = apply("--refs", "R1,R5").lines().toList();
    for (int i = 0; i < was.size(); i++) {
      boolean changed = was.get(i).startsWith("R1,") || was.get(i).startsWith("R5,");
      assertThat(one.get(i).equals(was.get(i))).as(was.get(i)).isEqualTo(!changed);
    }
    List<String> type = apply("--types", "C0402").lines().toList();
    for (int i = 2; i < was.size(); i++) {
      boolean changed = was.get(i).contains(",C0402,");
      assertThat(type.get(i).equals(was.get(i))).as(was.get(i)).isEqualTo(!changed);
    }
    Run r =
        Run.of(
            "apply",
            job,
            dir.resolve("r1").resolve("analysis.json"),
            "--out",
            dir.resolve("x.csv"),
            "--refs",
            "R1,R99");
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err())
        .isEqualTo(
            dir.resolve("p.csv")
                + ": there is no placement 'R99' on the placed side; correct --refs"
                + System.lineSeparator());
  }

  @Test
  void badInputEndsWithOneSentenceAndNoFile() throws IOException {
    LineSimulation s = line();
    files(s);
    analyse(article, "r1");
    Path json = dir.resolve("r1").resolve("analysis.json");
    Path out = dir.resolve("c.csv");
    String text = Files.readString(json);

    refused(
        Run.of("apply", job, json, "--out", dir.resolve("p.csv")),
        dir.resolve("p.csv") + ": this is the input");
    refused(Run.of("apply", job, json, "--out", job), job + ": this is the input");
    refused(Run.of("apply", job, json, "--out", json), json + ": this is the input");
    refused(
        Run.of("apply", job, json, "--out", out, "--trims", "parts"),
        "padtrue: --trims names 'parts'; expected some of registration, rotation,");
    refused(
        Run.of("apply", job, dir.resolve("no.json"), "--out", out), dir.resolve("no.json") + ": ");

    Path other = dir.resolve("other.json");
    LineSimulation.write(other, text.replace("padtrue/analysis/1", "padtrue/analysis/9"));
    refused(
        Run.of("apply", job, other, "--out", out),
        other + ": the schema is 'padtrue/analysis/9', expected 'padtrue/analysis/1'");
    LineSimulation.write(other, text.replace("\"job\": \"line\"", "\"job\": \"batch 8\""));
    refused(
        Run.of("apply", job, other, "--out", out),
        other + ": this is the analysis of job 'batch 8', not of 'line'; ");

    String placements = s.placements();
    LineSimulation.write(dir.resolve("p.csv"), placements.replaceAll("R7,[^\n]*\n", ""));
    refused(
        Run.of("apply", job, json, "--out", out),
        dir.resolve("p.csv")
            + ": 1 placement of the analysis is not in this job any more (1/1/R7); analyse again");
    LineSimulation.write(dir.resolve("p.csv"), placements.replaceFirst("R2,C0402,", "R2,R0603,"));
    refused(
        Run.of("apply", job, json, "--out", out),
        dir.resolve("p.csv") + ", line 4: R2 is a 'R0603' on the panel, but was a 'C0402' when it");
    assertThat(out).doesNotExist();

    LineSimulation.write(dir.resolve("p.csv"), placements);
    String corrected = apply();
    LineSimulation.write(dir.resolve("p.csv"), corrected);
    refused(
        Run.of("apply", job, json, "--out", out),
        dir.resolve("p.csv") + ", line 3: R1 stands at (");
    assertThat(out).doesNotExist();
  }

  private static void refused(Run r, String begins) {
    assertThat(r.err()).startsWith(begins);
    assertThat(r.err().lines()).hasSize(1);
    assertThat(r.code()).isEqualTo(2);
  }
}
