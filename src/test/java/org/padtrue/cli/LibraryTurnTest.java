package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedSeries;
import org.padtrue.history.LoggedTrim;
import org.padtrue.report.json.AnalysisHash;

/**
 * Part types whose library counts rotation from another zero, from the first article to the sheet,
 * the list, the check and the log. The analysis of an earlier version, whose rotations hold turn
 * and rest together, was written from the first article of {@link TurnedLine}.
 */
class LibraryTurnTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String EARLIER = "analysis-with-turns-in-rotation.json";

  /** To ADD, by type: minus the planted turn, modulo symmetry. */
  private static final Map<String, Integer> TURNS =
      Map.of(
          "R0603", 0, "C0402", 0, "SOT23", 270, "SOD123", 180, "L0805", 90, "QFN32", 90, "MELF", 0);

  /** Four standard errors of the mean of six rotations of SD 0.1 degrees, and a step of 0.01. */
  private static final double REST_DEG = 0.17;

  @TempDir private static Path dir;
  private static Path job;
  private static Path first;
  private static Path analysis;
  private static Path earlier;
  private static Run analysed;

  @BeforeAll
  static void analyseOnce() throws IOException {
    TurnedLine line = new TurnedLine();
    job = line.write(dir);
    first = line.article(dir.resolve("a1.csv"), 1);
    analysed = Run.of("analyse", job, first, "--out", dir.resolve("report"));
    assertThat(analysed.code()).as(analysed.err()).isZero();
    analysis = dir.resolve("report/analysis.json");
    earlier = dir.resolve("earlier.json");
    try (InputStream in =
        Objects.requireNonNull(LibraryTurnTest.class.getResourceAsStream(EARLIER))) {
      Files.copy(in, earlier);
    }
  }

  private static Path analysis(boolean old) {
    return old ? earlier : analysis;
  }

  @Test
  void turnAndRestAreApartOnTheSheet() throws IOException {
    for (JsonNode g : JSON.readTree(analysis.toFile()).path("groups")) {
      JsonNode t = g.path("trim");
      String level = g.path("level").asText();
      assertThat(t.path("turn").isIntegralNumber()).isTrue();
      assertThat(t.path("turn").asInt()).as(level).isEqualTo(TURNS.get(level));
      TurnedLine.Type type =
          TurnedLine.TYPES.stream().filter(k -> k.name().equals(level)).findFirst().orElseThrow();
      double rest = t.path("decision").asText().equals("trim") ? -type.rot() : 0;
      assertThat(t.path("rotation").asDouble()).as(level).isCloseTo(rest, within(REST_DEG));
    }
    List<String> csv = Files.readAllLines(dir.resolve("report/trims.csv"));
    assertThat(csv).anyMatch(l -> l.matches("part type SOT23,part type,,.*,mm,-0\\.8\\d,270,.*"));
    assertThat(csv).anyMatch(l -> l.matches("part type SOD123,part type,,0,0,mm,0,180,.*"));
    assertThat(analysed.out()).containsPattern("part type SOT23 +turn by 270 deg part");
    assertThat(Files.readString(dir.resolve("report/report.html"))).contains("turn by 270\u00b0");
  }

  /** The list gets the turned rotations, from an analysis of today and of an earlier version. */
  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void applyTurnsTheList(boolean old) throws IOException {
    Path out = dir.resolve("corrected" + old + ".csv");
    Run r = Run.of("apply", job, analysis(old), "--out", out);
    assertThat(r.code()).as(r.err()).isZero();
    assertThat(r.out()).containsPattern("part type SOT23 +part .*-0\\.8\\d +270 +9");
    Map<String, String[]> rows = rows(dir.resolve("placements.csv"));
    Map<String, String[]> corrected = rows(out);
    for (TurnedLine.Type t : TurnedLine.TYPES) {
      for (String ref : new TurnedLine().refs(t.name())) {
        double added =
            Double.parseDouble(corrected.get(ref)[4]) - Double.parseDouble(rows.get(ref)[4]);
        // what the machine then shows of the planted turn
        double left = Math.IEEEremainder(t.turn() + t.rot() + added, 360.0 / t.symmetry());
        assertThat(left).as(ref + " " + t).isCloseTo(0, within(REST_DEG));
      }
    }
  }

  /** The same files in another folder give the same analysis; another article gives another. */
  @Test
  void hashTellsAnalysesApart() throws IOException {
    Path moved = Files.createDirectory(dir.resolve("moved"));
    TurnedLine line = new TurnedLine();
    Path there = line.write(moved);
    Run.analyse(there, line.article(moved.resolve("a1.csv"), 1), moved);
    assertThat(AnalysisHash.of(moved.resolve("analysis.json")))
        .isEqualTo(AnalysisHash.of(analysis));
    Run.analyse(there, line.article(moved.resolve("a1.csv"), 2), moved);
    assertThat(AnalysisHash.of(moved.resolve("analysis.json")))
        .isNotEqualTo(AnalysisHash.of(analysis));
  }

  private static Map<String, String[]> rows(Path csv) throws IOException {
    Map<String, String[]> rows = new HashMap<>();
    for (String line : Files.readAllLines(csv)) {
      rows.put(line.split(",")[0], line.split(","));
    }
    return rows;
  }

  private static Map<String, JsonNode> check(boolean old, Map<String, Integer> turns, long seed)
      throws IOException {
    TurnedLine line = new TurnedLine();
    line.enter(analysis(old), turns);
    Path second = line.article(dir.resolve("second.csv"), seed);
    Run r = Run.of("check", job, analysis(old), second, "--out", dir.resolve("check"));
    assertThat(r.code()).as(r.err()).isZero();
    Map<String, JsonNode> terms = new HashMap<>();
    JSON.readTree(dir.resolve("check/check.json").toFile())
        .path("terms")
        .forEach(t -> terms.put(t.path("term").asText(), t));
    return terms;
  }

  @ParameterizedTest
  @CsvSource({"false, 501", "true, 502"})
  void checkSaysHeld(boolean old, long seed) throws IOException {
    Map<String, JsonNode> terms = check(old, Map.of(), seed);
    TURNS.forEach(
        (type, turn) -> {
          if (turn != 0) {
            JsonNode t = terms.get("part " + type);
            assertThat(t.path("finding").asText()).as(type).isEqualTo("held");
            assertThat(t.path("turn").path("promised").asInt()).isZero();
            assertThat(t.path("turn").path("seen").asInt(-1)).isZero();
            assertThat(t.path("promised").path("rotation").asDouble())
                .isCloseTo(0, within(REST_DEG));
          }
        });
    assertThat(terms.values()).allMatch(t -> t.path("kept").asBoolean());
  }

  /** 180 entered twice is 180 not entered; L0805 looks the same after half a turn. */
  @ParameterizedTest
  @CsvSource({
    "false, SOT23, 0, notEntered, 90",
    "true, SOT23, 0, notEntered, 90",
    "false, SOT23, 2, enteredTwice, 270",
    "true, SOT23, 2, enteredTwice, 270",
    "false, SOT23, -1, wrongSign, 180",
    "false, QFN32, -1, wrongSign, 180",
    "false, SOD123, 0, notEntered, 180",
    "true, SOD123, 2, notEntered, 180",
    "false, L0805, 0, notEntered, 90",
    "false, L0805, -1, held, 0"
  })
  void checkNamesTheTurnThatWentWrong(boolean old, String type, int times, String finding, int seen)
      throws IOException {
    Map<String, JsonNode> terms = check(old, Map.of(type, times), 600 + times);
    JsonNode wrong = terms.remove("part " + type);
    assertThat(wrong.path("finding").asText()).isEqualTo(finding);
    assertThat(wrong.path("turn").path("finding").asText()).isEqualTo(finding);
    assertThat(wrong.path("turn").path("seen").asInt()).isEqualTo(seen);
    assertThat(wrong.path("sentence").asText()).startsWith("its turn of ");
    assertThat(terms.values()).allMatch(t -> t.path("kept").asBoolean());
  }

  private static void record(Path log, Path article, int day, Object... more) {
    List<Object> args =
        new ArrayList<>(List.of("record", job, article, "--history", log, "--machine", "M1"));
    args.addAll(List.of("--at", String.format(Locale.ROOT, "2026-03-%02dT06:00Z", day), "--quiet"));
    args.addAll(List.of(more));
    Run r = Run.of(args.toArray());
    assertThat(r.code()).as(r.err()).isZero();
  }

  /**
   * Analysed, recorded, entered, recorded with its trims: no finding, and no rotation series that
   * moves by more than its scatter; the log has each turn as a quantity of its own.
   */
  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void aTurnIsNoJumpInTheLog(boolean old) throws IOException {
    Path log = dir.resolve("log" + old + ".db");
    TurnedLine line = new TurnedLine();
    int days = old ? 4 : 8;
    int change = days / 2 + 1;
    for (int day = 1; day <= days; day++) {
      boolean entered = day == change;
      if (entered) {
        line.enter(analysis(old), Map.of());
      }
      Path article =
          line.article(dir.resolve("day.csv"), day == 1 ? 1 : 700 + day + (old ? 50 : 0));
      record(
          log, article, day, entered ? new Object[] {"--trims", analysis(old)} : new Object[] {});
    }
    if (!old) {
      Run drift = Run.of("drift", "--history", log, "--out", dir.resolve("drift"));
      assertThat(drift.out()).as(drift.err()).contains("DRIFTS     nothing");
    }
    int rotations = 0;
    try (ArticleLog l = ArticleLog.open(log.toString())) {
      for (LoggedSeries s : l.series("M1", null)) {
        if (TURNS.keySet().stream().anyMatch(t -> s.name().equals("part " + t + " rotation"))) {
          rotations++;
          double[] state = s.points().stream().mapToDouble(p -> p.state()).toArray();
          for (double v : state) {
            // SD of a type's mean 0.04 degrees, of a difference 0.06
            assertThat(Math.abs(v - state[0])).as(s.name()).isLessThan(0.3);
          }
        }
      }
      Map<String, Double> turns = new HashMap<>();
      for (LoggedTrim t : l.article(change).orElseThrow().trims()) {
        if (t.turn()) {
          turns.put(t.name(), t.increment());
        } else {
          assertThat(Math.abs(t.increment())).as(t.name()).isLessThan(2);
        }
      }
      assertThat(turns)
          .isEqualTo(
              Map.of(
                  "part SOT23 turn", 270.0,
                  "part SOD123 turn", 180.0,
                  "part L0805 turn", old ? 270.0 : 90.0,
                  "part QFN32 turn", 90.0));
    }
    assertThat(rotations).isEqualTo(7);
  }
}
