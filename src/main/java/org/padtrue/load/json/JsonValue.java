package org.padtrue.load.json;

import java.util.List;
import java.util.Map;

/**
 * A value of a JSON file and its place.
 *
 * @param kind what it is
 * @param text a string's characters; a number's, true's, false's and null's as written
 * @param members an object's members in file order; empty otherwise
 * @param items an array's items; empty otherwise
 * @param line 1-based line of its first character
 * @param column 1-based character in that line
 * @param keyPlaces for an object, where each key stands: line, column
 */
public record JsonValue(
    Kind kind,
    String text,
    Map<String, JsonValue> members,
    List<JsonValue> items,
    int line,
    int column,
    Map<String, int[]> keyPlaces) {

  /** Kinds of values, with their names for messages. */
  public enum Kind {
    OBJECT("an object"),
    ARRAY("a list"),
    STRING("a text"),
    NUMBER("a number"),
    BOOLEAN("true or false"),
    NULL("null");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    /** The kind in words, with its article. */
    public String words() {
      return words;
    }
  }

  /** The value as a message shows it. */
  public String shown() {
    return switch (kind) {
      case STRING -> org.padtrue.load.text.TextPieces.quoted(text);
      case OBJECT, ARRAY -> kind.words();
      default -> text.length() > 40 ? text.substring(0, 40) + "..." : text;
    };
  }
}
