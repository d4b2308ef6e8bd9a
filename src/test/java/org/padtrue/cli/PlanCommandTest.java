package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.report.json.StoredAnalysis;

/** {@code plan} from a job to the list, and from the filled-in list to an analysis. */
class PlanCommandTest {
  private static final String HEAD = "order,column,row,ref,part,x,y,rotation";

  /** Positions of the plan are written to a nanometre. */
  private static final double WRITTEN = 1e-6;

  @TempDir private Path dir;

  private Path write(String name, String text) {
    return LineSimulation.write(dir.resolve(name), text);
  }

  private static final String PANEL =
      "{\"columns\": 2, \"rows\": 2, \"boards\": [{\"column\": 1, \"row\": 1, \"x\": 5, \"y\": 6},"
          + " {\"column\": 1, \"row\": 2, \"x\": 5, \"y\": 46}, {\"column\": 2, \"row\": 2, \"x\":"
          + " 65, \"y\": 46, \"turned\": 0}]%s}";

  /** Two boards by two, 16 placements of three types at all four rotations. */
  private Path job(String panelMore, String jobMore) {
    StringBuilder p = new StringBuilder("ref,part,x,y,rotation,fitted\n");
    for (int i = 1; i <= 16; i++) {
      p.append(
          String.format(
              Locale.ROOT,
              "R%d,%s,%.2f,%.2f,%d,yes%n",
              i,
              List.of("R0603", "C0402", "SOT23").get(i % 3),
              3 * i + 0.25,
              (7 * i) % 31 + 0.5,
              90 * (i / 3 % 4)));
    }
    write("p.csv", p + "R17,R0603,20.0,12.0,0,no\n");
    return write(
        "job.json",
        "{\"placements\": \"p.csv\", \"panel\": "
            + String.format(PANEL, panelMore)
            + jobMore
            + "}");
  }

  /** What stands above the header of a form; goes back into the filled-in file. */
  private String comment = "";

  private Run plan(Path job, Object... more) {
    Object[] args = new Object[more.length + 2];
    args[0] = "plan";
    args[1] = job;
    System.arraycopy(more, 0, args, 2, more.length);
    return Run.of(args);
  }

  private List<String> planned(Path job, Object... more) throws IOException {
    Path out = dir.resolve("plan.csv");
    Object[] args = new Object[more.length + 2];
    System.arraycopy(more, 0, args, 0, more.length);
    args[more.length] = "--out";
    args[more.length + 1] = out;
    Run r = plan(job, args);
    assertThat(r.err()).isEmpty();
    assertThat(r.code()).isZero();
    List<String> lines = Files.readAllLines(out);
    if (lines.get(0).startsWith("#")) {
      assertThat(lines.get(0))
          .isEqualTo(
              "# dx, dy (mm), drotation (degrees): measured minus nominal, plus = right, up,"
                  + " counter-clockwise as placed; leave empty what is not measured");
      comment = lines.remove(0) + "\n";
    }
    return lines;
  }

  /** The last board is the fitted one: (2, 1) at (65, 6), which no line of the job says. */
  @Test
  void theListHasTheContractsColumnsAndTheNominalPosesInThePanelFrame() throws IOException {
    List<String> lines = planned(job("", ""), "--count", "20");
    assertThat(lines.get(0)).isEqualTo(HEAD);
    assertThat(lines).hasSize(21);
    Map<String, double[]> board = new HashMap<>();
    for (String l : Files.readAllLines(dir.resolve("p.csv"))) {
      String[] c = l.split(",");
      if (c[0].startsWith("R")) {
        board.put(c[0], Stream.of(c[2], c[3], c[4]).mapToDouble(Double::parseDouble).toArray());
      }
    }
    List<String> seen = new ArrayList<>();
    for (int i = 1; i < lines.size(); i++) {
      String[] c = lines.get(i).split(",");
      assertThat(c).hasSize(8);
      assertThat(c[0]).isEqualTo(Integer.toString(i));
      double[] own = board.get(c[3]);
      double x = own[0] + 5 + 60 * (Integer.parseInt(c[1]) - 1);
      double y = own[1] + 6 + 40 * (Integer.parseInt(c[2]) - 1);
      assertThat(Double.parseDouble(c[5])).isCloseTo(x, within(WRITTEN));
      assertThat(Double.parseDouble(c[6])).isCloseTo(y, within(WRITTEN));
      assertThat((Double.parseDouble(c[7]) - own[2]) % 360).isCloseTo(0, within(WRITTEN));
      seen.add(c[1] + "/" + c[2] + "/" + c[3]);
    }
    assertThat(seen).doesNotHaveDuplicates();
  }

