package org.padtrue.load.json;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.text.Nearest;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;

/**
 * The members of a JSON object. Every wrong one is added to the list of problems, with its place,
 * and replaced by its default, so that reading goes on and all problems come at once.
 */
public final class JsonFields {
  private final JsonValue object;
  private final ProblemList problems;

  /**
   * @param value should be an object; a problem is added if it is not
   * @param known the keys that are known here
   */
  public JsonFields(JsonValue value, ProblemList problems, List<String> known) {
    this.object = value;
    this.problems = problems;
    if (value.kind() != JsonValue.Kind.OBJECT) {
      complain(value, value.shown() + " stands where an object is expected", "write { ... }");
      return;
    }
    for (String key : value.members().keySet()) {
      if (!known.contains(key)) {
        unknown(key, known);
      }
    }
  }

  private void unknown(String key, List<String> known) {
    int[] at = object.keyPlaces().getOrDefault(key, new int[] {object.line(), object.column()});
    List<String> near = Nearest.of(key, known, 1);
    problems.add(
        at[0],
        String.valueOf(at[1]),
        "the key \"" + key + "\" is not known here",
        near.isEmpty()
            ? "known are " + String.join(", ", known)
            : "did you mean \"" + near.get(0) + "\"");
  }

  /** Adds a problem at a value. */
  public void complain(JsonValue at, String found, String mend) {
    problems.add(at.line(), String.valueOf(at.column()), found, mend);
  }

  /** The value itself. */
  public JsonValue value() {
    return object;
  }

  /** The member with a key; null when it is absent or null. */
  public @Nullable JsonValue get(String key) {
    JsonValue v = object.members().get(key);
    return v == null || v.kind() == JsonValue.Kind.NULL ? null : v;
  }

  private @Nullable JsonValue get(String key, JsonValue.Kind kind) {
    JsonValue v = get(key);
    if (v != null && v.kind() != kind) {
      complain(v, "\"" + key + "\" is " + v.shown() + ", expected " + kind.words(), "");
      return null;
    }
    return v;
  }

  /** A text that is not blank. */
  public Optional<String> text(String key) {
    JsonValue v = get(key, JsonValue.Kind.STRING);
    if (v != null && v.text().isBlank()) {
      complain(v, "\"" + key + "\" is empty", "write a text, or leave the key out");
      return Optional.empty();
    }
    return Optional.ofNullable(v).map(JsonValue::text);
  }

  /** A finite number. */
  public double number(String key, double absent) {
    return number(key, absent, Bound.ANY);
  }

  /** A finite number within a bound. */
  public double number(String key, double absent, Bound bound) {
    JsonValue v = get(key, JsonValue.Kind.NUMBER);
    if (v == null) {
      return absent;
    }
    double d = Double.parseDouble(v.text());
    if (!bound.holds(d)) {
      complain(v, "\"" + key + "\" is " + v.shown() + ", expected " + bound.words(), "");
      return absent;
    }
    return d;
  }

  /** A number that must be there; NaN when it is not. */
  public double needed(String key, Bound bound) {
    if (get(key) == null) {
      complain(object, "\"" + key + "\" is missing", "add it");
      return Double.NaN;
    }
    return number(key, Double.NaN, bound);
  }

  /** A whole number between two bounds, both included. */
  public int whole(String key, int absent, int least, int most) {
    JsonValue v = get(key, JsonValue.Kind.NUMBER);
    if (v == null) {
      return absent;
    }
    double d = Double.parseDouble(v.text());
    if (d != Math.rint(d) || !(d >= least && d <= most)) {
      complain(
          v,
          "\""
              + key
              + "\" is "
              + v.shown()
              + ", expected a whole number from "
              + least
              + " to "
              + most,
          "");
      return absent;
    }
    return (int) d;
  }

  /** True or false. */
  public boolean flag(String key, boolean absent) {
    JsonValue v = get(key, JsonValue.Kind.BOOLEAN);
    return v == null ? absent : v.text().equals("true");
  }

  /** One of several words; the map keeps their order for the message. */
  public <T> T word(String key, T absent, Map<String, T> words) {
    JsonValue v = get(key, JsonValue.Kind.STRING);
    if (v == null) {
      return absent;
    }
    T t = words.get(v.text());
    if (t == null) {
      complain(
          v,
          "\"" + key + "\" is " + v.shown() + ", which is not known",
          "use " + TextPieces.or(List.copyOf(words.keySet())));
      return absent;
    }
    return t;
  }

  /** An object; empty when it is absent. */
  public Optional<JsonFields> object(String key, List<String> known) {
    JsonValue v = get(key);
    return v == null ? Optional.empty() : Optional.of(new JsonFields(v, problems, known));
  }

  /** The items of a list; empty when it is absent. */
  public List<JsonValue> list(String key) {
    JsonValue v = get(key, JsonValue.Kind.ARRAY);
    return v == null ? List.of() : v.items();
  }

  /** The objects of a list; empty when it is absent. */
  public List<JsonFields> objects(String key, List<String> known) {
    List<JsonFields> all = new ArrayList<>();
    for (JsonValue v : list(key)) {
      if (v.kind() == JsonValue.Kind.OBJECT) {
        all.add(new JsonFields(v, problems, known));
      } else {
        complain(v, v.shown() + " stands where an object is expected", "write { ... }");
      }
    }
    return all;
  }
}
