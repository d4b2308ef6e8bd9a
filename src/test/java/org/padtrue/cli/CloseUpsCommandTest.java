package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.imaging.CloseUpMaker;
import org.padtrue.panel.Pose;

/** Close-ups from a list, the camera known by the fiducials among them. */
class CloseUpsCommandTest {
  @TempDir Path dir;

  private record Ran(int code, String out, String err) {}

  private static Ran run(String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(args, new PrintWriter(out, true), new PrintWriter(err, true));
    return new Ran(code, out.toString(), err.toString());
  }

  private Ran detect(String... more) {
    List<String> args =
        Stream.concat(
                Stream.of(
                    "detect",
                    dir.resolve("job.json").toString(),
                    dir.resolve("shots.csv").toString(),
                    "--close-ups",
                    "--distance",
                    "far",
                    "--out",
                    dir.resolve("article.csv").toString()),
                Stream.of(more))
            .toList();
    return run(args.toArray(String[]::new));
  }

  /** Cells of the article's line of a reference: x, y, rotation, u. */
  private double[] row(String ref) throws Exception {
    String line =
        Files.readAllLines(dir.resolve("article.csv")).stream()
            .filter(l -> l.startsWith("P1,1,1," + ref + ","))
            .findFirst()
            .orElseThrow();
    String[] c = line.split(",", -1);
    double[] v = new double[4];
    for (int i = 0; i < 4; i++) {
      v[i] = c[4 + i].isEmpty() ? Double.NaN : Double.parseDouble(c[4 + i]);
    }
    return v;
  }

  @Test
  void aFiducialFromThreePlacesGivesScaleAndDirection() throws Exception {
    CloseUpMaker maker = new CloseUpMaker(dir);
    maker.write(3);
    Ran r = detect();
    assertThat(r.err()).doesNotContain("padtrue:");
    assertThat(r.code()).isZero();
    assertThat(r.out())
        .contains("Close-ups   7", "4 of 4 measured", "scale and direction by 3 close-ups");
    double[] scale = number(r.out(), "different places: ([\\d.]+) px/mm \\+- ([\\d.]+) %");
    // Within three of its own standard uncertainties, and of use: a thousandth is 1 um per mm.
    assertThat(scale[1]).isLessThan(0.2);
    assertThat(100 * Math.abs(scale[0] / CloseUpMaker.PX_PER_MM - 1)).isLessThan(3 * scale[1]);
    double[] turn = number(r.out(), "points ([-\\d.]+) degrees \\+- ([\\d.]+)");
    assertThat(Math.abs(turn[0] - CloseUpMaker.TURN_DEG)).isLessThan(3 * turn[1]);
    for (var e : maker.truth.entrySet()) {
      double[] v = row(e.getKey());
      Pose t = e.getValue();
      assertThat(Math.hypot(v[0] - t.xMm(), v[1] - t.yMm())).as(e.getKey()).isLessThan(0.012);
    }
    double[] f = row("F1");
    assertThat(Math.hypot(f[0] - 1, f[1] - 1.5)).isLessThan(0.003);
    assertThat(dir.resolve("article-crops.png")).isNotEmptyFile();
    try (Stream<Path> files = Files.list(dir)) {
      assertThat(files.filter(p -> p.toString().contains("article-")).toList()).hasSize(1);
    }
  }

  @Test
  void aFiducialFromOnePlaceGivesTheScaleByItsDiameter() throws Exception {
    CloseUpMaker maker = new CloseUpMaker(dir);
    maker.write(1);
    Ran r = detect("--turned", String.valueOf(CloseUpMaker.TURN_DEG));
    assertThat(r.code()).as(r.err()).isZero();
    double[] scale = number(r.out(), "by the diameter of 1 .*: ([\\d.]+) px/mm \\+- ([\\d.]+) %");
    assertThat(100 * Math.abs(scale[0] / CloseUpMaker.PX_PER_MM - 1)).isLessThan(2 * scale[1]);
    assertThat(row("U1")[3]).isGreaterThan(0.001);
    Files.writeString(
        dir.resolve("shots.csv"),
        Files.readString(dir.resolve("shots.csv")).replaceAll("(?m)^F1.*\\R", ""));
    Ran none = detect();
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err())
        .contains(
            "close-ups: nothing tells their scale; give --scale PX_PER_MM, close-ups of a"
                + " fiducial, or --camera with --distance");
  }

  /** Half the scale: nothing is where it should be, and nothing is written. */
  @Test
  void anotherScaleIsAskedAbout() throws Exception {
    new CloseUpMaker(dir).write(0);
    Ran r =
        detect(
            "--turned",
            String.valueOf(CloseUpMaker.TURN_DEG),
            "--scale",
            String.valueOf(CloseUpMaker.PX_PER_MM / 2));
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err().replace(dir + "/", ""))
        .matches(
            "shots.csv: only \\d of 4 placements are seen where the job has them \\(.*\\), so this"
                + " looks like another board, side or revision than the job's, or another scale;"
                + " give pictures of this board, or its job, and look at --scale and --turned, or"
                + " say --as-is if it is really so \\(\"asIs\": \\[\"otherBoard\"\\] in the job"
                + " keeps that answer\\)\n");
    assertThat(dir.resolve("article.csv")).doesNotExist();
  }

  private static double[] number(String text, String pattern) {
    var m = java.util.regex.Pattern.compile(pattern).matcher(text);
    assertThat(m.find()).as(text).isTrue();
    return new double[] {Double.parseDouble(m.group(1)), Double.parseDouble(m.group(2))};
  }
}
