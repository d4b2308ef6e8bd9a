package org.padtrue.report.record;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.padtrue.load.json.JsonFields;
import org.padtrue.load.json.JsonText;
import org.padtrue.load.json.JsonValue;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.problem.WithProblems;

/**
 * Reads a file of identification fields. Every key is optional; an empty text counts as not given.
 *
 * <pre>
 * {"partNumber": "4711-3", "partName": "Logger, main board", "serialNumber": "P1",
 *  "tools": [{"name": "Measuring microscope", "id": "M-12", "calibratedUntil": "2026-09",
 *             "measures": ["x", "y", "rotation"]}],
 *  "nonconformances": [{"placement": "3/1/D2", "number": "NC-17"}],
 *  "designators": [{"placement": "U1", "designator": "key"}]}
 * </pre>
 */
public final class IdentificationFile {
  static final List<String> TOOL_KEYS = List.of("name", "id", "calibratedUntil", "measures");
  static final List<String> NONCONFORMANCE_KEYS = List.of("placement", "number");
  static final List<String> DESIGNATOR_KEYS = List.of("placement", "designator");

  private IdentificationFile() {}

  /** All keys of the file. */
  static List<String> keys() {
    List<String> all = new ArrayList<>(IdentificationField.keys());
    all.addAll(List.of("tools", "nonconformances", "designators"));
    return all;
  }

  /** Reads a file; what is wrong in it comes beside, all at once. */
  public static WithProblems<Identification> read(Path file) {
    return read(TextFile.read(file));
  }

  /** Reads a text. */
  public static WithProblems<Identification> read(TextFile file) {
    ProblemList problems = new ProblemList(file.name());
    JsonFields f = new JsonFields(JsonText.parse(file), problems, keys());
    Map<IdentificationField, String> values = new EnumMap<>(IdentificationField.class);
    for (IdentificationField k : IdentificationField.values()) {
      String v = optional(f, k.key());
      if (!v.isEmpty()) {
        values.put(k, v);
      }
    }
    List<MeasuringTool> tools = new ArrayList<>();
    f.objects("tools", TOOL_KEYS).forEach(t -> tools.add(tool(t)));
    Identification all =
        new Identification(
            values,
            tools,
            texts(f, "nonconformances", NONCONFORMANCE_KEYS),
            texts(f, "designators", DESIGNATOR_KEYS));
    return new WithProblems<>(all, problems.all());
  }

  private static String optional(JsonFields f, String key) {
    JsonValue v = f.get(key);
    boolean blank = v != null && v.kind() == JsonValue.Kind.STRING && v.text().isBlank();
    return blank ? "" : f.text(key).map(String::strip).orElse("");
  }

  private static String required(JsonFields f, String key) {
    if (f.get(key) == null) {
      f.complain(f.value(), "\"" + key + "\" is missing", "add it");
      return "";
    }
    return f.text(key).map(String::strip).orElse("");
  }

  private static MeasuringTool tool(JsonFields f) {
    String id = optional(f, "id");
    String until = optional(f, "calibratedUntil");
    Set<CharacteristicKind> measures = EnumSet.noneOf(CharacteristicKind.class);
    for (JsonValue v : f.list("measures")) {
      CharacteristicKind.parse(v.text())
          .ifPresentOrElse(
              measures::add,
              () ->
                  f.complain(
                      v,
                      "\"measures\" has " + v.shown() + ", which is not known",
                      "use " + String.join(", ", CharacteristicKind.keys())));
    }
    return new MeasuringTool(
        required(f, "name"), id.isEmpty() ? null : id, until.isEmpty() ? null : until, measures);
  }

  private static List<PlacementText> texts(JsonFields f, String key, List<String> known) {
    List<PlacementText> all = new ArrayList<>();
    for (JsonFields e : f.objects(key, known)) {
      all.add(new PlacementText(required(e, known.get(0)), required(e, known.get(1))));
    }
    return all;
  }
}
