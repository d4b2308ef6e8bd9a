package org.padtrue.report.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** An object of a JSON file and the path to it, so that a complaint can name the key. */
final class JsonIn {
  private static final String ANALYSE_AGAIN = "analyse again, or use the file as it was written";

  private final String file;
  private final String path;
  private final JsonNode node;
  private final String mend;

  JsonIn(String file, String path, JsonNode node) {
    this(file, path, node, ANALYSE_AGAIN);
  }

  JsonIn(String file, String path, JsonNode node, String mend) {
    this.mend = mend;
    this.file = file;
    this.path = path;
    this.node = node;
    if (!node.isObject()) {
      throw bad("'" + path + "' should be an object, found " + kind(node));
    }
  }

  boolean has(String key) {
    return node.hasNonNull(key);
  }

  JsonIn object(String key) {
    return new JsonIn(file, at(key), required(key), mend);
  }

  /** The object, or null where the file says null or nothing. */
  @Nullable JsonIn objectOrNull(String key) {
    return has(key) ? object(key) : null;
  }

  <T> List<T> list(String key, Function<JsonIn, T> entry) {
    JsonNode list = required(key);
    if (!list.isArray()) {
      throw bad("'" + at(key) + "' should be a list, found " + kind(list));
    }
    List<T> values = new ArrayList<>(list.size());
    for (int i = 0; i < list.size(); i++) {
      values.add(entry.apply(new JsonIn(file, at(key) + "[" + i + "]", list.get(i), mend)));
    }
    return values;
  }

  <T> List<T> listOrEmpty(String key, Function<JsonIn, T> entry) {
    return has(key) ? list(key, entry) : List.of();
  }

  List<String> texts(String key) {
    List<String> values = new ArrayList<>();
    for (JsonNode n : required(key)) {
      values.add(n.asText());
    }
    return values;
  }

  /** A list of numbers; NaN for what is none. */
  double[] numbers(String key) {
    List<Double> values = new ArrayList<>();
    for (JsonNode n : required(key)) {
      values.add(n.isNumber() ? n.doubleValue() : Double.NaN);
    }
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }

  String text(String key) {
    JsonNode n = required(key);
    if (!n.isTextual()) {
      throw bad("'" + at(key) + "' should be a text, found " + kind(n));
    }
    return n.asText();
  }

  String text(String key, String otherwise) {
    return has(key) ? text(key) : otherwise;
  }

  int whole(String key) {
    JsonNode n = required(key);
    if (!n.isIntegralNumber()) {
      throw bad("'" + at(key) + "' should be a whole number, found " + kind(n));
    }
    return n.intValue();
  }

  int whole(String key, int otherwise) {
    return has(key) ? whole(key) : otherwise;
  }

  boolean flag(String key, boolean otherwise) {
    return has(key) ? required(key).asBoolean() : otherwise;
  }

  /** A number that must be there; NaN where the file says null. */
  double number(String key) {
    JsonNode n = required(key);
    if (n.isNull()) {
      return Double.NaN;
    }
    if (!n.isNumber()) {
      throw bad("'" + at(key) + "' should be a number or null, found " + kind(n));
    }
    return n.doubleValue();
  }

  /** A number that an older file may lack; NaN then. */
  double numberOrNaN(String key) {
    return has(key) ? number(key) : Double.NaN;
  }

  Xy xy(String key) {
    JsonIn o = object(key);
    return new Xy(o.number("x"), o.number("y"));
  }

  Xy xyOrUnknown(String key) {
    return has(key) ? xy(key) : Xy.UNKNOWN;
  }

  Xyr xyr(String key) {
    return object(key).xyr();
  }

  /** The keys x, y and rotation of this object. */
  Xyr xyr() {
    return new Xyr(number("x"), number("y"), number("rotation"));
  }

  Xyr xyrOrUnknown(String key) {
    return has(key) ? xyr(key) : Xyr.UNKNOWN;
  }

  /** A complaint about this file. */
  InputException bad(String found) {
    return new InputException(Problem.of(file, found, mend));
  }

  private JsonNode required(String key) {
    JsonNode n = node.get(key);
    if (n == null) {
      throw bad("key '" + at(key) + "' is missing");
    }
    return n;
  }

  private String at(String key) {
    return path.isEmpty() ? key : path + "." + key;
  }

  private static String kind(JsonNode n) {
    String text = n.toString();
    return text.length() > 30 ? text.substring(0, 27) + "..." : text;
  }
}
