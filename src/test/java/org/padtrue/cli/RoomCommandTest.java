package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.load.job.JobLoader;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredRoom;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.FirstArticleRecords;
import org.padtrue.report.record.RecordOptions;

/** {@code room} on files, and what follows it: the list corrected, checked, recorded. */
class RoomCommandTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  /** What the moves carry for rounding, mm. */
  private static final double MM = 1e-4;

  private static final String PARTS =
      """
      {"parts": [
        {"name": "BOX", "kind": "other", "envelope": {"length": 2, "width": 1, "zMin": 0, "zMax": 1},
         "tolerance": {"x": 0.2, "y": 0.2, "rotation": 5}},
        {"name": "BARE", "kind": "other"}
      ]}
      """;

  @TempDir private Path dir;

  private Path job(String placements, String more) throws IOException {
    Files.writeString(dir.resolve("parts.json"), PARTS);
    Files.writeString(dir.resolve("p.csv"), placements);
    return Files.writeString(
        dir.resolve("job.json"),
        "{\"name\": \"boxes\", \"placements\": \"p.csv\", \"parts\": \"parts.json\"" + more + "}");
  }

  private JsonNode room(Object... args) throws IOException {
    Object[] all = new Object[args.length + 4];
    all[0] = "room";
    System.arraycopy(args, 0, all, 1, args.length);
    all[args.length + 1] = "--out";
    all[args.length + 2] = dir;
    all[args.length + 3] = "--quiet";
    Run r = Run.of(all);
    assertThat(r.err()).isEmpty();
    assertThat(r.code()).isZero();
    return JSON.readTree(dir.resolve("room.json").toFile());
  }

  private static JsonNode move(JsonNode room, String ref) {
    for (JsonNode g : room.get("groups")) {
      for (JsonNode m : g.get("moves")) {
        if (m.get("ref").asText().equals(ref)) {
          return m;
        }
      }
    }
    throw new AssertionError(ref + " is not moved in " + room);
  }

  private static void is(JsonNode room, String ref, double x, double y) {
    assertThat(move(room, ref).get("x").asDouble()).as(ref + " x").isCloseTo(x, within(MM));
    assertThat(move(room, ref).get("y").asDouble()).as(ref + " y").isCloseTo(y, within(MM));
  }

  /** Moves stand in the file's own axes, of the bottom as seen from the top too. */
  @ParameterizedTest
  @ValueSource(strings = {"top", "bottom"})
  void asDrawnAndApplied(String side) throws IOException {
    Path job =
        job(
            "ref,part,x,y,rotation,side\nA,BOX,10,5,0,"
                + side
                + "\nB,BOX,12.04,5.1,0,"
                + side
                + "\nC,BOX,30,5,90,"
                + side
                + "\n",
            ", \"side\": \"" + side + "\"");
    JsonNode r = room(job);
    assertThat(r.get("schema").asText()).isEqualTo("padtrue/room/1");
    assertThat(r.get("groups")).hasSize(1);
    assertThat(r.get("groups").get(0).get("solved").asBoolean()).isTrue();
    is(r, "A", -0.03, 0);
    is(r, "B", 0.03, 0);
    assertThat(move(r, "A").get("margin").asDouble()).isCloseTo(0.2, within(1e-9));
    assertThat(move(r, "A").get("marginAfter").asDouble()).isCloseTo(0.17, within(MM));
    assertThat(Files.readString(dir.resolve("room.html"))).contains("<svg").contains("0.03");
    Path out = dir.resolve("moved.csv");
    Run a = Run.of("apply", job, "--room", dir.resolve("room.json"), "--out", out);
    assertThat(a.err()).isEmpty();
    assertThat(a.out()).contains("2 placements moved to make room");
    List<String> lines = Files.readAllLines(out);
    assertThat(lines.get(3)).isEqualTo("C,BOX,30,5,90," + side);
    Files.move(out, dir.resolve("p.csv"), java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    assertThat(room(job).get("groups")).isEmpty();
  }

  @Test
  void boardsThatLieTurnedMoveAlikeInTheListsAxes() throws IOException {
    Path job =
        job(
            "ref,part,x,y,rotation\nA,BOX,10,5,0\nB,BOX,12.04,5.1,0\n",
            ", \"panel\": {\"columns\": 2, \"rows\": 1, \"boards\": ["
                + "{\"column\": 1, \"row\": 1, \"x\": 0, \"y\": 0},"
                + " {\"column\": 2, \"row\": 1, \"x\": 80, \"y\": 40, \"turned\": 180}]}");
    JsonNode r = room(job);
    is(r, "A", -0.03, 0);
    is(r, "B", 0.03, 0);
    assertThat(r.get("groups").get(0).get("pairs")).hasSize(2);
  }

  @Test
  void inchesAndMilsGetTheirOwnDecimals() throws IOException {
    Path job = job("ref,part,x (mil),y (mil),rotation\nA,BOX,0,0,0\nB,BOX,80,0,0\n", "");
    JsonNode r = room(job);
    double gap = 80 * 0.0254 - 2;
    is(r, "A", -(0.1 - gap) / 2, 0);
    Path out = dir.resolve("moved.csv");
    assertThat(Run.of("apply", job, "--room", dir.resolve("room.json"), "--out", out).code())
        .isZero();
    Files.move(out, dir.resolve("p.csv"), java.nio.file.StandardCopyOption.REPLACE_EXISTING);
    assertThat(room(job).get("groups")).isEmpty();
  }

  @Test
  void whatIsNotKnownIsNamed() throws IOException {
    Path job = job("ref,part,x,y,rotation\nA,BOX,0,0,0\nX,BARE,1,0,0\n", "");
    JsonNode r = room(job);
    assertThat(r.get("groups")).isEmpty();
    assertThat(r.get("withoutEnvelope").get(0).asText()).isEqualTo("BARE");
  }

  @ParameterizedTest
  @CsvSource({
    "'--fix', 'A,B', '--fix holds both'",
    "'--fix', 'BOX', '--fix holds both'",
    "'--fix', 'Q9', 'no placement and no part type'",
    "'--gap', '-1', 'a gap of 0 to 100 mm'",
    "'--gap', 'NaN', 'a gap of 0 to 100 mm'",
    "'--max', '0', 'a length of more than 0'",
    "'--probability', '1', 'a probability of more than 0.5'",
    "'--turn', 'Q9', 'no placement and no part type'",
  })
  void badWishesAreOneSentence(String option, String value, String said) throws IOException {
    Path job = job("ref,part,x,y,rotation\nA,BOX,0,0,0\nB,BOX,2.04,0,0\n", "");
    Run r = Run.of("room", job, option, value, "--out", dir.resolve("out"));
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err().lines().count()).isLessThanOrEqualTo(2);
    assertThat(r.err()).contains(said);
    assertThat(dir.resolve("out")).doesNotExist();
  }

  @Test
  void eachBoardNeedsAListOfTheWholePanel() throws IOException {
    Path job = job("ref,part,x,y,rotation\nA,BOX,0,0,0\nB,BOX,2.04,0,0\n", "");
    Run r = Run.of("room", job, "--each-board", "--out", dir.resolve("out"));
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).contains("leave --each-board out");
  }

  /** The sample's headers: too near with scatter, parted within their lands, then checked. */
  @Test
  void theSampleWithItsAnalysis() throws IOException {
    JsonNode r = room(SampleRun.JOB, SampleRun.analysis());
    JsonNode analysis = JSON.readTree(SampleRun.analysis().toFile());
    JsonNode g = r.get("groups").get(0);
    assertThat(g.get("solved").asBoolean()).isTrue();
    assertThat(g.get("pairs")).hasSize(6);
    for (JsonNode p : g.get("pairs")) {
      assertThat(p.get("probabilityBelowGapAfter").asDouble()).isLessThanOrEqualTo(0.01);
      for (JsonNode c : analysis.get("clearances")) {
        if (c.get("a").asText().equals(p.get("a").asText())
            && c.get("b").asText().equals(p.get("b").asText())) {
          // both say the same of the same pair
          assertThat(p.get("gap").asDouble())
              .isCloseTo(c.get("gapAfterTrim").asDouble(), within(1e-9));
          assertThat(p.get("probabilityTouching").asDouble())
              .isCloseTo(c.get("probabilityTouching").asDouble(), within(1e-9));
        }
      }
    }
    for (JsonNode m : g.get("moves")) {
      assertThat(m.get("probabilityOutsideAfter").asDouble()).isLessThanOrEqualTo(0.01);
      assertThat(m.get("marginAfter").asDouble()).isPositive();
    }
    Path json = dir.resolve("room.json");
    Run checked =
        Run.of(
            "check",
            SampleRun.JOB,
            SampleRun.analysis(),
            "samples/main-job/article-2.csv",
            "--room",
            json,
            "--out",
            dir.resolve("checked"));
    assertThat(checked.code()).isZero();
    JsonNode c = JSON.readTree(dir.resolve("checked/check.json").toFile());
    assertThat(c.get("gaps")).hasSize(6);
    assertThat(c.get("gaps").get(0).get("expected").asDouble())
        .isEqualTo(g.get("pairs").get(0).get("gapAfter").asDouble());
    // that panel was placed with the list as it was; one with the moved list has the gaps
    double before = c.get("gaps").get(0).get("seen").asDouble();
    Path second = movedArticle(move(r, "J1").get("x").asDouble());
    Run there =
        Run.of(
            "check",
            SampleRun.JOB,
            SampleRun.analysis(),
            second,
            "--room",
            json,
            "--out",
            dir.resolve("there"));
    assertThat(there.code()).isZero();
    assertThat(there.out().replaceAll("\\s+", " "))
        .contains("6 of the 6 gaps that were made room for are there as measured (0.100 mm");
    JsonNode t = JSON.readTree(dir.resolve("there/check.json").toFile());
    assertThat(t.get("gaps").get(0).get("seen").asDouble() - before)
        .isCloseTo(-2 * move(r, "J1").get("x").asDouble(), within(2e-3));
    // the moves are taken off: they change no verdict of the trims
    JsonNode unmoved = JSON.readTree(SampleRun.check().toFile());
    assertThat(t.get("verdict")).isEqualTo(unmoved.get("verdict"));
    FirstArticleRecord record =
        FirstArticleRecords.of(
            JobLoader.load(SampleRun.JOB).orThrow(),
            AnalysisJson.read(SampleRun.analysis()),
            RecordOptions.withDefaults().with(StoredRoom.read(json)));
    assertThat(record.moved()).hasSize(2);
    assertThat(record.moved().get(0).reason()).contains("gap to J2 was 0.114 mm, 0.100 mm wanted");
  }

  /** The sample's second panel, its J1 and J2 moved apart: x is rounded to 1 um. */
  private Path movedArticle(double by) throws IOException {
    List<String> out = new ArrayList<>();
    for (String line : Files.readAllLines(Path.of("samples/main-job/article-2.csv"))) {
      String[] c = line.split(",", -1);
      boolean one = c.length > 5 && c[2].equals("J1");
      boolean two = c.length > 5 && c[2].equals("J2");
      if (one || two) {
        c[3] = String.format(Locale.ROOT, "%.3f", Double.parseDouble(c[3]) + (one ? by : -by));
      }
      out.add(String.join(",", c));
    }
    return Files.write(dir.resolve("second.csv"), out);
  }

  @Test
  void anotherJobsRoomIsRefused() throws IOException {
    Path job = job("ref,part,x,y,rotation\nA,BOX,0,0,0\nB,BOX,2.04,0,0\n", "");
    room(job);
    Run r =
        Run.of(
            "apply",
            SampleRun.JOB,
            "--room",
            dir.resolve("room.json"),
            "--out",
            dir.resolve("moved.csv"));
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).contains("room of job 'boxes'");
    Run nothing = Run.of("apply", job, "--out", dir.resolve("moved.csv"));
    assertThat(nothing.code()).isEqualTo(2);
    assertThat(nothing.err()).contains("--room ROOM.json");
  }
}
