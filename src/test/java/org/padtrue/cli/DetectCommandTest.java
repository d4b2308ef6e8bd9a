package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.imaging.picture.PictureSampleMaker;
import org.padtrue.panel.Pose;

/** Pictures from the command line: to an article, and on to the analysis. */
class DetectCommandTest {
  private static final Path SAMPLE = PictureSampleMaker.FOLDER;
  private static final String JOB = SAMPLE.resolve("job.json").toString();
  private static final String PICTURE = SAMPLE.resolve("panel.jpg").toString();

  @TempDir Path dir;

  private record Ran(int code, String out, String err) {}

  private static Ran run(String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(args, new PrintWriter(out, true), new PrintWriter(err, true));
    return new Ran(code, out.toString(), err.toString());
  }

  @Test
  void plantedValuesComeBackFromThePicture() throws IOException {
    Path article = dir.resolve("article.csv");
    Ran d =
        run("detect", JOB, PICTURE, "--distance", "far", "--straight", "--out", article.toString());
    assertThat(d.err()).doesNotContain("fault");
    assertThat(d.code()).isZero();
    assertThat(d.out()).contains("registered on fiducials", "67 of 68 measured, 1 part missing");
    List<String> lines = Files.readAllLines(article);
    assertThat(lines.get(0)).isEqualTo("panel,column,row,ref,x,y,rotation,u,urotation,note");
    assertThat(lines)
        .contains("P1,2,1,R3,,,,,,part missing: bare ground shows between the lands")
        .anyMatch(l -> l.startsWith("P1,1,1,F1,"));
    assertThat(dir.resolve("article-overlay.png")).isNotEmptyFile();
    assertThat(dir.resolve("article-crops.png")).isNotEmptyFile();
    plantedComesBack(JOB, article);
  }

  /** The same by lands alone: shift and rotation are those against the copper. */
  @Test
  void plantedValuesComeBackByLandsAlone() throws IOException {
    String job = withoutFiducials().toString();
    Path article = dir.resolve("article.csv");
    Ran d =
        run("detect", job, PICTURE, "--distance", "far", "--straight", "--out", article.toString());
    assertThat(d.code()).isZero();
    assertThat(d.out())
        .contains("registered on lands", "the job names no fiducials: registered on the lands of ")
        .doesNotContain("Not known");
    assertThat(Files.readString(article))
        .contains("# registered on lands: board stretch and scale cannot be told apart")
        .doesNotContain("registered on parts");
    plantedComesBack(job, article);
    assertThat(Files.readString(dir.resolve("report/report.html"))).contains("against the lands");
  }

  /**
   * What was planted comes back within its stated errors. Nine values at 3.3 standard errors: a
   * false alarm in a hundred.
   */
  private void plantedComesBack(String job, Path article) throws IOException {
    JsonNode a = analysed(job, article);
    JsonNode t = a.get("panels").get(0).get("transform");
    JsonNode se = a.get("panels").get(0).get("standardErrors");
    Pose planted = PictureSampleMaker.REGISTRATION;
    List<Double> z = new ArrayList<>();
    z.add(z(t, se, "shiftX", planted.xMm()));
    z.add(z(t, se, "shiftY", planted.yMm()));
    z.add(z(t, se, "rotation", planted.rotationDeg()));
    for (JsonNode g : a.get("groups")) {
      Pose p = PictureSampleMaker.OFFSETS.get(g.get("level").asText());
      if (p != null) {
        JsonNode s = g.get("standardErrors");
        z.add(z(g.get("offset"), s, "x", p.xMm()));
        z.add(z(g.get("offset"), s, "y", p.yMm()));
        z.add(z(g.get("combined"), g.get("combinedStandardErrors"), "rotation", p.rotationDeg()));
      }
    }
    System.out.println("planted values, from picture to analysis, z: " + z);
    assertThat(z).hasSize(9).allSatisfy(v -> assertThat(v).isBetween(-3.3, 3.3));
  }

