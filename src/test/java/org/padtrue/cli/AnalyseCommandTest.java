package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.ReferenceData;

/** The main job from the command line to its files: demo, analyse, and what bad input gets. */
class AnalyseCommandTest {
  @TempDir private static Path shared;

  @TempDir private Path dir;

  private static Run demo;
  private static Path report;

  @BeforeAll
  static void runTheDemoOnce() {
    report = shared.resolve("demo");
    demo = Run.of("demo", "--out", report);
  }

  private static JsonNode json(Path file) throws IOException {
    return new ObjectMapper().readTree(Files.readAllBytes(file));
  }

  // ---- demo ----

  @Test
  void demoPrintsASheetAndSaysWhereTheReportIs() {
    assertThat(demo.code()).isZero();
    assertThat(demo.out())
        .contains("registration", "part type SOT23", "part type SOIC8", "nozzle N2", "QFN32")
        .contains(report.resolve("report.html").toString())
        .doesNotContain("\u001B");
    assertThat(demo.out().lines().count()).isLessThan(45);
    assertThat(demo.out().lines().mapToInt(String::length).max().orElse(0)).isLessThan(120);
  }

  @Test
  void demoWritesEveryFile() throws IOException {
    for (String f : List.of("analysis.json", "trims.csv", "residuals.csv", "report.html")) {
      assertThat(report.resolve(f)).isNotEmptyFile();
    }
    try (Stream<Path> charts = Files.list(report.resolve("charts"))) {
      List<String> names = charts.map(p -> p.getFileName().toString()).sorted().toList();
      assertThat(names)
          .hasSizeGreaterThan(8)
          .contains("map-before.svg", "map-after.svg")
          .allMatch(n -> n.endsWith(".svg"));
    }
  }

  private Run sample(String... more) {
    List<Object> args = new ArrayList<>(List.of("analyse", SampleRun.JOB, SampleRun.ARTICLE));
    args.addAll(List.of("--out", dir.resolve("out")));
    args.addAll(List.of(more));
    return Run.of(args.toArray());
  }

  @Test
  void chartsAreDrawnAsAskedFor() throws IOException {
    assertThat(sample("--charts", "PNG").code()).isZero();
    try (Stream<Path> charts = Files.list(dir.resolve("out/charts"))) {
      assertThat(charts).hasSizeGreaterThan(8).allMatch(p -> p.toString().endsWith(".png"));
    }
    assertThat(Files.readString(dir.resolve("out/report.html")))
        .contains("data:image/png")
        .doesNotContain("data:image/svg");
    assertThat(sample("--charts", "none,svg").err())
        .startsWith("padtrue: --charts says none and a format; give one or the other;");
    assertThat(sample("--charts", "gif").err()).contains("'--charts'", "svg, png, none", "'gif'");
  }

  @Test
  void noChartsNeitherOnThePage() throws IOException {
    assertThat(sample("--charts", "none").code()).isZero();
    assertThat(dir.resolve("out/charts")).doesNotExist();
    assertThat(Files.readString(dir.resolve("out/report.html")))
        .contains("No charts were drawn.")
        .doesNotContain("data:image");
  }

  /** The same file as beside the page, and nothing else; for check too. */
  @Test
  void scriptsGetTheJsonAlone() throws IOException {
    Path json = dir.resolve("out/analysis.json");
    Run r = sample("--json-only");
    assertThat(r.out()).isEqualToIgnoringNewLines(json.toString());
    assertThat(dir.resolve("out")).isDirectoryNotContaining(f -> !f.equals(json));
    assertThat(json).hasSameTextualContentAs(SampleRun.analysis());
    assertThat(sample("--json-only", "--charts", "svg").err())
        .startsWith("padtrue: --charts: with --json-only nothing is drawn;");
    Run check =
        Run.of(
            "check",
            SampleRun.JOB,
            json,
            "samples/main-job/article-2.csv",
            "--json-only",
            "--out",
            dir.resolve("check"));
    assertThat(check.out()).isEqualToIgnoringNewLines(dir.resolve("check/check.json").toString());
    assertThat(dir.resolve("check")).isDirectoryNotContaining("glob:**.html");
    assertThat(dir.resolve("check/check.json")).hasSameTextualContentAs(SampleRun.check());
  }