  @Test
  void whatIsNotPlacedIsNotPlanned() throws IOException {
    List<String> all = planned(job(", \"skip\": [[2, 1]]", ""), "--count", "999");
    assertThat(all).hasSize(1 + 3 * 16);
    assertThat(all).noneMatch(l -> l.matches("\\d+,2,1,.*") || l.contains(",R17,"));
  }

  /** A part far off the board waits for its place; the plan must not send anybody there. */
  @Test
  void parkedPartsAreNotPlanned() throws IOException {
    Path job = job("", "");
    write("p.csv", Files.readString(dir.resolve("p.csv")) + "R18,R0603,4000,4000,0,yes\n");
    assertThat(planned(job, "--count", "999"))
        .hasSize(1 + 4 * 16)
        .noneMatch(l -> l.contains("R18"));
  }

  /** The number is the smallest that reaches it: the list of one fewer does not. */
  @Test
  void withinTakesAsFewAsReachIt() throws IOException {
    Path job = job("", "");
    Run r = plan(job, "--within", "0.030");
    assertThat(r.out()).contains("Wanted were 0.030 mm: this is the smallest number found that");
    int n = planned(job, "--within", "0.030").size() - 1;
    assertThat(plan(job, "--within", "0.030", "--count", n).out()).contains("0.030 mm: reached.");
    assertThat(plan(job, "--within", "0.030", "--count", n - 1).out())
        .contains("0.030 mm: this number does not reach it.");
    assertThat(planned(job, "--within", "0.050").size() - 1).isLessThan(n);
    assertThat(plan(job, "--within", "0.0001").out().replaceAll("\\s+", " "))
        .contains("Wanted were 0.0001 mm, which cannot be reached");
  }

  private static double worst(Run r) {
    return Double.parseDouble(
        r.out()
            .replaceAll("\\s+", " ")
            .replaceAll(".*known to a standard error of ([0-9.]+) mm.*", "$1"));
  }

  @Test
  void withoutOutTheListStandsOnTheConsoleAndSaysHowToGetTheFile() {
    Run r = plan(job("", ""), "--count", "9");
    assertThat(r.code()).isZero();
    assertThat(r.out())
        .contains("Measure 9 of 64 placements")
        .containsPattern("order +column +row +ref +part +x, mm +y, mm +rotation, deg")
        .contains("--out FILE writes this list, a chart and a map of the walk.")
        .containsPattern("measured +gain kept, % +worst \\+-, um");
    assertThat(r.out().lines().filter(l -> l.matches(" +\\d+ +[12] +[12] +R\\d+ .*"))).hasSize(9);
    assertThat(plan(job("", ""), "--count", "9", "--quiet").out()).isEmpty();
  }

  @Test
  void theUsualScatterIsCalledCommonPracticeUnlessOneIsGiven() {
    Path job = job("", "");
    String practice = "Scatter 0.020 mm is common practice, not your machine's";
    assertThat(plan(job, "--count", "20").out()).contains(practice);
    Run own = plan(job, "--count", "20", "--scatter", "0.04", "--rotation-scatter", "0.2");
    assertThat(own.out().replaceAll("\\s+", " "))
        .doesNotContain("common practice")
        .contains("scatter of a placement 0.040 mm and 0.20 degrees");
    assertThat(worst(own)).isGreaterThan(1.4 * worst(plan(job, "--count", "20")));
  }

  @Test
  void scatterOfSinglePartTypesIsTypedBehindCommas() {
    Path job = job("", "");
    String out =
        plan(job, "--scatter", "0.03,SOT23=0.06", "--rotation-scatter", "C0402=0.25")
            .out()
            .replaceAll("\\s+", " ");
    assertThat(out)
        .contains(
            "scatter of a placement 0.030 mm (SOT23 0.060 mm) and 0.10 degrees (C0402 0.250"
                + " degrees)")
        .doesNotContain("common practice");
    assertThat(plan(job, "--scatter", "SOT24=0.06").err())
        .startsWith("--scatter names part type 'SOT24', which the job does not place;");
    assertThat(plan(job, "--scatter", "0.02,0.03").err())
        .startsWith("--scatter '0.02,0.03': two numbers without a part type;");
    assertThat(plan(job, "--rotation-scatter", "wide").err())
        .isEqualTo(
            "--rotation-scatter 'wide': 'wide' is no number; write one number in degrees for all"
                + " part types, TYPE=NUMBER for one, or several behind commas"
                + System.lineSeparator());
  }

