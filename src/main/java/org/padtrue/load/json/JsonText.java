package org.padtrue.load.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Reads a JSON file. */
public final class JsonText {
  private static final JsonFactory FACTORY = new JsonFactory();

  private final TextFile file;
  private final JsonParser parser;

  private JsonText(TextFile file, JsonParser parser) {
    this.file = file;
    this.parser = parser;
  }

  /**
   * Reads the one value of a file.
   *
   * @throws InputException with the place when it is no JSON, or a key is there twice
   */
  public static JsonValue parse(TextFile file) {
    try (JsonParser parser = FACTORY.createParser(file.chars())) {
      JsonText t = new JsonText(file, parser);
      JsonToken first = parser.nextToken();
      if (first == null) {
        throw new InputException(Problem.of(file.name(), "the file is empty", "write the JSON"));
      }
      JsonValue v = t.value(first);
      JsonToken more = parser.nextToken();
      if (more != null) {
        throw t.refuse(parser.currentTokenLocation(), "something follows the end of the JSON");
      }
      return v;
    } catch (JsonProcessingException e) {
      throw broken(file, e);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private JsonValue value(JsonToken token) throws IOException {
    JsonLocation at = parser.currentTokenLocation();
    return switch (token) {
      case START_OBJECT -> object(at);
      case START_ARRAY -> array(at);
      case VALUE_STRING -> scalar(JsonValue.Kind.STRING, at);
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> scalar(JsonValue.Kind.NUMBER, at);
      case VALUE_TRUE, VALUE_FALSE -> scalar(JsonValue.Kind.BOOLEAN, at);
      default -> scalar(JsonValue.Kind.NULL, at);
    };
  }

  private JsonValue scalar(JsonValue.Kind kind, JsonLocation at) throws IOException {
    return make(kind, parser.getText(), Map.of(), List.of(), at, Map.of());
  }

  private JsonValue object(JsonLocation at) throws IOException {
    Map<String, JsonValue> members = new LinkedHashMap<>();
    Map<String, int[]> places = new LinkedHashMap<>();
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      String key = parser.currentName();
      JsonLocation place = parser.currentTokenLocation();
      if (members.containsKey(key)) {
        throw refuse(place, "the key \"" + key + "\" is there twice");
      }
      members.put(key, value(parser.nextToken()));
      places.put(key, new int[] {place.getLineNr(), place.getColumnNr()});
    }
    return make(JsonValue.Kind.OBJECT, "", members, List.of(), at, places);
  }

  private JsonValue array(JsonLocation at) throws IOException {
    List<JsonValue> items = new ArrayList<>();
    for (JsonToken t = parser.nextToken(); t != JsonToken.END_ARRAY; t = parser.nextToken()) {
      items.add(value(t));
    }
    return make(JsonValue.Kind.ARRAY, "", Map.of(), items, at, Map.of());
  }

  private static JsonValue make(
      JsonValue.Kind kind,
      String text,
      Map<String, JsonValue> members,
      List<JsonValue> items,
      JsonLocation at,
      Map<String, int[]> places) {
    return new JsonValue(kind, text, members, items, at.getLineNr(), at.getColumnNr(), places);
  }

  private InputException refuse(JsonLocation at, String found) {
    return new InputException(problem(file, at, found, "remove one of them"));
  }

  private static Problem problem(TextFile f, @Nullable JsonLocation at, String found, String mend) {
    return at == null
        ? Problem.of(f.name(), found, mend)
        : new Problem(f.name(), at.getLineNr(), String.valueOf(at.getColumnNr()), found, mend);
  }

  private static InputException broken(TextFile file, JsonProcessingException e) {
    JsonLocation at = e.getLocation();
    long offset = at == null ? -1 : at.getCharOffset();
    String s = file.chars();
    boolean ended = offset >= s.stripTrailing().length();
    if (ended) {
      return new InputException(
          problem(
              file,
              at,
              "the file ends within the JSON",
              "close the open quote, bracket or brace; the file may be cut off"));
    }
    String found =
        offset < 0
            ? "this is no JSON"
            : "this is no JSON from " + TextPieces.quoted(rest(s, (int) offset)) + " on";
    return new InputException(
        problem(file, at, found, "look for a missing comma, quote or bracket just before it"));
  }

  private static String rest(String s, int from) {
    int end = s.indexOf('\n', from);
    return s.substring(from, Math.min(end < 0 ? s.length() : end, from + 20)).stripTrailing();
  }
}