  /** One file that can be mailed: nothing is fetched from elsewhere. */
  @Test
  void reportStandsAlone() throws IOException {
    String html = Files.readString(report.resolve("report.html"));
    assertThat(html).doesNotContain("src=\"http", "href=\"http", "src=\"charts", "@import");
    assertThat(html).contains("data:image").contains("3/1/D2").contains("SOT23");
  }

  @Test
  void trimSheetOfTheDemoIsATable() throws IOException {
    List<String> lines = Files.readAllLines(report.resolve("trims.csv"));
    assertThat(lines.get(0)).startsWith("where,kind,from,add_x,add_y,unit,add_rotation_deg");
    assertThat(lines).anyMatch(l -> l.startsWith("registration,registration,"));
    assertThat(lines).anyMatch(l -> l.startsWith("nozzle N2,nozzle,"));
    List<String> residuals = Files.readAllLines(report.resolve("residuals.csv"));
    assertThat(residuals.stream().filter(l -> !l.isBlank() && !l.startsWith("#"))).hasSize(357);
  }

  /** Every key that other programs may rely on, by its path; numbers are numbers or null. */
  @Test
  void analysisJsonHasTheKeysOfItsContract() throws IOException {
    JsonNode a = json(report.resolve("analysis.json"));
    assertThat(a.path("schema").asText()).isEqualTo("padtrue/analysis/1");
    Map<String, String> keys = new LinkedHashMap<>();
    keys.put(
        "",
        "schema job articles stage reference counts panels common rotationZero groups batchTrim"
            + " tests varianceComponents budget scatter quadrants aliases excluded placements"
            + " acceptance clearances");
    keys.put("/counts", "nominal measured used excluded missing");
    keys.put("/panels/0", "panel transform standardErrors array families");
    for (String t : List.of("transform", "standardErrors")) {
      keys.put("/panels/0/" + t, "shiftX shiftY rotation scaleXPpm scaleYPpm squarenessMrad");
    }
    keys.put("/panels/0/families/0", "family array parameters rss aicc f p");
    keys.put("/rotationZero", "value standardError");
    keys.put(
        "/groups/0",
        "factor level frame count zeroOrientation offset standardErrors combined"
            + " combinedStandardErrors leastSquares trim");
    for (String t :
        List.of("offset", "standardErrors", "combined", "combinedStandardErrors", "leastSquares")) {
      keys.put("/groups/0/" + t, "x y rotation");
    }
    keys.put("/groups/0/trim", "x y rotation decision reason");
    keys.put("/batchTrim", "shift rotation scale array common rotationZero");
    keys.put("/batchTrim/shift", "x y decision reason");
    keys.put("/batchTrim/rotation", "value decision reason");
    keys.put("/batchTrim/scale", "xPpm yPpm squarenessMrad decision reason");
    keys.put("/batchTrim/array", "boards decision reason");
    keys.put("/batchTrim/common", "x y decision reason");
    keys.put("/batchTrim/rotationZero", "value decision reason");
    keys.put("/tests/0", "family statistic p passes");
    keys.put("/varianceComponents/0", "source axis sd removable");
    keys.put("/budget/0", "source meanSquare removable");
    keys.put("/scatter", "sdX sdY sdRotation measuringSd degreesOfFreedom");
    keys.put("/quadrants/0", "rotation count x y standardErrors");
    keys.put("/excluded/0", "panel column row ref kind sentence");
    keys.put(
        "/placements/0",
        "panel column row ref part nominal deviation residual afterTrim margin"
            + " marginAfterTrim probabilityOutside probabilityOutsideAfterTrim verdict");
    keys.put(
        "/acceptance",
        "class outside outsideAfterTrim expectedOutside"
            + " expectedOutsideAfterTrim cpk cpkLower95 cpkAfterTrim");
    keys.put("/clearances/0", "panel a b gap gapAfterTrim probabilityTouching");
    keys.forEach(
        (path, names) -> {
          for (String n : names.split(" ")) {
            assertThat(a.at(path).has(n)).as(path + "/" + n).isTrue();
          }
        });
    assertThat(a.at("/counts/nominal").asInt()).isEqualTo(360);
    assertThat(a.at("/placements").size()).isEqualTo(360);
    assertThat(a.at("/panels/0/transform/shiftX").isNumber()).isTrue();
    assertThat(Files.readString(report.resolve("analysis.json"), StandardCharsets.UTF_8))
        .doesNotContain("NaN", "Infinity");
  }