  /** SOT23 scatters by 60 um and 0.25 degrees, the others by 15 um and 0.1. */
  private Path scattered(String name, long seed) throws IOException {
    Random random = new Random(seed);
    StringBuilder b = new StringBuilder("ref,column,row,dx,dy,drotation\n");
    for (String l : Files.readAllLines(dir.resolve("p.csv"))) {
      String[] c = l.split(",");
      for (int board = 0; board < 4 && l.startsWith("R") && l.endsWith("yes"); board++) {
        boolean rough = c[1].equals("SOT23");
        double mm = rough ? 0.06 : 0.015;
        b.append(
            String.format(
                Locale.ROOT,
                "%s,%d,%d,%.4f,%.4f,%.3f%n",
                c[0],
                1 + board % 2,
                1 + board / 2,
                mm * random.nextGaussian(),
                mm * random.nextGaussian(),
                (rough ? 0.25 : 0.1) * random.nextGaussian()));
      }
    }
    return write(name, b.toString());
  }

  /** Four articles of 64: SDs of about 160 values, so within a fifth. */
  @Test
  void scatterByPartTypeComesFromTheLogOrFromAnAnalysis() throws IOException {
    Path job = job("", "");
    Path log = dir.resolve("log.db");
    for (int i = 0; i < 4; i++) {
      Run r =
          Run.of(
              "record",
              job,
              scattered("a" + i + ".csv", i),
              "--history",
              log,
              "--machine",
              "M1",
              "--at",
              "2026-01-0" + (i + 1) + "T08:00:00Z");
      assertThat(r.err()).isEmpty();
    }
    Run logged = plan(job, "--history", log, "--count", "20");
    assertThat(logged.err()).isEmpty();
    String out = logged.out().replaceAll("\\s+", " ");
    assertThat(out)
        .contains("Scatter by part type from 4 articles (this job) of machine M1 in the log,");
    assertThat(found(out, "SOT23 ([0-9.]+) mm")).isCloseTo(0.06, within(0.012));
    assertThat(found(out, "R0603 ([0-9.]+) mm")).isCloseTo(0.015, within(0.003));
    assertThat(found(out, "SOT23 ([0-9.]+) degrees")).isCloseTo(0.25, within(0.05));
    assertThat(plan(job, "--history", log, "--scatter", "0.05", "--count", "20").out())
        .contains("0.050 mm and");
    Run.analyse(job, dir.resolve("a0.csv"), dir.resolve("r"));
    out =
        plan(job, "--from", dir.resolve("r/analysis.json"), "--count", "20")
            .out()
            .replaceAll("\\s+", " ");
    assertThat(out).contains("Scatter by part type from analysis.json, 64 placements;");
    assertThat(found(out, "SOT23 ([0-9.]+) mm")).isCloseTo(0.06, within(0.02));
    assertThat(plan(job, "--from", dir.resolve("r/analysis.json"), "--history", log).err())
        .startsWith("--history and --from both give the scatter;");
  }

  private static double found(String text, String pattern) {
    var m = Pattern.compile(pattern).matcher(text);
    assertThat(m.find()).as(pattern).isTrue();
    return Double.parseDouble(m.group(1));
  }

  @Test
  void whatCannotBeToldApartIsSaidInWords() {
    write("one.csv", "ref,part,x,y,rotation\nR1,A,1,1,0\nR2,A,5,20,0\nR3,B,9,4,0\nR4,B,12,3,0\n");
    Run r = plan(write("one.json", "{\"placements\": \"one.csv\"}"));
    assertThat(r.out().replaceAll("\\s+", " "))
        .contains(
            "The panel offset and the offset that all parts share cannot be told apart on this"
                + " panel, as every part sits at one rotation: one trim is enough, given to the"
                + " panel offset. To tell them apart, measure a panel with parts at other rotations"
                + " too.");
  }

