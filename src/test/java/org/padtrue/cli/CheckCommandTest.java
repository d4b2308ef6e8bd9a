package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code check} on files: the sample's second article, and the loop closed through 'apply'. */
class CheckCommandTest {
  private static final Path SAMPLE = Path.of("samples", "main-job");
  private static final Path JOB = SAMPLE.resolve("job.json");

  @TempDir private static Path shared;
  private static Path analysis;

  @TempDir private Path dir;

  @BeforeAll
  static void analyseTheSampleOnce() {
    Run.analyse(JOB, SAMPLE.resolve("article-1.csv"), shared);
    analysis = shared.resolve("analysis.json");
  }

  private Run check(Path job, Path stored, Path article) {
    return Run.of("check", job, stored, article, "--out", dir.resolve("out"));
  }

  private JsonNode written() throws IOException {
    return new ObjectMapper().readTree(Files.readAllBytes(dir.resolve("out/check.json")));
  }

  private static Map<String, String> findings(JsonNode c) {
    Map<String, String> f = new TreeMap<>();
    c.path("terms").forEach(t -> f.put(t.path("term").asText(), t.path("finding").asText()));
    return f;
  }

  // ---- the sample ----

  /** Its second panel was placed with the trims of SOIC8 entered with the wrong sign. */
  @Test
  void sampleShowsTheOneSlip() throws IOException {
    Run r = check(JOB, analysis, SAMPLE.resolve("article-2.csv"));
    assertThat(r.code()).as(r.err()).isZero();
    assertThat(r.err()).isEmpty();
    JsonNode c = written();
    assertThat(c.path("verdict").asText()).isEqualTo("partly");
    Map<String, String> f = findings(c);
    assertThat(f).containsEntry("part SOIC8", "wrongSign");
    f.remove("part SOIC8");
    assertThat(f)
        .containsEntry("shift", "held")
        .containsEntry("rotation", "held")
        .containsEntry("scale", "held")
        .containsEntry("part SOT23", "held")
        .containsEntry("part QFN32", "held")
        .containsEntry("nozzle N2", "held");
    assertThat(f.values()).allMatch(x -> x.equals("held") || x.equals("cannotTell"));
    assertThat(r.out()).contains("Partly", "part type SOIC8", "wrong sign", "check.html");
    assertThat(r.out().lines().count()).isLessThan(32);
    assertThat(r.out().lines().mapToInt(String::length).max().orElse(0)).isLessThan(99);
    String html = Files.readString(dir.resolve("out/check.html"));
    assertThat(html)
        .contains("part type SOIC8", "wrong sign")
        .doesNotContain("src=\"http", "@import");
  }

  /** Every key that other programs may rely on; an axis that a term has not is null. */
  @Test
  void keysAreThoseOfTheContract() throws IOException {
    check(JOB, analysis, SAMPLE.resolve("article-2.csv"));
    JsonNode c = written();
    assertThat(c.path("schema").asText()).isEqualTo("padtrue/check/1");
    assertThat(c.path("chiSquare").isNumber()).isTrue();
    assertThat(c.path("degreesOfFreedom").isIntegralNumber()).isTrue();
    assertThat(c.path("p").isNumber()).isTrue();
    assertThat(c.path("terms").size()).isGreaterThan(5);
    for (JsonNode t : c.path("terms")) {
      for (String k : List.of("promised", "seen", "z")) {
        for (String axis : List.of("x", "y", "rotation")) {
          JsonNode v = t.path(k).path(axis);
          assertThat(v.isNumber() || v.isNull()).as(t + " " + k + " " + axis).isTrue();
        }
      }
      assertThat(t.path("term").asText())
          .matches("shift|rotation|scale|common|rotationZero|(part|nozzle) \\S+");
    }
    JsonNode shift = c.at("/terms/0");
    assertThat(shift.at("/term").asText()).isEqualTo("shift");
    assertThat(shift.at("/z/x").isNumber()).isTrue();
    assertThat(shift.at("/z/rotation").isNull()).isTrue();
    assertThat(Files.readString(dir.resolve("out/check.json"))).doesNotContain("NaN", "Infinity");
    // 'seen' of a wrong sign: planted offset and as much again by the trim
    for (JsonNode t : c.path("terms")) {
      if (t.path("term").asText().equals("part SOIC8")) {
        assertThat(t.at("/seen/x").asDouble()).isBetween(0.10, 0.14);
        assertThat(t.at("/seen/y").asDouble()).isBetween(-0.10, -0.05);
        assertThat(t.at("/seen/rotation").asDouble()).isBetween(1.0, 1.5);
      }
    }
  }