  @Test
  void quietSaysNothing() {
    Run r =
        Run.of(
            "analyse",
            "samples/main-job/job.json",
            "samples/main-job/article-1.csv",
            "--quiet",
            "--out",
            dir.resolve("q"));
    assertThat(r.code()).isZero();
    assertThat(r.out()).isEmpty();
    assertThat(r.err()).isEmpty();
    assertThat(dir.resolve("q/report.html")).isNotEmptyFile();
  }

  @Test
  void helpTeachesByExample() {
    for (String command : List.of("analyse", "demo", "inspect")) {
      Run r = Run.of(command, "--help");
      assertThat(r.code()).isZero();
      assertThat(r.out()).contains("Example").contains("padtrue " + command);
    }
  }

  // ---- the reference fit through the files ----

  private static final String MIXED = "/org/padtrue/mixed/";

  /** Writes the simulated article of src/test/r/crossed-article.R as a user's files. */
  private Path crossedJob(boolean withNozzle) throws IOException {
    List<String[]> rows =
        ReferenceData.rows(AnalyseCommandTest.class, MIXED + "crossed-article.csv");
    Map<String, String> nominal = new LinkedHashMap<>();
    StringBuilder article = new StringBuilder("ref,column,row,dx,dy,drotation\n");
    for (String[] c : rows) {
      double bx = Double.parseDouble(c[5]) - 50 * (Integer.parseInt(c[3]) - 1);
      double by = Double.parseDouble(c[6]) - 40 * (Integer.parseInt(c[4]) - 1);
      nominal.put(
          c[0],
          String.format(
              java.util.Locale.ROOT,
              "%s,%s,%.2f,%.2f,%s%s",
              c[0],
              c[1],
              bx,
              by,
              c[7],
              withNozzle ? "," + c[2] : ""));
      article.append(String.join(",", c[0], c[3], c[4], c[8], c[9], c[10])).append('\n');
    }
    Files.writeString(
        dir.resolve("placements.csv"),
        "ref,part,x,y,rotation"
            + (withNozzle ? ",nozzle" : "")
            + "\n"
            + String.join("\n", nominal.values())
            + "\n");
    Files.writeString(dir.resolve("article.csv"), article);
    return Files.writeString(
        dir.resolve("job.json"),
        """
        {"name": "reference", "placements": "placements.csv",
         "panel": {"columns": 3, "rows": 2, "boards": [
           {"column": 1, "row": 1, "x": 0, "y": 0}, {"column": 3, "row": 1, "x": 100, "y": 0},
           {"column": 1, "row": 2, "x": 0, "y": 40}]}}
        """);
  }

  private static Map<String, Double> lme4(String model, String family) {
    Map<String, Double> v = new HashMap<>();
    for (String[] c : ReferenceData.rows(AnalyseCommandTest.class, MIXED + "crossed-values.csv")) {
      if (c[0].equals(model) && c[1].equals(family)) {
        v.put(c[2], Double.parseDouble(c[3]));
      }
    }
    return v;
  }

