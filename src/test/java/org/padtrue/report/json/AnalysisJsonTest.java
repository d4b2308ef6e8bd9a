package org.padtrue.report.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.panel.Factor;
import org.padtrue.problem.InputException;
import org.padtrue.report.HostileResults;
import org.padtrue.report.SampleResults;

/** analysis.json against the contract's example, which stands in contract-analysis.json. */
class AnalysisJsonTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir Path folder;

  @Test
  void everyKeyOfTheContractIsThereWithItsKind() throws IOException {
    JsonNode actual = tree(SampleResults.ofPanels(400, "P1", "P2"));
    List<String> wrong = new ArrayList<>();
    compare(contract(), actual, "", wrong);
    assertThat(wrong).isEmpty();
  }

  @Test
  void theWalkFindsWhatIsMissing() throws IOException {
    JsonNode actual = tree(SampleResults.of(60));
    ((com.fasterxml.jackson.databind.node.ObjectNode) actual.at("/groups/3/trim")).remove("reason");
    ((com.fasterxml.jackson.databind.node.ObjectNode) actual).put("tests", 1);
    List<String> wrong = new ArrayList<>();
    compare(contract(), actual, "", wrong);
    assertThat(wrong).containsExactly("/groups[3]/trim/reason is missing", "/tests is NUMBER");
  }

  /** Every element of a list must look like the example's one element. */
  private static void compare(JsonNode want, JsonNode got, String at, List<String> wrong) {
    if (want.isObject() && got.isObject()) {
      for (Map.Entry<String, JsonNode> e : want.properties()) {
        JsonNode v = got.get(e.getKey());
        String path = at + "/" + e.getKey();
        if (v == null) {
          wrong.add(path + " is missing");
        } else {
          compare(e.getValue(), v, path, wrong);
        }
      }
    } else if (want.isArray() && got.isArray()) {
      if (got.isEmpty()) {
        wrong.add(at + " is empty: the sample does not show its elements");
      }
      for (int i = 0; i < got.size(); i++) {
        compare(want.get(0), got.get(i), at + "[" + i + "]", wrong);
      }
    } else if (want.getNodeType() != got.getNodeType() && !got.isNull() && !want.isNull()) {
      wrong.add(at + " is " + got.getNodeType());
    }
  }

  @Test
  void unknownIsNullNeverNaN() throws IOException {
    FirstArticleResult r = SampleResults.of(120);
    String text = text(r);
    assertThat(text).doesNotContain("NaN").doesNotContain("Infinity").doesNotContain("-0.0,");
    JsonNode missing = null;
    for (JsonNode p : MAPPER.readTree(text).get("placements")) {
      if (p.get("verdict").asText().equals("notMeasured") && p.at("/deviation/x").isNull()) {
        missing = p;
      }
    }
    assertThat(missing).isNotNull();
    assertThat(missing.at("/deviation/rotation").isNull()).isTrue();
    assertThat(missing.get("margin").isNull()).isTrue();
    assertThat(missing.at("/nominal/x").isNumber()).isTrue();
    assertThat(MAPPER.readTree(text).at("/quadrants/3/x").isNull()).isTrue();
  }

  @Test
  void decisionsAreSpeltByTheirKeys() throws IOException {
    JsonNode tree = tree(SampleResults.of(400));
    List<String> seen = new ArrayList<>();
    tree.get("groups").forEach(g -> seen.add(g.at("/trim/decision").asText()));
    assertThat(seen).contains("trim", "leave", "cannotTell", "notAccepted");
    assertThat(tree.at("/batchTrim/array/decision").asText()).isEqualTo("notAccepted");
    assertThat(tree.at("/batchTrim/array/boards").size()).isEqualTo(3);
  }

  @Test
  void listsArePresentEvenWhenEmpty() throws IOException {
    JsonNode tree = tree(SampleResults.nothingToDo(20));
    assertThat(tree.get("trims").isArray()).isTrue();
    assertThat(tree.get("trims")).isEmpty();
    assertThat(tree.at("/batchTrim/array/boards").isArray()).isTrue();
    assertThat(tree.at("/batchTrim/array/boards")).isEmpty();
    for (String key :
        List.of(
            "tests", "budget", "quadrants", "aliases", "excluded", "placements", "clearances")) {
      assertThat(tree.get(key).isArray()).as(key).isTrue();
    }
  }

  @Test
  void arrayIsNullForOneBoardAndItsDirectionForOneRow() throws IOException {
    assertThat(tree(SampleResults.of(20)).at("/panels/0/array").isNull()).isTrue();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PanelResult p = SampleResults.of(120).panels().get(0);
    ArrayError oneRow =
        new ArrayError(new Xy(0.001, 0.002), Xy.UNKNOWN, new Xy(0.003, 0.004), Xy.UNKNOWN);
    PanelResult row =
        new PanelResult(
            p.panel(),
            p.article(),
            p.family(),
            p.transform(),
            p.standardErrors(),
            oneRow,
            p.families(),
            p.centroid(),
            p.shiftAtCentroid(),
            p.shiftAtCentroidSe(),
            p.fiducials());
    try (JsonOut out = new JsonOut(bytes)) {
      out.begin();
      JsonPanels.write(out, List.of(row));
      out.end();
    }
    JsonNode array = MAPPER.readTree(bytes.toByteArray()).at("/panels/0/array");
    assertThat(array.get("perRow").isNull()).isTrue();
    assertThat(array.at("/standardErrors/perRow").isNull()).isTrue();
    assertThat(array.at("/perColumn/y").asDouble()).isEqualTo(0.002);
  }

  @Test
  void whatIsReadIsWhatWasWrittenToTheLastBit() throws IOException {
    FirstArticleResult r = SampleResults.ofPanels(150, "P1", "P2");
    StoredAnalysis s = AnalysisJson.read(write(r));
    assertThat(s.job()).isEqualTo(r.job().name());
    assertThat(s.articles()).isEqualTo(r.articles());
    assertThat(s.groups()).isEqualTo(r.groups());
    assertThat(s.batchTrim()).isEqualTo(r.batchTrim());
    assertThat(s.trims()).isEqualTo(r.trims());
    assertThat(s.variances()).isEqualTo(r.variances());
    assertThat(s.scatter()).isEqualTo(r.scatter());
    assertThat(s.common()).isEqualTo(r.common());
    assertThat(s.rotationZero()).isEqualTo(r.rotationZero());
    // records compare doubles by bits, NaN equal to NaN: zero tolerance is right
    assertThat(s.placements()).isEqualTo(r.placements());
    for (int i = 0; i < r.panels().size(); i++) {
      PanelResult p = r.panels().get(i);
      StoredAnalysis.Panel q = s.panels().get(i);
      assertThat(q.panel()).isEqualTo(p.panel());
      assertThat(q.family()).isEqualTo(p.family());
      assertThat(q.transform()).isEqualTo(p.transform());
      assertThat(q.standardErrors()).isEqualTo(p.standardErrors());
      assertThat(q.array()).isEqualTo(p.array());
      assertThat(q.shiftAtCentroid()).isEqualTo(p.shiftAtCentroid());
      assertThat(q.shiftAtCentroidSe()).isEqualTo(p.shiftAtCentroidSe());
    }
  }

  @Test
  void storedAnalysisFindsGroupsAndStandardDeviations() throws IOException {
    StoredAnalysis s = AnalysisJson.read(write(SampleResults.of(400)));
    assertThat(StoredGroups.of(s, Factor.PART, "SOIC8").orElseThrow().trim().decision())
        .isEqualTo(Decision.TRIM);
    assertThat(StoredGroups.of(s, Factor.PART, "N2")).isEmpty();
    assertThat(s.sd("registration", "y")).isEqualTo(0.008);
    assertThat(s.sd("registration", "rotation")).isNaN();
    assertThat(s.sd("part", "rotation")).isEqualTo(0.19);
  }

  @Test
  void aFileWithTheContractsKeysAloneIsEnough() throws IOException {
    Path file = folder.resolve("contract.json");
    try (InputStream in = getClass().getResourceAsStream("contract-analysis.json")) {
      Files.write(file, in.readAllBytes());
    }
    StoredAnalysis s = AnalysisJson.read(file);
    assertThat(StoredGroups.of(s, Factor.PART, "R0603")).isPresent();
    assertThat(s.trims()).isEmpty();
    assertThat(s.panels().get(0).shiftAtCentroid()).isEqualTo(Xy.UNKNOWN);
    PlacementResult p = s.placements().get(0);
    assertThat(p.used()).isTrue();
    assertThat(p.id()).isEqualTo("1/1/R1");
  }

  @Test
  void hostileNamesComeBackUnchanged() throws IOException {
    FirstArticleResult r = HostileResults.of(SampleResults.of(120));
    StoredAnalysis s = AnalysisJson.read(write(r));
    assertThat(s.placements()).isEqualTo(r.placements());
    assertThat(s.groups()).isEqualTo(r.groups());
  }

  @Test
  void badFilesGetOneSentence() throws IOException {
    Path file = folder.resolve("a.json");
    Files.writeString(file, "{\"schema\": \"padtrue/analysis/1\",\n \"job\": oops}");
    assertThatThrownBy(() -> AnalysisJson.read(file))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith(file + ", line 2, column ")
        .hasMessageContaining("this is not JSON (")
        .hasMessageEndingWith("; give the analysis.json that 'analyse' wrote");

    Files.writeString(file, "{\"schema\": \"padtrue/check/1\"}");
    assertThatThrownBy(() -> AnalysisJson.read(file))
        .hasMessage(
            file
                + ": the schema is 'padtrue/check/1', expected 'padtrue/analysis/1';"
                + " give the analysis.json that 'analyse' wrote");

    Files.writeString(file, "");
    assertThatThrownBy(() -> AnalysisJson.read(file))
        .hasMessage(file + ": the file is empty; give the analysis.json that 'analyse' wrote");

    Path none = folder.resolve("none.json");
    assertThatThrownBy(() -> AnalysisJson.read(none))
        .hasMessage(
            none
                + ": the file cannot be read (no such file or folder);"
                + " check its name and rights");
  }

  @Test
  void aMissingOrWrongKeyIsNamedWithItsPath() throws IOException {
    String good = text(SampleResults.of(60));
    Path file = folder.resolve("a.json");
    Files.writeString(file, good.replaceFirst("\"zeroOrientation\"", "\"zeroOrientatio\""));
    assertThatThrownBy(() -> AnalysisJson.read(file))
        .hasMessage(
            file
                + ": key 'groups[0].zeroOrientation' is missing;"
                + " analyse again, or use the file as it was written");

    Files.writeString(file, good.replaceFirst("\"decision\": \"trim\"", "\"decision\": \"maybe\""));
    assertThatThrownBy(() -> AnalysisJson.read(file))
        .hasMessage(
            file
                + ": 'maybe' is no decision (trim, leave, cannotTell, notAccepted);"
                + " analyse again, or use the file as it was written");

    Files.writeString(file, good.replaceFirst("\"shiftX\": [0-9.]+", "\"shiftX\": \"far\""));
    assertThatThrownBy(() -> AnalysisJson.read(file))
        .hasMessage(
            file
                + ": 'panels[0].transform.shiftX' should be a number or null, found \"far\";"
                + " analyse again, or use the file as it was written");
  }

  private JsonNode contract() throws IOException {
    try (InputStream in = getClass().getResourceAsStream("contract-analysis.json")) {
      return MAPPER.readTree(in);
    }
  }

  private static JsonNode tree(FirstArticleResult r) throws IOException {
    return MAPPER.readTree(text(r));
  }

  private static String text(FirstArticleResult r) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    AnalysisJson.write(r, bytes);
    return bytes.toString(StandardCharsets.UTF_8);
  }

  private Path write(FirstArticleResult r) throws IOException {
    return Files.writeString(folder.resolve("analysis.json"), text(r));
  }
}
