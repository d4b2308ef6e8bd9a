package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.imaging.CloseUpMaker;
import org.padtrue.panel.Pose;

/** A look learnt from one placement, stored, and used: on close-ups of two parts of one type. */
class TeachCommandTest {
  /** Both parts truly stand so far off. */
  private static final Pose OFF = new Pose(0.06, -0.04, 1.2);

  @TempDir Path dir;

  private record Ran(int code, String out, String err) {}

  private Ran detect(String... more) {
    String[] args =
        Stream.concat(
                Stream.of(
                    "detect", at("job.json"), at("shots.csv"), "--close-ups", "--out", at("a.csv")),
                Arrays.stream(more))
            .toArray(String[]::new);
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(args, new PrintWriter(out, true), new PrintWriter(err, true));
    return new Ran(code, out.toString(), err.toString());
  }

  private String at(String file) {
    return dir.resolve(file).toString();
  }

  private String article() throws Exception {
    return Files.readString(dir.resolve("a.csv"));
  }

  private double cell(String ref, int column) throws Exception {
    String line =
        article()
            .lines()
            .filter(l -> l.startsWith("P1,1,1," + ref + ","))
            .findFirst()
            .orElseThrow();
    return Double.parseDouble(line.split(",", -1)[column]);
  }

  private Pose pose(String ref) throws Exception {
    return new Pose(cell(ref, 4), cell(ref, 5), cell(ref, 6));
  }

  @Test
  void whatIsTaughtIsStoredUsedAndSaidToBeRelative() throws Exception {
    CloseUpMaker maker = new CloseUpMaker(dir);
    maker.write(3);
    Ran taught = detect("--teach", "U1", "--taught", at("looks"));
    assertThat(taught.code()).as(taught.err()).isZero();
    assertThat(taught.out())
        .contains(
            "R0603 was measured relative to its taught sample 1/1/U1 in U1.png, taken as standing"
                + " at its nominal pose: the type's own offset is not known");
    assertThat(article()).contains("# type offset not known: R0603");
    assertThat(dir.resolve("looks/R0603.png")).isNotEmptyFile();
    // The sample stands where it was said to stand.
    assertThat(pose("U1").xMm()).isBetween(4.997, 5.003);
    String first = article();

    Ran used = detect("--taught", at("looks"));
    assertThat(used.code()).as(used.err()).isZero();
    assertThat(article()).isEqualTo(first);
    // U4 lies at 270 degrees: what the sample is off, in the part frame, goes off its own pose.
    Pose truth = maker.truth.get("U4");
    Pose u4 = pose("U4");
    // One sample without its like: known to a few tenths of a degree, and so it is said.
    assertThat(Math.abs(u4.rotationDeg() + 90)).isLessThan(3 * cell("U4", 8)).isLessThan(0.8);
    double a = Math.toRadians(u4.rotationDeg());
    double x = truth.xMm() - (Math.cos(a) * OFF.xMm() - Math.sin(a) * OFF.yMm());
    double y = truth.yMm() - (Math.sin(a) * OFF.xMm() + Math.cos(a) * OFF.yMm());
    assertThat(Math.hypot(u4.xMm() - x, u4.yMm() - y)).isLessThan(0.008);
  }

  @Test
  void aSampleWhosePlaceIsKnownGivesTruePoses() throws Exception {
    CloseUpMaker maker = new CloseUpMaker(dir);
    maker.write(3);
    Ran r = detect("--teach", "1/1/U1=0.06,-0.04,1.2,0.002");
    assertThat(r.code()).as(r.err()).isZero();
    assertThat(article()).doesNotContain("not known");
    Pose truth = maker.truth.get("U4");
    Pose u4 = pose("U4");
    assertThat(Math.hypot(u4.xMm() - truth.xMm(), u4.yMm() - truth.yMm())).isLessThan(0.008);

    Files.createDirectories(dir.resolve("looks"));
    Files.writeString(dir.resolve("looks/R0603.json"), "{\"schema\": \"padtrue/taught/1\"}");
    Ran bad = detect("--taught", at("looks"));
    assertThat(bad.code()).isEqualTo(2);
    assertThat(bad.err())
        .contains("R0603.json")
        .contains("teach the type again with --teach")
        .hasLineCount(1);
  }

  /** What the article says is respected: no trim for the type, trims for others as before. */
  @Test
  void aTypeWithoutKnownOffsetIsNotTrimmed() throws Exception {
    Path sample = Path.of("samples", "main-job");
    String article = Files.readString(sample.resolve("article-1.csv"));
    Map<String, String> after =
        decisions(sample, article + "\n# type offset not known: OTHER; QFN32\n");
    // Planted in the sample, and trimmed but for that remark (MainJobSampleTest).
    assertThat(after).containsEntry("QFN32", "cannotTell").containsEntry("SOT23", "trim");
  }

  private Map<String, String> decisions(Path sample, String article) throws Exception {
    Files.writeString(dir.resolve("article.csv"), article);
    StringWriter err = new StringWriter();
    String[] args = {
      "analyse",
      sample.resolve("job.json").toString(),
      at("article.csv"),
      "--out",
      at("report"),
      "--quiet"
    };
    int code = Main.run(args, new PrintWriter(new StringWriter()), new PrintWriter(err, true));
    assertThat(code).as(err.toString()).isZero();
    Map<String, String> out = new TreeMap<>();
    for (JsonNode g :
        new ObjectMapper().readTree(dir.resolve("report/analysis.json").toFile()).get("groups")) {
      if (g.get("factor").asText().equals("part")) {
        out.put(g.get("level").asText(), g.get("trim").get("decision").asText());
      }
    }
    return out;
  }
}
