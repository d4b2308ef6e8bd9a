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
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** `record`, `drift`, `history` and `analyse --history` from the command line to the files. */
class RecordCommandTest {
  private static final String[] TYPES = {"A", "B", "C"};

  @TempDir Path dir;
  private Path job;
  private Path log;

  @BeforeEach
  void writeJob() throws IOException {
    StringBuilder csv = new StringBuilder("ref,part,x,y,rotation\n");
    for (int i = 0; i < 36; i++) {
      csv.append(
          String.format(
              Locale.ROOT,
              "U%d,%s,%d,%d,%d\n",
              i + 1,
              TYPES[i % 3],
              10 + 15 * (i % 6),
              10 + 12 * (i / 6),
              90 * (i / 3 % 4)));
    }
    Files.writeString(dir.resolve("placements.csv"), csv);
    job = dir.resolve("job.json");
    Files.writeString(job, "{\"name\": \"J\", \"placements\": \"placements.csv\"}");
    log = dir.resolve("log.db");
  }

  /** Deviations with a planted scale in x, an offset of type B along its x, and scatter. */
  private Path article(String name, long seed, double scaleXPpm, double offsetB)
      throws IOException {
    Random random = new Random(seed);
    StringBuilder csv = new StringBuilder("ref,dx,dy,drotation\n");
    for (int i = 0; i < 36; i++) {
      double x = 10 + 15 * (i % 6);
      double turn = Math.toRadians(90 * (i / 3 % 4));
      double own = i % 3 == 1 ? offsetB : 0;
      csv.append(
          String.format(
              Locale.ROOT,
              "U%d,%.5f,%.5f,%.3f\n",
              i + 1,
              0.02 + 1e-6 * scaleXPpm * x + own * Math.cos(turn) + 0.004 * random.nextGaussian(),
              -0.01 + own * Math.sin(turn) + 0.004 * random.nextGaussian(),
              0.1 * random.nextGaussian()));
    }
    Path p = dir.resolve(name);
    Files.writeString(p, csv);
    return p;
  }

  private Run record(Path article, Object... more) {
    List<Object> args = new ArrayList<>(List.of("record", job, article, "--history", log));
    args.addAll(List.of(more));
    return Run.of(args.toArray());
  }

  private JsonNode drift(Object... more) throws IOException {
    Path out = dir.resolve("out");
    List<Object> args =
        new ArrayList<>(List.of("drift", "--quiet", "--history", log, "--out", out));
    args.addAll(List.of(more));
    Run r = Run.of(args.toArray());
    assertThat(r.err()).isEmpty();
    assertThat(r.code()).isZero();
    return new ObjectMapper().readTree(out.resolve("drift.json").toFile());
  }

  private static JsonNode series(JsonNode drift, String name) {
    for (JsonNode s : drift.get("series")) {
      if (s.get("name").asText().equals(name)) {
        return s;
      }
    }
    throw new AssertionError("no series " + name);
  }

  /** Berlin, 2026: clocks go from 2 to 3 on 29 March, and from 3 back to 2 on 25 October. */
  @Test
  void localTimesThatDoNotExistOrExistTwiceAreNotGuessed() throws IOException {
    Path a = article("a1.csv", 1, 0, 0);
    Run gap = record(a, "--zone", "Europe/Berlin", "--at", "2026-03-29T02:30");
    assertThat(gap.code()).isEqualTo(2);
    assertThat(gap.err().lines().toList())
        .singleElement()
        .asString()
        .contains("--at")
        .contains(
            "'2026-03-29T02:30' does not exist in Europe/Berlin: clocks went from 02:00 to 03:00");
    Run twice = record(a, "--zone", "Europe/Berlin", "--at", "2026-10-25 02:30");
    assertThat(twice.code()).isEqualTo(2);
    assertThat(twice.err())
        .contains("'2026-10-25 02:30' exists twice in Europe/Berlin, as clocks were set back")
        .contains("2026-10-25T02:30+02:00 for the first or 2026-10-25T02:30+01:00 for the second");
    assertThat(log).doesNotExist();
    assertThat(record(a, "--zone", "Europe/Bonn", "--at", "2026-10-25 02:30").err())
        .contains("--zone: 'Europe/Bonn' is not a zone");
    record(a, "--zone", "Europe/Berlin", "--at", "2026-10-25T02:30+01:00");
    assertThat(drift().get("series").get(0).get("points").get(0).get("at").asText())
        .isEqualTo("2026-10-25T01:30:00Z");
  }

