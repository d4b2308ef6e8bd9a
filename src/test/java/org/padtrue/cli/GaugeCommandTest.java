package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** {@code gauge} from the readings in a file to console and gauge.json. */
class GaugeCommandTest {
  /** Variances are printed with five decimals. */
  private static final double PRINTED_TOL = 5e-6;

  private static final double SAME = 1e-12;

  @TempDir private Path dir;

  private Path write(String name, String text) {
    return LineSimulation.write(dir.resolve(name), text);
  }

  private JsonNode gauge(Object... args) throws IOException {
    Path out = dir.resolve("out" + System.nanoTime());
    Object[] all = new Object[args.length + 3];
    all[0] = "gauge";
    System.arraycopy(args, 0, all, 1, args.length);
    all[args.length + 1] = "--out";
    all[args.length + 2] = out;
    Run r = Run.of(all);
    assertThat(r.err()).isEmpty();
    assertThat(r.code()).isZero();
    assertThat(r.out()).contains(out.resolve("gauge.json").toString());
    return new ObjectMapper().readTree(Files.readAllBytes(out.resolve("gauge.json")));
  }

  private static void bad(Run r, String... lines) {
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err().lines()).containsExactly(lines);
    assertThat(r.out()).isEmpty();
  }

  private record Reading(String part, String operator, String trial, double y) {}

  /** The published crossed study that the tests of the mathematics use. */
  private static List<Reading> published() throws IOException {
    try (InputStream in =
        Objects.requireNonNull(
            GaugeCommandTest.class.getResourceAsStream(
                "/org/padtrue/gauge/gauge-crossed-10x3x3.csv"))) {
      List<Reading> list = new ArrayList<>();
      for (String l : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
        if (!l.startsWith("#") && !l.startsWith("operator")) {
          String[] c = l.strip().split(",");
          list.add(new Reading("R" + c[2], c[0], c[1], Double.parseDouble(c[3])));
        }
      }
      assertThat(list).hasSize(90);
      return list;
    }
  }

  private static String csv(List<Reading> readings) {
    StringBuilder b = new StringBuilder("ref,operator,trial,dx,dy,drotation\n");
    for (Reading r : readings) {
      b.append(String.format(Locale.ROOT, "%s,%s,%s,", r.part, r.operator, r.trial))
          .append(String.format(Locale.ROOT, "%.2f,%.2f,%.2f%n", r.y, r.y, r.y));
    }
    return b.toString();
  }

  /** A job with the ten parts of the study, each at its own place and turned by its own angle. */
  private Path job(double toleranceX, double toleranceY, double toleranceRotation) {
    StringBuilder p = new StringBuilder("ref,part,x,y,rotation\n");
    for (int i = 1; i <= 10; i++) {
      p.append(String.format(Locale.ROOT, "R%d,T,%d,%d,%d%n", i, 10 * i, 5 + i, 180 * (i % 2)));
    }
    write("p.csv", p.toString());
    write(
        "parts.json",
        String.format(
            Locale.ROOT,
            "{\"parts\": [{\"name\": \"T\", \"kind\": \"other\", \"tolerance\": {\"x\": %s, \"y\":"
                + " %s, \"rotation\": %s}}]}",
            toleranceX,
            toleranceY,
            toleranceRotation));
    return write("job.json", "{\"placements\": \"p.csv\", \"parts\": \"parts.json\"}");
  }

  private static double sq(JsonNode axis, String key) {
    return axis.get(key).doubleValue() * axis.get(key).doubleValue();
  }

  /**
   * AIAG, Measurement Systems Analysis, 4th edition, crossed study 10 x 3 x 3, analysis of
   * variance: variances 0.03997, 0.05146 and 1.08645; 22.68 % of a tolerance 8 wide. In x, y and
   * rotation alike.
   */
  @Test
  void publishedStudyFromTheFileToTheKeysOfTheContract() throws IOException {
    Path file = write("repeats.csv", csv(published()));
    JsonNode j = gauge(file, "--job", job(4, 4, 4));
    assertThat(j.get("schema").textValue()).isEqualTo("padtrue/gauge/1");
    assertThat(j.get("axes")).hasSize(3);
    for (int k = 0; k < 3; k++) {
      JsonNode a = j.get("axes").get(k);
      assertThat(a.get("axis").textValue()).isEqualTo(List.of("x", "y", "rotation").get(k));
      assertThat(sq(a, "repeatability")).isCloseTo(0.03997, within(PRINTED_TOL));
      assertThat(sq(a, "reproducibility")).isCloseTo(0.05146, within(PRINTED_TOL));
      assertThat(a.get("interaction").doubleValue()).isZero();
      assertThat(sq(a, "gauge")).isCloseTo(0.09143, within(PRINTED_TOL));
      assertThat(sq(a, "part")).isCloseTo(1.08645, within(PRINTED_TOL));
      assertThat(sq(a, "total")).isCloseTo(1.17788, within(2 * PRINTED_TOL));
      assertThat(a.get("shareOfTolerance").doubleValue()).isCloseTo(0.2268, within(5e-5));
      assertThat(a.get("verdict").textValue()).isEqualTo("conditional");
      // Interaction at its boundary: both analyses are the same one.
      assertThat(sq(a.get("reml"), "repeatability")).isCloseTo(0.03997, within(PRINTED_TOL));
    }
  }

  @Test
  void theConsoleSaysTheNumbersTheThresholdsAndWhatToEnter() throws IOException {
    Path file = write("repeats.csv", csv(published()));
    Run r = Run.of("gauge", file, "--job", job(4, 4, 4));
    assertThat(r.code()).isZero();
    assertThat(r.out())
        .contains("10 placements, 3 operators, 90 readings")
        .containsPattern("repeatability +199.9 +199.9")
        .containsPattern("reproducibility +226.8")
        .containsPattern("part-to-part +1042.3")
        .containsPattern("share of tolerance +23 %")
        .containsPattern("acceptable +conditionally")
        .contains("under \"measurement\": \"uncertainty\": 0.3024 (mm)")
        .contains("No placement was read with the panel turned by 180 degrees");
    assertThat(r.out().replaceAll("\\s+", " "))
        .contains(
            "x: measurement system conditionally acceptable (decide only on what is clearly larger"
                + " than its spread); six of its standard deviations of 0.3024 mm take 23 % of the"
                + " tightest tolerance, 4.00 mm to either side (part type T). Below 10 %"
                + " acceptable, above 30 % not acceptable (AIAG, Measurement Systems Analysis).");
    assertThat(r.out().lines().mapToInt(String::length).max().orElse(0)).isLessThan(100);
    assertThat(Run.of("gauge", file, "--quiet").out()).isEmpty();
  }

  /** The same readings in micrometres with semicolons and decimal commas. */
  @Test
  void delimitersUnitsAndDecimalCommasAreReadAsInOtherFiles() throws IOException {
    JsonNode plain = gauge(write("a.csv", csv(published())));
    StringBuilder b = new StringBuilder("Designator;Appraiser;Run;dX (um);dY (um);dRot\r\n");
    for (Reading r : published()) {
      b.append(r.part + ";" + r.operator + ";" + r.trial + ";")
          .append(String.format(Locale.GERMANY, "%.1f;%.1f;%.2f\r\n", 1e3 * r.y, 1e3 * r.y, r.y));
    }
    JsonNode other = gauge(write("b.csv", b.toString()));
    for (int k = 0; k < 3; k++) {
      for (String key : List.of("repeatability", "reproducibility", "part", "total")) {
        assertThat(other.get("axes").get(k).get(key).doubleValue())
            .as(key)
            .isCloseTo(plain.get("axes").get(k).get(key).doubleValue(), within(1e-9));
      }
    }
  }

  /** Poses with the job are the same study as deviations: positions are taken off. */
  @Test
  void posesAreComparedWithTheJobsPositions() throws IOException {
    Path job = job(4, 4, 4);
    JsonNode deviations = gauge(write("d.csv", csv(published())), "--job", job);
    StringBuilder b = new StringBuilder("ref,operator,trial,x,y,rotation\n");
    for (Reading r : published()) {
      int i = Integer.parseInt(r.part.substring(1));
      b.append(r.part + "," + r.operator + "," + r.trial)
          .append(
              String.format(
                  Locale.ROOT,
                  ",%.2f,%.2f,%.2f%n",
                  10 * i + r.y,
                  5 + i + r.y,
                  180 * (i % 2) + r.y));
    }
    Path poses = write("p2.csv", b.toString());
    JsonNode seen = gauge(poses, "--job", job);
    for (int k = 0; k < 3; k++) {
      for (String key : List.of("repeatability", "reproducibility", "part")) {
        assertThat(seen.get("axes").get(k).get(key).doubleValue())
            .isCloseTo(deviations.get("axes").get(k).get(key).doubleValue(), within(1e-9));
      }
    }
    // Without the job nobody knows where the placements belong: the gauge is known, no more.
    JsonNode alone = gauge(poses);
    JsonNode x = alone.get("axes").get(0);
    assertThat(sq(x, "repeatability")).isCloseTo(0.03997, within(PRINTED_TOL));
    assertThat(x.get("part").isNull()).isTrue();
    assertThat(x.get("shareOfTolerance").isNull()).isTrue();
    assertThat(x.get("verdict").textValue()).isEqualTo("notJudged");
    assertThat(Run.of("gauge", poses).out()).contains("not judged: positions were read");
  }

  /** 6 x 0.30237 over the tolerance's width: below 10 % fit, above 30 % unfit. */
  @ParameterizedTest
  @CsvSource({"9.2, fit", "9.0, conditional", "3.1, conditional", "3.0, unfit"})
  void verdictByShareOfTheTightestTolerance(double tolerance, String verdict) throws IOException {
    JsonNode x =
        gauge(write("r.csv", csv(published())), "--job", job(tolerance, 99, 99)).get("axes").get(0);
    assertThat(x.get("shareOfTolerance").doubleValue())
        .isCloseTo(6 * x.get("gauge").doubleValue() / (2 * tolerance), within(SAME));
    assertThat(x.get("verdict").textValue()).isEqualTo(verdict);
  }

  /** One person reads every placement three times: what persons do is not known, so null. */
  @Test
  void withOneOperatorReproducibilityIsNotKnown() throws IOException {
    List<Reading> one = published().stream().filter(r -> r.operator.equals("A")).toList();
    JsonNode x = gauge(write("one.csv", csv(one))).get("axes").get(0);
    assertThat(x.get("reproducibility").isNull()).isTrue();
    assertThat(x.get("interaction").isNull()).isTrue();
    assertThat(x.get("repeatability").doubleValue()).isPositive();
    assertThat(x.get("gauge").doubleValue()).isEqualTo(x.get("repeatability").doubleValue());
  }

  /** dx of the same placement on two panels must not pass for a repeat. */
  @Test
  void placementsOfSeveralPanelsAreKeptApart() throws IOException {
    StringBuilder b = new StringBuilder("panel,ref,operator,trial,dx,dy\n");
    for (int trial = 1; trial <= 3; trial++) {
      for (String ref : List.of("R1", "R2", "R3")) {
        b.append("P1," + ref + ",A," + trial + ",0.10" + trial + ",0.00" + trial + "\n");
        b.append("P2," + ref + ",A," + trial + ",0.50" + trial + ",0.00" + trial + "\n");
      }
    }
    JsonNode j = gauge(write("two.csv", b.toString()));
    assertThat(j.get("placements").intValue()).isEqualTo(6);
    // SD of 1, 2, 3 um; the panels' 0.4 mm are in part-to-part.
    assertThat(j.get("axes").get(0).get("repeatability").doubleValue())
        .isCloseTo(0.001, within(1e-9));
    assertThat(j.get("axes").get(0).get("part").doubleValue()).isGreaterThan(0.2);
  }

  /** A camera that reads 20 um too much along x: half the difference of the two ways. */
  @Test
  void biasIsFoundFromTurnedReadings() throws IOException {
    StringBuilder b = new StringBuilder("ref,operator,trial,turned,dx,dy\n");
    for (int i = 1; i <= 5; i++) {
      for (int trial = 1; trial <= 4; trial++) {
        boolean turned = trial % 2 == 0;
        double noise = 0.001 * ((i * 7 + trial * 3) % 5 - 2);
        b.append(
            String.format(
                Locale.ROOT,
                "R%d,A,%d,%s,%.4f,%.4f%n",
                i,
                trial,
                turned ? "180" : "0",
                0.01 * i + (turned ? -0.02 : 0.02) + noise,
                noise));
      }
    }
    Path file = write("turned.csv", b.toString());
    JsonNode j = gauge(file);
    assertThat(j.get("bias").get("x").doubleValue()).isCloseTo(0.02, within(0.001));
    assertThat(j.get("measurement").get("bias").doubleValue()).isCloseTo(0.02, within(0.001));
    assertThat(Run.of("gauge", file).out()).contains("BIAS", "seen by turning the panel");
  }

  @Test
  void theFormAsksForWhatMattersAndCanBeReadWhenFilledIn() throws IOException {
    Path job = job(4, 4, 4);
    Run form = Run.of("gauge", "--form", "--job", job, "--operators", "Ann,Bo", "--trials", "3");
    assertThat(form.code()).isZero();
    assertThat(form.out())
        .contains("register it anew", "turned by 180 degrees", "Ann", "Bo")
        .contains("session,ref,operator,trial,turned,dx,dy,drotation");
    bad(
        Run.of("gauge", write("empty-form.csv", form.out())),
        dir.resolve("empty-form.csv") + ": there are no readings; fill in the form and try again");
    StringBuilder filled = new StringBuilder();
    int[] n = {0};
    form.out()
        .lines()
        .forEach(
            l -> {
              boolean row = l.endsWith(",,,");
              String values = String.format(Locale.ROOT, "0.0%d,0.0%d,0.1", n[0] % 7, n[0] % 5);
              filled.append(row ? l.substring(0, l.length() - 2) + values : l).append('\n');
              n[0] += row ? 1 : 0;
            });
    JsonNode j = gauge(write("form.csv", filled.toString()), "--job", job);
    assertThat(j.get("readings").intValue()).isEqualTo(10 * 2 * 3);
    assertThat(j.get("bias").get("operators")).hasSize(2);
  }

  @Test
  void theSampleRunsAgainstItsJob() throws IOException {
    Path samples = Path.of("samples");
    JsonNode j =
        gauge(
            samples.resolve("gauge").resolve("repeats.csv"),
            "--job",
            samples.resolve("main-job").resolve("job.json"));
    assertThat(j.get("placements").intValue()).isEqualTo(10);
    assertThat(j.get("verdict").textValue()).isIn("fit", "conditional", "unfit");
    assertThat(j.get("axes").get(0).get("shareOfTolerance").isNumber()).isTrue();
  }

  // ---- bad input ----

  private static final String HEAD = "ref,operator,trial,dx,dy,drotation\n";

  @Test
  void oneOperatorAndOneTrialAreNoStudy() {
    Path f = write("r.csv", HEAD + "R1,A,1,0.01,0.02,0\nR2,A,1,0.02,0.01,0\n");
    bad(
        Run.of("gauge", f, "--out", dir.resolve("none")),
        f
            + ": no placement was read more than once; read the same placements again, each time as"
            + " a new trial");
    assertThat(dir.resolve("none")).doesNotExist();
  }

  @Test
  void everyProblemIsNamedWithLineAndColumn() {
    Path job = job(4, 4, 4);
    Path f =
        write(
            "r.csv",
            HEAD
                + "R1,A,1,0.01,O.02,0\n"
                + "R1,A,2,0.01,,0\n"
                + "R99,A,1,0.01,0.02,0\n"
                + ",A,1,0.01,0.02,0\n"
                + "R2,A,1,nan,0.02,0\n"
                + "R99,A,2,0.01,0.02,0\n");
    Run r = Run.of("gauge", f, "--job", job);
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err().lines().toList())
        .containsExactly(
            f + ", line 2, column dy: 'O.02' is not a number; write one such as 12.45",
            f
                + ", line 3, column dy: the cell is empty but the other one is not; give both, or"
                + " neither",
            f
                + ", line 4, column ref: 'R99' is not among the placements of the job, here and in"
                + " 1 more row; "
                + r.err().lines().toList().get(2).replaceAll(".*; ", ""),
            f + ", line 5, column ref: the ref is empty; name or remove the row",
            f
                + ", line 6, column dx: 'nan' is not a finite number; leave the cell empty when it"
                + " is not measured");
  }

  /** A turned panel read in the machine's frame would pass for a very bad gauge. */
  @Test
  void readingsFarFromTheirPlacesAreNamed() {
    Path job = job(4, 4, 4);
    Path f =
        write(
            "r.csv",
            "ref,operator,trial,x,y,rotation\nR1,A,1,10.01,6.02,180\nR1,A,2,90.0,6.0,180\n");
    bad(
        Run.of("gauge", f, "--job", job),
        f
            + ", line 3, column x: 'R1' is read 80.0 mm from its nominal place; give x and y in the"
            + " panel's own frame, also where the panel was turned");
  }

  @Test
  void aRepeatThatIsThereTwiceIsNamed() {
    Path f = write("r.csv", HEAD + "R1,A,1,0.01,0.02,0\nR1,A,1,0.02,0.02,0\nR1,A,2,0.01,0.02,0\n");
    bad(
        Run.of("gauge", f),
        f
            + ", line 3: 'R1', operator 'A', trial '1' is in line 2 already; give each repeat its"
            + " own trial");
  }

  @Test
  void emptyAndMissingFilesAndWrongUse() {
    Path empty = write("e.csv", HEAD);
    bad(Run.of("gauge", empty), empty + ": there are no readings; fill in the form and try again");
    assertThat(Run.of("gauge", dir.resolve("gone.csv")).code()).isEqualTo(2);
    assertThat(Run.of("gauge", "--form", dir.resolve("gone.csv")).code()).isEqualTo(2);
    assertThat(Run.of("gauge").err())
        .isEqualTo(
            "padtrue: Missing required parameter: 'REPEATS.csv' (or --form); see 'padtrue gauge"
                + " --help'"
                + System.lineSeparator());
    Path turned = write("t.csv", "ref,operator,trial,turned,dx,dy\nR1,A,1,90,0,0\nR1,A,2,0,0,0\n");
    bad(
        Run.of("gauge", turned),
        turned
            + ", line 2, column turned: '90' is neither 0 nor 180; write 180 for a turned panel");
    Run help = Run.of("gauge", "--help");
    assertThat(help.out()).contains("Examples:", "R1,1,1,Ann,1,0,0.012,-0.008,0.05");
  }
}