  /** Bare lands look alike everywhere: what they teach would be found at every part. */
  @Test
  void aMissingPartTeachesNothing() {
    Ran r = run("detect", JOB, PICTURE, "--teach", "2/1/R3", "--out", dir + "/a.csv");
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err())
        .contains(
            "--teach 2/1/R3: bare ground shows between its lands, as if the part were missing;"
                + " name one that is placed; where it is placed, say how large it is, such as"
                + " --teach 2/1/R3@3.2x2.5");
    assertThat(dir).isEmptyDirectory();
  }

  /** Whoever may read a folder's files may read the pictures too; no file is left half-written. */
  @Test
  void picturesHaveTheUsualRights() throws IOException {
    Path article = dir.resolve("a.csv");
    assertThat(run("detect", JOB, PICTURE, "--quiet", "--out", article.toString()).code()).isZero();
    for (String end : List.of("a-overlay.png", "a-crops.png")) {
      assertThat(Files.getPosixFilePermissions(dir.resolve(end)))
          .isEqualTo(Files.getPosixFilePermissions(article));
    }
    Path folder = Files.createDirectory(dir.resolve("b.csv"));
    Ran r = run("detect", JOB, PICTURE, "--out", folder.toString());
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err())
        .isEqualToIgnoringNewLines(
            folder
                + ": the file cannot be written (something else of that name is in the way); choose"
                + " another folder with --out");
    try (Stream<Path> all = Files.list(dir)) {
      assertThat(all.map(p -> p.getFileName().toString()))
          .containsExactlyInAnyOrder("a.csv", "a-overlay.png", "a-crops.png", "b.csv");
    }
  }

  private static double z(JsonNode value, JsonNode se, String key, double planted) {
    return (value.get(key).asDouble() - planted) / se.get(key).asDouble();
  }

  /** The sample's job in a folder of its own, its fiducials not named. */
  private Path withoutFiducials() throws IOException {
    try (Stream<Path> files = Files.list(SAMPLE)) {
      for (Path f : files.toList()) {
        Files.copy(f, dir.resolve(f.getFileName()));
      }
    }
    Path job = dir.resolve("job.json");
    String text = Files.readString(job);
    Files.writeString(job, text.replaceFirst("(?s),\\s*\"fiducials\": \\[.*?\\]\\s*\\}", "}"));
    return job;
  }

  /** Fiducials that are those of another panel: what stands there is not what the job has there. */
  @Test
  void pictureOfAnotherSideWithTheSameFiducials() throws IOException {
    StringBuilder other = new StringBuilder();
    for (String l : Files.readAllLines(SAMPLE.resolve("placements.csv"))) {
      String[] c = l.split(",");
      if (c[0].equals("ref")) {
        other.append(l).append('\n');
      } else {
        // the bottom of the board as it might be: same parts, mirrored and turned
        double x = 25.6 - Double.parseDouble(c[3]);
        double y = 3 + 0.8 * Double.parseDouble(c[2]);
        other.append(c[0]).append(',').append(c[1]);
        other.append(String.format(java.util.Locale.ROOT, ",%.2f,%.2f,%s%n", x, y, c[4]));
      }
    }
    Files.writeString(dir.resolve("placements.csv"), other);
    Files.copy(SAMPLE.resolve("parts.json"), dir.resolve("parts.json"));
    Path job = Files.copy(SAMPLE.resolve("job.json"), dir.resolve("job.json"));
    Path article = dir.resolve("a.csv");
    Ran d = run("detect", job.toString(), PICTURE, "--quiet", "--out", article.toString());
    assertThat(d.code()).isEqualTo(2);
    assertThat(d.err())
        .isEqualTo(
            PICTURE
                + ": only 6 of 68 placements are seen where the job has them (18 doubtful, 3 not"
                + " found, 41 part missing), so this looks like another board, side or revision"
                + " than the job's; give the picture of this board, or its job; a picture may be"
                + " too coarse, too, or say --as-is if it is really so (\"asIs\": [\"otherBoard\"]"
                + " in the job keeps that answer)\n");
    assertThat(article).doesNotExist();
  }

  /**
   * Without fiducials and lands the article says so, and the analysis does not claim shift and
   * rotation.
   */
  @Test
  void registeredOnPartsIsCarriedIntoTheAnalysis() throws IOException {
    Path job = withoutFiducials();
    Path parts = dir.resolve("parts.json");
    ObjectMapper json = new ObjectMapper();
    JsonNode types = json.readTree(parts.toFile());
    types.get("parts").forEach(t -> ((ObjectNode) t).remove("lands"));
    json.writeValue(parts.toFile(), types);
    Path article = dir.resolve("a.csv");
    Ran d = run("detect", job.toString(), PICTURE, "--out", article.toString());
    assertThat(d.err()).doesNotContain("fiducials were found");
    assertThat(d.code()).isZero();
    assertThat(d.out()).contains("registered on parts", "Not known   panel offset and rotation");
    assertThat(Files.readString(article)).contains("# registered on parts");
    JsonNode a = analysed(job.toString(), article);
    JsonNode t = a.get("panels").get(0).get("transform");
    assertThat(t.get("shiftX").isNull()).isTrue();
    assertThat(t.get("rotation").isNull()).isTrue();
  }

  private JsonNode analysed(String job, Path article) throws IOException {
    Path out = dir.resolve("report");
    Ran r = run("analyse", job, article.toString(), "--out", out.toString(), "--quiet");
    assertThat(r.err()).isEmpty();
    assertThat(r.code()).isZero();
    return new ObjectMapper().readTree(out.resolve("analysis.json").toFile());
  }

  @Test
  void calibrateWritesACameraThatDetectReads() throws IOException {
    List<String> args = new ArrayList<>(List.of("calibrate"));
    for (String n : List.of("01", "02", "03", "04", "05", "06")) {
      args.add("src/test/resources/org/padtrue/imaging/chessboard/left" + n + ".jpg");
    }
    Path camera = dir.resolve("camera.json");
    args.addAll(List.of("--grid", "9x6", "--pitch", "25", "--out", camera.toString()));
    Ran c = run(args.toArray(String[]::new));
    assertThat(c.code()).isZero();
    assertThat(c.out()).contains("from 6 of 6 pictures of 640 x 480 px", "Residual");
    JsonNode lens = new ObjectMapper().readTree(camera.toFile()).get("lens");
    assertThat(lens.get("fx").asDouble()).isBetween(500.0, 570.0);
    Path article = dir.resolve("a.csv");
    Ran d = run("detect", JOB, PICTURE, "--camera", camera.toString(), "--out", article.toString());
    assertThat(d.code()).isEqualTo(2);
    assertThat(d.err())
        .contains("the camera was calibrated at 640 x 480; take both with the same setting");
    assertThat(article).doesNotExist();
  }

  @Test
  void wrongUsageIsOneSentence() {
    String out = dir.resolve("a.csv").toString();
    assertThat(run("detect", JOB, PICTURE, "--close-ups", "--scale", "-3", "--out", out).err())
        .isEqualTo(
            "padtrue: --scale is -3.0; expected px per mm, more than 0; see 'padtrue detect --help'"
                + System.lineSeparator());
    assertThat(run("detect", JOB, PICTURE, "--teach", "R1@3", "--out", out).err())
        .contains("--teach is 'R1@3'; expected REF, COLUMN/ROW/REF, REF@LENGTHxWIDTH or");
    assertThat(run("detect", JOB, PICTURE, "--teach", "R99", "--out", out).err())
        .isEqualTo(
            "--teach 1/1/R99: the job has no such placement; check column, row and ref"
                + System.lineSeparator());
    assertThat(run("detect", JOB, PICTURE, "--taught", dir.toString(), "--out", out).err())
        .contains("there is no folder with taught looks here");
    assertThat(run("detect", JOB, PICTURE, "--distance", "-3", "--out", out).err())
        .contains("--distance is '-3'; expected mm, more than 0, or 'far'");
    assertThat(run("calibrate", PICTURE, "--grid", "9", "--pitch", "5", "--out", out).err())
        .contains("--grid is '9'; expected COLUMNSxROWS of 3 and more, such as 9x6");
    Ran r = run("detect", JOB, JOB, "--out", out);
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err())
        .isEqualTo(
            JOB
                + ": this is not a JPEG, PNG, TIFF or BMP picture; give a picture"
                + System.lineSeparator());
    assertThat(Path.of(out)).doesNotExist();
  }

  /** A command without pictures loads no class of the picture library. */
  @Test
  void analyseNeverLoadsThePictureLibrary() throws Exception {
    Path article = dir.resolve("few.csv");
    Files.writeString(article, "ref,column,row,dx,dy\nR1,1,1,0.01,0\nR2,1,1,0.02,0\nC1,1,1,0,0\n");
    Path log = dir.resolve("classes.txt");
    Process p =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xshare:auto",
                "-Xlog:class+load:file=" + log,
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName(),
                "analyse",
                JOB,
                article.toString(),
                "--out",
                dir.resolve("few").toString(),
                "--quiet")
            .redirectErrorStream(true)
            .redirectOutput(dir.resolve("console.txt").toFile())
            .start();
    assertThat(p.waitFor()).as(Files.readString(dir.resolve("console.txt"))).isZero();
    List<String> classes = Files.readAllLines(log);
    assertThat(classes).anyMatch(l -> l.contains("org.padtrue.cli.AnalyseCommand"));
    assertThat(classes).noneMatch(l -> l.contains("org.bytedeco") || l.contains("org.opencv"));
  }
}