  @Test
  void sameInputSameResult() throws IOException {
    check(JOB, analysis, SAMPLE.resolve("article-2.csv"));
    String once = Files.readString(dir.resolve("out/check.json"));
    check(JOB, analysis, SAMPLE.resolve("article-2.csv"));
    assertThat(Files.readString(dir.resolve("out/check.json"))).isEqualTo(once);
  }

  // ---- a line that places what the corrected file says ----

  private static LineSimulation line() {
    LineSimulation s = new LineSimulation(11, 80, "R0603", "C0402", "SOT23", "SOD123");
    s.scatter = 0.020;
    s.rotationScatter = 0.1;
    s.offset.put("R0603", new double[] {0.060, -0.040, 0.5});
    s.offset.put("C0402", new double[] {-0.055, 0.045, -0.4});
    s.offset.put("SOT23", new double[] {0.010, 0.075, 0.3});
    s.offset.put("SOD123", new double[] {-0.015, -0.080, -0.4});
    s.machine = ", \"machine\": {\"panelRepeatability\": {\"x\": 0.01, \"y\": 0.01}}";
    return s;
  }

  private Path analysed(LineSimulation s) {
    LineSimulation.write(dir.resolve("p.csv"), s.placements());
    Path job = LineSimulation.write(dir.resolve("job.json"), s.job("line", "p.csv"));
    Path first = LineSimulation.write(dir.resolve("a1.csv"), s.article(s.placements(), 1));
    Run.analyse(job, first, dir.resolve("r1"));
    return job;
  }

  /** All type trims together: share 1 right, -1 wrong sign, 0 not entered, 2 in two places. */
  private JsonNode closed(LineSimulation s, double share) throws IOException {
    Path job = analysed(s);
    Path stored = dir.resolve("r1/analysis.json");
    Path file = dir.resolve("corrected.csv");
    assertThat(Run.of("apply", job, stored, "--out", file).code()).isZero();
    Path second =
        LineSimulation.write(dir.resolve("a2.csv"), s.article(Files.readString(file), share));
    Run r = check(job, stored, second);
    assertThat(r.code()).as(r.err()).isZero();
    return written();
  }

  private static void assertParts(JsonNode c, String finding) {
    List<String> found = new ArrayList<>();
    findings(c).forEach((k, v) -> found.add(k.startsWith("part ") ? v : finding));
    assertThat(found).hasSizeGreaterThanOrEqualTo(4).containsOnly(finding);
  }

  @Test
  void trimsInTheFileHold() throws IOException {
    JsonNode c = closed(line(), 1);
    assertThat(c.path("verdict").asText()).isEqualTo("held");
    assertParts(c, "held");
  }

  @Test
  void everySignWrong() throws IOException {
    JsonNode c = closed(line(), -1);
    assertThat(c.path("verdict").asText()).isEqualTo("notHeld");
    assertParts(c, "wrongSign");
  }

  @Test
  void nothingEnteredOnABottomSideWithYDown() throws IOException {
    LineSimulation s = line();
    s.bottom = true;
    s.yDown = true;
    assertParts(closed(s, 0), "notEntered");
  }

  @Test
  void enteredInTheFileAndInTheMachine() throws IOException {
    assertParts(closed(line(), 2), "enteredTwice");
  }