  /**
   * The reference fit as other programs ask for it, against lme4: files in, analysis.json out.
   * Without --random the factors are part and those whose columns are in the files; board only when
   * named.
   */
  @ParameterizedTest
  @CsvSource({
    "part+nozzle+board, affine, 'part,nozzle,board', true",
    "part+nozzle, affine, , true",
    "part+nozzle, shift, , true",
    "part, affine, , false",
    "part, similarity, part, true"
  })
  void referenceFitThroughTheFiles(String model, String family, String random, boolean nozzle)
      throws IOException {
    List<Object> args =
        new ArrayList<>(
            List.of(
                "analyse",
                crossedJob(nozzle),
                dir.resolve("article.csv"),
                "--transform",
                family,
                "--keep-outliers",
                "--equal-scatter",
                "--out",
                dir.resolve("out")));
    if (random != null) {
      args.addAll(List.of("--random", random));
    }
    Run r = Run.of(args.toArray());
    assertThat(r.code()).as(r.err()).isZero();
    JsonNode a = json(dir.resolve("out/analysis.json"));
    Map<String, Double> v = lme4(model, family);
    JsonNode t = a.at("/panels/0/transform");
    assertThat(a.at("/panels/0/transform/family").asText()).isEqualTo(family);
    assertThat(t.path("shiftX").asDouble()).isCloseTo(v.get("shiftX"), within(1e-6));
    assertThat(t.path("shiftY").asDouble()).isCloseTo(v.get("shiftY"), within(1e-6));
    assertThat(t.path("rotation").asDouble()).isCloseTo(v.get("rotation"), within(1e-6));
    int sds = 0;
    for (JsonNode c : a.path("varianceComponents")) {
      Double sd = v.get("sd " + c.path("source").asText() + " " + c.path("axis").asText());
      if (sd != null) {
        sds++;
        assertThat(c.path("sd").asDouble()).isCloseTo(sd, within(Math.max(1e-6, 1e-4 * sd)));
      }
    }
    assertThat(sds).isEqualTo(3 * model.split("\\+").length);
    assertThat(a.at("/common").isNull()).isTrue();
    int levels = 0;
    for (JsonNode g : a.path("groups")) {
      String name = g.path("factor").asText() + " " + g.path("level").asText();
      for (String axis : List.of("x", "y", "rotation")) {
        double tol = axis.equals("rotation") ? 2e-5 : 1e-6;
        assertThat(g.path("offset").path(axis).asDouble())
            .as(name + " " + axis)
            .isCloseTo(v.get(name + " " + axis), within(tol));
        levels++;
      }
    }
    long printed =
        v.keySet().stream()
            .filter(k -> k.matches("(part|nozzle|board) \\S+ (x|y|rotation)"))
            .count();
    assertThat(levels).isEqualTo((int) printed);
    assertThat(a.at("/rotationZero/value").asDouble())
        .isCloseTo(v.get("rotationZero"), within(2e-5));
  }

  // ---- bad input ----

  private static final String JOB = "{\"placements\": \"p.csv\"}";
  private static final String PLACEMENTS = "ref,part,x,y,rotation\nR1,A,1,2,0\nR2,A,30,4,90\n";
  private static final String ARTICLE = "ref,dx,dy,drotation\nR1,0.01,0.02,0.1\nR2,0.03,0.01,0\n";

  private Run bad(String job, String placements, String article) throws IOException {
    Files.writeString(dir.resolve("job.json"), job);
    Files.writeString(dir.resolve("p.csv"), placements);
    Files.writeString(dir.resolve("a.csv"), article);
    Run r =
        Run.of(
            "analyse", dir.resolve("job.json"), dir.resolve("a.csv"), "--out", dir.resolve("out"));
    assertThat(r.code()).as(r.err()).isEqualTo(2);
    assertThat(r.out()).isEmpty();
    assertThat(r.err()).doesNotContain("Exception", "\tat ");
    // Nothing half-written.
    assertThat(dir.resolve("out")).doesNotExist();
    return r;
  }

  @Test
  void aCleanSetOfThreeFilesIsNoProblem() throws IOException {
    Files.writeString(dir.resolve("job.json"), JOB);
    Files.writeString(dir.resolve("p.csv"), PLACEMENTS);
    Files.writeString(dir.resolve("a.csv"), ARTICLE);
    Run r =
        Run.of(
            "analyse", dir.resolve("job.json"), dir.resolve("a.csv"), "--out", dir.resolve("out"));
    assertThat(r.code()).as(r.err()).isZero();
  }

  @Test
  void everyProblemIsOneLineWithPlaceAndMend() throws IOException {
    Run r =
        bad(
            JOB,
            PLACEMENTS,
            "ref,dx,dy,drotation\n"
                + "R1,0.01,abc,0.1\n"
                + "R22,0.03,0.01,0\n"
                + "R2,0.01,0.02,0\n"
                + "R2,0.01,0,0\n"
                + "R1,NaN,0,0\n");
    List<String> lines = r.err().lines().filter(l -> !l.startsWith("reading")).toList();
    assertThat(lines).as(r.err()).hasSize(4);
    assertThat(lines).allMatch(l -> l.contains("a.csv"));
    assertThat(lines).anyMatch(l -> l.contains("line 2") && l.contains("abc"));
    assertThat(lines).anyMatch(l -> l.contains("line 3") && l.contains("R22") && l.contains("R2"));
    assertThat(lines).anyMatch(l -> l.contains("line 5") && l.contains("R2"));
    assertThat(lines).anyMatch(l -> l.contains("line 6") && l.contains("NaN"));
  }