  @Test
  void timesOfATableOfConditionsNameTheirLine() throws IOException {
    Path folder = Files.createDirectory(dir.resolve("old"));
    Files.move(article("a1.csv", 1, 0, 0), folder.resolve("a1.csv"));
    Files.move(article("a2.csv", 2, 0, 0), folder.resolve("a2.csv"));
    Path table = dir.resolve("conditions.csv");
    Files.writeString(table, "article,at\na1.csv,2026-03-29T02:30\na2.csv,2026-03-29T01:30\n");
    Run r =
        Run.of(
            "record",
            job,
            "--import",
            folder,
            "--conditions",
            table,
            "--zone",
            "Europe/Berlin",
            "--history",
            log);
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err()).contains("conditions.csv").contains("line 2").contains("does not exist");
    assertThat(drift().get("series").get(0).get("points").get(0).get("at").asText())
        .isEqualTo("2026-03-29T00:30:00Z");
  }

  @Test
  void trimsAddUpAndAreTakenOffTheState() throws IOException {
    record(article("a1.csv", 1, 300, 0.05), "--at", "2026-01-05T06:00Z");
    record(
        article("a2.csv", 2, 200, 0.03),
        "--at",
        "2026-01-06T06:00Z",
        "--trim",
        "scaleXPpm=-100",
        "--trim",
        "part B x=-0.02");
    record(article("a3.csv", 3, 150, 0.03), "--at", "2026-01-07T06:00Z", "--trim", "scaleXPpm=-50");
    JsonNode alone = drift("--json-only");
    assertThat(dir.resolve("out")).isDirectoryContaining("glob:**drift.json");
    assertThat(dir.resolve("out")).isDirectoryNotContaining("glob:**{.html,charts}");
    JsonNode d = drift();
    assertThat(alone).isEqualTo(d);
    assertThat(d.get("schema").asText()).isEqualTo("padtrue/drift/1");
    assertThat(d.get("machine").asText()).isEqualTo("M1");
    assertThat(d.get("articles").asInt()).isEqualTo(3);
    double[] trims = {0, -100, -150};
    JsonNode points = series(d, "scaleXPpm").get("points");
    for (int i = 0; i < 3; i++) {
      JsonNode p = points.get(i);
      assertThat(p.get("at").asText()).isEqualTo("2026-01-0" + (5 + i) + "T06:00:00Z");
      assertThat(p.get("article").asText()).isEqualTo(Integer.toString(i + 1));
      assertThat(p.get("value").asDouble() - p.get("state").asDouble())
          .isCloseTo(trims[i], within(1e-9));
      // what was planted, within four of its own standard errors
      assertThat(p.get("state").asDouble())
          .isCloseTo(300, within(4 * p.get("standardError").asDouble()));
    }
    JsonNode type = series(d, "part B x").get("points").get(2);
    assertThat(type.get("state").asDouble())
        .isCloseTo(0.05, within(4 * type.get("standardError").asDouble()));
    assertThat(Files.readString(dir.resolve("out/drift.html"))).contains("Machine M1");
  }

  @Test
  void theTrimsOfAnAnalysisAreEnteredOnce() throws IOException {
    Path first = article("a1.csv", 1, 0, 0.08);
    record(first, "--at", "2026-01-05T06:00Z");
    Run.analyse(job, first, dir.resolve("r1"));
    Path json = dir.resolve("r1/analysis.json");
    Run r = record(article("a2.csv", 2, 0, 0), "--at", "2026-01-06T06:00Z", "--trims", json);
    assertThat(r.code()).isZero();
    assertThat(r.out()).contains("ADDED before it: ").contains("part type B, x -");
    Run again = record(article("a3.csv", 3, 0, 0), "--at", "2026-01-07T06:00Z", "--trims", json);
    assertThat(again.code()).isEqualTo(2);
    assertThat(again.err()).contains("would count twice; nothing was recorded");
    Run kind = record(article("a4.csv", 4, 0, 0), "--trims", json, "--entered", "offsets");
    assertThat(kind.code()).isEqualTo(2);
    assertThat(kind.err()).contains("--entered names 'offsets'; expected some of registration");
    JsonNode p = series(drift(), "part B x").get("points").get(1);
    assertThat(p.get("value").asDouble()).isCloseTo(0, within(0.01));
    assertThat(p.get("state").asDouble()).isCloseTo(0.08, within(0.01));
  }

  /** Turn and rest typed in one, or a turn by its name; anything but whole turns is refused. */
  @Test
  void aTurnTypedByHandIsApart() throws IOException {
    Run r = record(article("a1.csv", 1, 0, 0), "--trim", "part B rotation=-89.5");
    assertThat(r.code()).as(r.err()).isZero();
    assertThat(r.out()).contains("part type B, turn +270 deg, part type B, rotation +0.5 deg");
    Run named = record(article("a2.csv", 2, 0, 0), "--trim", "part B turn=90");
    assertThat(named.out()).contains("ADDED before it: part type B, turn +90 deg\n");
    Run wrong = record(article("a3.csv", 3, 0, 0), "--trim", "part B turn=45");
    assertThat(wrong.code()).isEqualTo(2);
    assertThat(wrong.err()).contains("--trim part B turn=45.0: a turn is 90, 180 or 270 degrees");
  }

  /** What was measured against a sample of unknown place has no offset to follow. */
  @Test
  void aTypeWithoutKnownOffsetHasNoSeriesOfIt() throws IOException {
    Path plain = article("plain.csv", 3, 400, 0.05);
    Path taught = dir.resolve("taught.csv");
    Files.writeString(taught, Files.readString(plain) + "# type offset not known: B\n");
    Path other = dir.resolve("other.db");
    assertThat(record(plain).code()).isZero();
    assertThat(Run.of("record", job, taught, "--history", other).code()).isZero();
    assertThat(drift().findValuesAsText("name")).contains("part A x", "part B x");
    log = other;
    assertThat(drift().findValuesAsText("name")).contains("part A x").doesNotContain("part B x");
  }

  @Test
  void theSameArticleTwiceIsRefused() throws IOException {
    Path a = article("a1.csv", 1, 0, 0);
    assertThat(record(a, "--at", "2026-01-05T06:00Z").code()).isZero();
    Run again = record(a, "--machine", "M2");
    assertThat(again.code()).isEqualTo(2);
    assertThat(again.err().lines().count()).isOne();
    assertThat(again.err())
        .startsWith(
            "a1.csv: the same article is in the log already as number 1 (machine M1, measured"
                + " 2026-01-05T06:00:00.000Z, recorded ");
  }

  @Test
  void aCorrectionTakesOverWhatIsNotGiven() throws IOException {
    Path a = article("a1.csv", 1, 0, 0);
    record(a, "--at", "2026-01-05T06:00Z", "--temperature", "22.5", "--shift", "early");
    assertThat(record(a, "--corrects", "1").err()).contains("--corrects needs --reason");
    assertThat(record(a, "--corrects", "9", "--reason", "x").err())
        .contains("there is no article number 9 in the log");
    Run r = record(a, "--corrects", "1", "--reason", "wrong shift", "--shift", "late");
    assertThat(r.code()).isZero();
    Run list = Run.of("history", "list", "--history", log);
    assertThat(list.out())
        .contains("a1.csv (corrected by 2)")
        .contains("late    22.5  a1.csv (corrects 1: wrong shift)");
    JsonNode d = drift();
    assertThat(d.get("articles").asInt()).isOne();
    assertThat(series(d, "shiftX").get("points").get(0).get("temperature").asDouble())
        .isEqualTo(22.5);
  }

  @Test
  void aFolderIsImportedInOrderOfTimeAndOnlyOnce() throws IOException {
    Path folder = Files.createDirectory(dir.resolve("old"));
    for (int i = 1; i <= 3; i++) {
      Files.move(article("x" + i, i, 0, 0), folder.resolve("x" + i + ".csv"));
    }
    Path table = dir.resolve("conditions.csv");
    Files.writeString(
        table,
        "article,at,temperature,trim scaleXPpm\n"
            + "x1.csv,2026-01-07T06:00Z,23,\n"
            + "x2.csv,2026-01-05T06:00Z,21,-10\n"
            + "x3.csv,2026-01-06T06:00Z,,\n");
    Object[] args = {"record", job, "--import", folder, "--conditions", table, "--history", log};
    assertThat(Run.of(args).out()).contains("3 articles recorded, 0 known already, 0 problems");
    assertThat(Run.of(args).out()).contains("0 articles recorded, 3 known already, 0 problems");
    JsonNode points = series(drift(), "scaleXPpm").get("points");
    assertThat(points.get(0).get("temperature").asDouble()).isEqualTo(21);
    assertThat(points.get(1).get("temperature").isNull()).isTrue();
    assertThat(points.get(2).get("value").asDouble() - points.get(2).get("state").asDouble())
        .isCloseTo(-10, within(1e-9));
    Files.writeString(table, "article,temprature\nx9.csv,23\n");
    Run bad = Run.of(args);
    assertThat(bad.code()).isEqualTo(2);
    assertThat(bad.err())
        .contains("the column 'temprature' is not known; perhaps 'temperature' is meant");
  }

  @Test
  void everythingIsExported() throws IOException {
    record(article("a1.csv", 1, 0, 0), "--note", "a \"quoted\", note");
    Path csv = dir.resolve("csv");
    Path json = dir.resolve("all.json");
    assertThat(Run.of("history", "export", "--history", log, "--csv", csv, "--json", json).code())
        .isZero();
    assertThat(Files.readAllLines(csv.resolve("placement.csv"))).hasSize(37);
    assertThat(Files.readString(csv.resolve("attachment.csv")))
        .isEqualTo("article_id,seq,sha256,file,bytes\n");
    assertThat(Files.readString(csv.resolve("article.csv"))).contains("\"a \"\"quoted\"\", note\"");
    JsonNode all = new ObjectMapper().readTree(json.toFile());
    assertThat(all.get("placement")).hasSize(36);
    assertThat(all.get("article").get(0).get("notes").asText()).isEqualTo("a \"quoted\", note");
  }

  @Test
  void theLogTellsAnAnalysisHowPanelsAreRegistered() throws IOException {
    Path a = article("a0.csv", 99, 0, 0);
    for (int i = 1; i <= 8; i++) {
      record(article("a" + i + ".csv", i, 0, 0), "--at", "2026-01-0" + i + "T06:00Z");
    }
    Run r = Run.of("analyse", job, a, "--history", log, "--out", dir.resolve("r"));
    assertThat(r.code()).isZero();
    assertThat(r.out().replaceAll("\\s+", " "))
        .contains("LOG registration repeatability x ")
        .contains("estimated from 8 articles of this job on machine M1 in the log");
    String notes =
        new ObjectMapper()
            .readTree(dir.resolve("r/analysis.json").toFile())
            .get("notes")
            .toString();
    assertThat(notes).contains("as the job gives none");
  }

  @Test
  void wrongUseIsOneSentence() throws IOException {
    Run none = Run.of("drift", "--history", log);
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err()).contains("there is no log here yet; record an article first");
    Path a = article("a1.csv", 1, 0, 0);
    assertThat(record(a, "--at", "yesterday").err()).contains("'yesterday' is not a time");
    assertThat(record(a, "--trim", "scaleX=3").err()).contains("--trim names 'scaleX'; expected");
    assertThat(Files.exists(log)).isFalse();
    record(a, "--machine", "M1");
    record(article("a2.csv", 2, 0, 0), "--machine", "M2");
    Run which = Run.of("drift", "--history", log);
    assertThat(which.err()).contains("the log has several machines: M1, M2; name one");
    assertThat(Run.of("drift", "--history", log, "--machine", "M3").err())
        .contains("the log has no machine 'M3'; it has M1, M2");
  }
}