  /** Two bodies 1.6 long, 1.5 apart: 0.1 mm of overlap as drawn, on both boards. */
  @Test
  void overlapsAsDrawnAreSaidBeforeAnythingIsPlaced() {
    write(
        "near.csv", "ref,part,x,y,rotation\nR1,A,1,1,0\nR2,A,2.5,1,0\nR3,A,9,4,90\nR4,A,12,3,0\n");
    write(
        "near-parts.json",
        "{\"parts\": [{\"name\": \"A\", \"kind\": \"chip\", \"body\": {\"length\": 1.6, \"width\":"
            + " 0.8, \"height\": 0.5}}]}");
    Path job = write("near.json", "{\"placements\": \"near.csv\", \"parts\": \"near-parts.json\"}");
    assertThat(plan(job).out())
        .startsWith(
            "OVERLAP    1/1/R1 and 1/1/R2 overlap by 0.100 mm as drawn, before anything is"
                + " placed.");
    assertThat(plan(job("", "")).out()).doesNotContain("OVERLAP");
  }

  @Test
  void chartAndMapStandBesideTheFile() throws IOException {
    planned(job("", ""), "--count", "20", "--charts", "svg,png");
    for (String name : List.of("plan-uncertainty", "plan-walk")) {
      var image = ImageIO.read(dir.resolve(name + ".png").toFile());
      assertThat(image.getWidth()).isGreaterThan(500);
      assertThat(Files.readString(dir.resolve(name + ".svg"))).contains("<svg", "</svg>");
    }
    try (Stream<Path> s = Files.list(dir)) {
      assertThat(s.map(p -> String.valueOf(p.getFileName())))
          .noneMatch(n -> n.startsWith(".padtrue"));
    }
  }

  // ---- the way back ----

  private String filledIn(List<String> form, int every) {
    StringBuilder b = new StringBuilder(comment + form.get(0) + "\n");
    for (int i = 1; i < form.size(); i++) {
      String empty = form.get(i).replaceAll(",,,$", "");
      double noise = 0.001 * ((5 * i) % 7 - 3);
      String values =
          String.format(
              Locale.ROOT, "%.4f,%.4f,%.3f", 0.080 + noise, -0.060 - noise, 0.1 + 10 * noise);
      b.append(empty)
          .append(i % every == 0 ? ",," : "," + values)
          .append(i % every == 0 ? "," : "");
      b.append('\n');
    }
    return b.toString();
  }

  /** Positions in the plan are nominal, not measured: the deviations count, and only they. */
  @Test
  void theFilledInFormIsAnArticleOfDeviations() throws IOException {
    Path job = job("", "");
    List<String> form = planned(job, "--count", "30", "--form");
    assertThat(form.get(0)).isEqualTo(HEAD + ",dx,dy,drotation");
    assertThat(form.get(1)).endsWith(",,,");
    String filled = filledIn(form, 1000);
    StoredAnalysis a = Run.analyse(job, write("filled.csv", filled), dir.resolve("a"));
    assertThat(a.placements().stream().filter(p -> !Double.isNaN(p.deviation().x()))).hasSize(30);
    assertThat(a.panels().get(0).shiftAtCentroid().x()).isCloseTo(0.080, within(0.002));
    assertThat(a.panels().get(0).shiftAtCentroid().y()).isCloseTo(-0.060, within(0.002));

    StringBuilder only = new StringBuilder();
    filled
        .lines()
        .filter(l -> !l.startsWith("#"))
        .forEach(
            l -> {
              String[] c = l.split(",");
              only.append(String.join(",", c[1], c[2], c[3], c[8], c[9], c[10])).append('\n');
            });
    StoredAnalysis b = Run.analyse(job, write("only.csv", only.toString()), dir.resolve("b"));
    assertThat(b.panels().get(0).transform()).isEqualTo(a.panels().get(0).transform());
    for (int i = 0; i < a.placements().size(); i++) {
      assertThat(b.placements().get(i).deviation()).isEqualTo(a.placements().get(i).deviation());
    }
  }

  @Test
  void rowsLeftEmptyAreNotMeasured() throws IOException {
    Path job = job("", "");
    String filled = filledIn(planned(job, "--count", "30", "--form"), 3);
    StoredAnalysis a = Run.analyse(job, write("filled.csv", filled), dir.resolve("a"));
    assertThat(a.placements().stream().filter(p -> !Double.isNaN(p.deviation().x()))).hasSize(20);
    assertThat(a.panels().get(0).shiftAtCentroid().x()).isCloseTo(0.080, within(0.002));
  }