  @Test
  void unknownKeyOfTheJobNamesTheNearest() throws IOException {
    Run r = bad("{\"placement\": \"p.csv\"}", PLACEMENTS, ARTICLE);
    assertThat(r.err()).contains("job.json").contains("placement").contains("placements");
  }

  @Test
  void placementFileThatIsNotThere() throws IOException {
    Run r = bad("{\"placements\": \"nowhere.csv\"}", PLACEMENTS, ARTICLE);
    assertThat(r.err()).contains("nowhere.csv");
  }

  @Test
  void duplicateRefInThePlacements() throws IOException {
    Run r = bad(JOB, PLACEMENTS + "R1,A,9,9,0\n", ARTICLE);
    assertThat(r.err()).contains("p.csv").contains("line 4").contains("R1");
  }

  @Test
  void emptyArticle() throws IOException {
    Run r = bad(JOB, PLACEMENTS, "");
    assertThat(r.err()).contains("a.csv").contains("empty");
  }

  /** A header and no rows is an empty list, and then there is nothing to do. */
  @Test
  void nothingToDo() throws IOException {
    assertThat(bad(JOB, "ref,part,x,y,rotation\n", "ref,dx,dy,drotation\n").err())
        .contains("nothing to do");
    assertThat(bad(JOB, PLACEMENTS, "ref,dx,dy,drotation\n").err()).contains("nothing to do");
  }

  @Test
  void boardsInLineDoNotFixTheTiling() throws IOException {
    Run r =
        bad(
            """
            {"placements": "p.csv", "panel": {"columns": 3, "rows": 2, "boards": [
              {"column": 1, "row": 1, "x": 0, "y": 0}, {"column": 2, "row": 1, "x": 40, "y": 0},
              {"column": 3, "row": 1, "x": 80, "y": 0}]}}
            """,
            PLACEMENTS,
            ARTICLE);
    assertThat(r.err()).contains("job.json").contains("line");
  }

  @Test
  void boardsOutsideThePanelAndSkippedOnes() throws IOException {
    Run r =
        bad(
            """
            {"placements": "p.csv", "panel": {"columns": 3, "rows": 1, "skip": [[2, 1]], "boards": [
              {"column": 1, "row": 1, "x": 0, "y": 0}, {"column": 3, "row": 1, "x": 80, "y": 0}]}}
            """,
            PLACEMENTS,
            "ref,column,row,dx,dy,drotation\nR1,2,1,0.01,0.02,0\nR2,4,1,0.01,0.02,0\n");
    assertThat(r.err()).contains("line 2").contains("line 3");
  }

  @Test
  void wrongUsage() {
    Run noArticle = Run.of("analyse", "job.json");
    assertThat(noArticle.code()).isEqualTo(2);
    assertThat(noArticle.err()).contains("ARTICLE").contains("--help");
    Run family = Run.of("analyse", "job.json", "a.csv", "--transform", "bent");
    assertThat(family.code()).isEqualTo(2);
    assertThat(family.err()).contains("bent").contains("[auto, shift, rigid, similarity, affine]");
    Run count = Run.of("plan", "job.json", "--count", "x");
    assertThat(count.code()).isEqualTo(2);
    assertThat(count.err()).contains("'--count'").contains("'x' is no whole number");
    Run factor = Run.of("analyse", "job.json", "a.csv", "--random", "part,colour");
    assertThat(factor.code()).isEqualTo(2);
    assertThat(factor.err()).contains("colour").contains("nozzle");
    for (String wrong : List.of("part=panel", "nozzle=left", "nozzle", "colour=part")) {
      Run frame = Run.of("analyse", "job.json", "a.csv", "--frame", wrong);
      assertThat(frame.code()).isEqualTo(2);
      assertThat(frame.err())
          .contains("--frame says '" + wrong + "'; expected nozzle, feeder, head = part or panel");
    }
    assertThat(Run.of("analize").code()).isEqualTo(2);
  }
}
