package org.padtrue.load.job;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.load.part.PartsLoader;
import org.padtrue.load.text.TextFile;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Loaders know exactly the keys of the schemas: a key that resembles none is refused with the list
 * of all that are known at its place.
 */
class SchemaKeysTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String STRANGE = "@@@@@@@@@@@@@@@@";
  private static final String KNOWN = "known are ";

  @TempDir private Path dir;

  @BeforeEach
  void placements() throws IOException {
    Files.writeString(dir.resolve("p.csv"), "ref,part,x,y,rotation\nR1,P,1,2,0\n");
  }

  private static JsonNode schema(String name) throws IOException {
    try (InputStream in =
        SchemaKeysTest.class.getResourceAsStream("/org/padtrue/schema/" + name + ".schema.json")) {
      return JSON.readTree(in);
    }
  }

  /** The keys that a schema has at a path; [] steps into a list. */
  private static Set<String> keys(JsonNode schema, String path) {
    JsonNode at = schema;
    for (String step : steps(path)) {
      at = at.path("properties").path(step.replace("[]", ""));
      at = step.endsWith("[]") ? at.path("items") : at;
      if (at.has("$ref")) {
        at = schema.at(at.path("$ref").asText().substring(1));
      }
    }
    Set<String> all = new TreeSet<>();
    at.path("properties").fieldNames().forEachRemaining(all::add);
    return all;
  }

  private static List<String> steps(String path) {
    return path.isEmpty() ? List.of() : List.of(path.split("/"));
  }

  /** A file with nothing but a strange key at a path. */
  private static ObjectNode strange(String path) {
    ObjectNode top = JSON.createObjectNode();
    ObjectNode at = top;
    for (String step : steps(path)) {
      if (step.endsWith("[]")) {
        ArrayNode list = at.putArray(step.replace("[]", ""));
        at = list.addObject();
      } else {
        at = at.putObject(step);
      }
    }
    at.put(STRANGE, 1);
    return top;
  }

  private static Set<String> known(List<Problem> problems) {
    return problems.stream()
        .filter(p -> p.found().contains(STRANGE) && p.mend().startsWith(KNOWN))
        .findFirst()
        .map(p -> new TreeSet<>(Arrays.asList(p.mend().substring(KNOWN.length()).split(", "))))
        .orElseThrow(() -> new AssertionError("not refused: " + problems));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "columns",
        "axes",
        "bom",
        "bom/columns",
        "panel",
        "panel/boards[]",
        "panel/fiducials[]",
        "machine",
        "machine/panelRepeatability",
        "measurement"
      })
  void job(String path) throws IOException {
    ObjectNode file = strange(path).put("placements", "p.csv");
    Path job = Files.writeString(dir.resolve("job.json"), file.toString());
    List<Problem> problems;
    try {
      problems = JobLoader.load(job).problems();
    } catch (InputException e) {
      problems = e.problems();
    }
    assertThat(known(problems)).isEqualTo(keys(schema("job"), path));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "parts[]",
        "parts[]/body",
        "parts[]/terminations[]",
        "parts[]/lands[]",
        "parts[]/envelope",
        "parts[]/tolerance"
      })
  void parts(String path) throws IOException {
    ObjectNode file = strange(path);
    if (!path.isEmpty()) {
      ((ObjectNode) file.path("parts").get(0)).put("name", "P");
    }
    List<Problem> problems =
        PartsLoader.load(TextFile.of("parts.json", file.toString())).problems();
    assertThat(known(problems)).isEqualTo(keys(schema("parts"), path));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "tools[]", "nonconformances[]", "designators[]"})
  void identification(String path) throws IOException {
    List<Problem> problems =
        org.padtrue.report.record.IdentificationFile.read(
                TextFile.of("part.json", strange(path).toString()))
            .problems();
    assertThat(known(problems)).isEqualTo(keys(schema("identification"), path));
  }
}