  // ---- what bad input gets ----

  private void refused(Run r, String... words) {
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.out()).isEmpty();
    assertThat(r.err()).contains(words).doesNotContain("Exception");
    assertThat(r.err().lines().count()).isEqualTo(1);
    assertThat(dir.resolve("out")).doesNotExist();
  }

  @Test
  void theFirstArticleAgainIsNoSecondOne() {
    refused(
        check(JOB, analysis, SAMPLE.resolve("article-1.csv")),
        "article-1.csv",
        "no second article",
        "trims entered");
  }

  @Test
  void analysisOfAnotherJob() throws IOException {
    analysed(line());
    refused(
        check(JOB, dir.resolve("r1/analysis.json"), SAMPLE.resolve("article-2.csv")),
        "analysis.json",
        "'line'",
        "Tide gauge logger");
  }

  @Test
  void articleOfAnotherJob() {
    Path other =
        LineSimulation.write(dir.resolve("other.csv"), "ref,column,row,dx,dy\nZZ9,1,1,0.01,0.02\n");
    Run r = check(JOB, analysis, other);
    refused(r, "other.csv", "ZZ9");
  }

  @Test
  void analysisThatIsNone() {
    Path broken = LineSimulation.write(dir.resolve("broken.json"), "{\"schema\": \"padtrue/ana");
    refused(check(JOB, broken, SAMPLE.resolve("article-2.csv")), "broken.json", "not JSON");
    refused(check(JOB, dir.resolve("gone.json"), SAMPLE.resolve("article-2.csv")), "gone.json");
    refused(check(JOB, JOB, SAMPLE.resolve("article-2.csv")), "job.json", "schema");
  }

  @Test
  void folderThatCannotBeWritten() throws IOException {
    Files.writeString(dir.resolve("out"), "a file is here");
    Run r = check(JOB, analysis, SAMPLE.resolve("article-2.csv"));
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).contains("cannot be written", "--out");
    assertThat(dir.resolve("out")).hasContent("a file is here");
  }

  /** Nothing trimmed is no fault: the result says that there is nothing to check. */
  @Test
  void analysisThatTrimsNothing() throws IOException {
    LineSimulation s = new LineSimulation(3, 60, "R0603", "C0402", "SOT23");
    s.scatter = 0.020;
    s.rotationScatter = 0.2;
    Path job = analysed(s);
    Path second = LineSimulation.write(dir.resolve("a2.csv"), s.article(s.placements(), 1));
    Run r = check(job, dir.resolve("r1/analysis.json"), second);
    assertThat(r.code()).as(r.err()).isZero();
    JsonNode c = written();
    assertThat(c.path("terms")).isEmpty();
    assertThat(c.path("p").isNull()).isTrue();
    assertThat(c.path("verdict").asText()).isEqualTo("held");
    assertThat(r.out()).contains("nothing to check");
  }

  /** Three parts seen again: no verdict is forced on terms that no placement shows. */
  @Test
  void fewPlacementsOnly() throws IOException {
    List<String> lines = Files.readAllLines(SAMPLE.resolve("article-2.csv"));
    List<String> few = new ArrayList<>(lines.subList(0, 3));
    lines.stream().filter(l -> l.matches("1,1,U[345],.*")).forEach(few::add);
    Path second = LineSimulation.write(dir.resolve("few.csv"), String.join("\n", few) + "\n");
    Run r = check(JOB, analysis, second);
    assertThat(r.code()).as(r.err()).isZero();
    Map<String, String> f = findings(written());
    assertThat(f)
        .containsEntry("part SOIC8", "wrongSign")
        .containsEntry("part SOT23", "cannotTell");
  }

  @Test
  void helpTeachesByExample() {
    Run r = Run.of("check", "--help");
    assertThat(r.code()).isZero();
    assertThat(r.out()).contains("Example", "padtrue check");
    assertThat(Run.of("check", JOB, analysis).code()).isEqualTo(2);
  }
}