  @Test
  void aPlanThatNobodyFilledInIsNoArticle() throws IOException {
    Path job = job("", "");
    planned(job, "--count", "12", "--form");
    Run form = Run.of("analyse", job, dir.resolve("plan.csv"), "--out", dir.resolve("none"));
    assertThat(form.code()).isEqualTo(2);
    assertThat(form.err()).contains("no placement was measured, so there is nothing to do");
    planned(job, "--count", "12");
    Run plain = Run.of("analyse", job, dir.resolve("plan.csv"), "--out", dir.resolve("none"));
    assertThat(plain.code()).isEqualTo(2);
    assertThat(plain.err())
        .isEqualTo(
            dir.resolve("plan.csv")
                + ", line 1: this is a measuring plan: every row holds the nominal pose, so nothing"
                + " is measured; add columns dx, dy, drotation and fill them in, or write what was"
                + " measured over x, y, rotation"
                + System.lineSeparator());
    assertThat(dir.resolve("none")).doesNotExist();
  }

  /** Measured poses and deviations at once would be two answers: a question, not a guess. */
  @Test
  void positionsThatAreNotNominalBesideDeviationsAreAnError() throws IOException {
    Path job = job("", "");
    List<String> form = planned(job, "--count", "12", "--form");
    String[] c = form.get(1).split(",", -1);
    c[5] = Double.toString(Double.parseDouble(c[5]) + 0.05);
    form = new ArrayList<>(form);
    form.set(1, String.join(",", c));
    Run r =
        Run.of("analyse", job, write("both.csv", filledIn(form, 99)), "--out", dir.resolve("none"));
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err())
        .contains("the article has both x and dx, and the former are not the nominal positions");
  }

  // ---- bad input ----

  @ParameterizedTest
  @CsvSource({
    "--count, 0, 'the number of placements to measure is 0; give a whole number of 1 or more'",
    "--scatter, -1, 'the scatter is -1.0 mm; give a number greater than 0, in mm'",
    "--scatter, NaN, 'the scatter is NaN mm; give a number greater than 0, in mm'",
    "--within, 0, 'the wanted uncertainty is 0.0 mm; give a number greater than 0, in mm'",
    "--count, x, 'padtrue: Invalid value for option ''--count'': ''x'' is no whole number; see"
        + " ''padtrue plan --help'''"
  })
  void wrongUseIsOneSentence(String option, String value, String message) {
    Run r = plan(job("", ""), option, value);
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).isEqualTo(message + System.lineSeparator());
  }

  @Test
  void inputsAreNotOverwrittenAndNothingIsHalfWritten() throws IOException {
    Path job = job("", "");
    Path placements = dir.resolve("p.csv");
    String before = Files.readString(placements);
    assertThat(plan(job, "--out", placements).code()).isEqualTo(2);
    assertThat(Files.readString(placements)).isEqualTo(before);
    Files.createDirectory(dir.resolve("busy-walk.svg"));
    Run r = plan(job, "--out", dir.resolve("busy.csv"));
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).contains("busy-walk.svg: the file cannot be written");
    assertThat(dir.resolve("busy.csv")).doesNotExist();
    assertThat(dir.resolve("busy-uncertainty.svg")).doesNotExist();
    assertThat(plan(job, "--charts", "svg").err())
        .contains("--charts: nothing is drawn without --out FILE");
    assertThat(plan(job, "--form").err()).contains("--form needs --out FILE");
    assertThat(plan(write("none.json", "{\"placements\": \"e.csv\"}")).code()).isEqualTo(2);
  }

  @Test
  void aPlacementFileWithoutRowsHasNothingToMeasure() {
    write("e.csv", "ref,part,x,y,rotation\n");
    Run r = plan(write("e.json", "{\"name\": \"e\", \"placements\": \"e.csv\"}"));
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err())
        .isEqualTo(
            "job 'e' has no placement that can be measured; give a placement file with at least one"
                + " row of the placed side"
                + System.lineSeparator());
  }

  @Test
  void helpTeachesByExample() {
    Run r = Run.of("plan", "--help");
    assertThat(r.code()).isZero();
    assertThat(r.out())
        .contains("Examples:", "padtrue plan job.json --count 20 --form --out to-measure.csv")
        .contains("--rotation-scatter", "--history", "--from")
        .contains("measured minus nominal, mm and degrees, plus = right, up, counter-clockwise");
    // No sentence is cut: what one line of the description begins another goes on with.
    assertThat(r.out().lines().mapToInt(String::length).max().orElse(0)).isLessThan(101);
  }
}
