package org.padtrue.load.gerber;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The values of an attribute. A comma separates them unless it stands within quotes, which some
 * writers put around every value; quotes are no part of it. Unicode escapes (a backslash, u and
 * four hex digits) are resolved last, so that an escaped comma or quote separates nothing.
 */
final class GerberFields {
  private static final Pattern ESCAPE = Pattern.compile("\\\\u([0-9A-Fa-f]{4})");

  private GerberFields() {}

  /** All values behind the name. */
  static List<String> of(String attribute) {
    List<String> fields = new ArrayList<>();
    int comma = attribute.indexOf(',');
    boolean quoted = false;
    int from = comma + 1;
    for (int i = from; comma >= 0 && i <= attribute.length(); i++) {
      char c = i < attribute.length() ? attribute.charAt(i) : ',';
      if (c == '"') {
        quoted = !quoted;
      } else if (i == attribute.length() || c == ',' && !quoted) {
        fields.add(value(attribute.substring(from, i)));
        from = i + 1;
      }
    }
    return fields;
  }

  private static String value(String s) {
    String t = s.strip();
    boolean quoted = t.length() >= 2 && t.startsWith("\"") && t.endsWith("\"");
    t = quoted ? t.substring(1, t.length() - 1) : t;
    return t.indexOf('\\') < 0
        ? t
        : ESCAPE
            .matcher(t)
            .replaceAll(
                m -> Matcher.quoteReplacement("" + (char) Integer.parseInt(m.group(1), 16)));
  }
}
