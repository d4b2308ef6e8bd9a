package org.padtrue.load.table;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.quantity.LengthUnit;

/**
 * A header cell taken apart: "Center-X(mm)" is the letters "centerx" and the unit "mm".
 *
 * @param text as the file has it, trimmed
 * @param letters letters and digits in lower case, unit taken off
 * @param unitText the unit's text, or null when there is none
 */
record HeaderName(String text, String letters, @Nullable String unitText) {
  private static final Pattern BRACKETS =
      Pattern.compile("^(.*?)\\s*[(\\[{<]\\s*([^)\\]}>]*?)\\s*[)\\]}>]\\s*$");
  private static final Pattern TAIL = Pattern.compile("^(.*?)[\\s_/,:.-]+(?:in\\s+)?(\\S+)$");

  static HeaderName of(String cell) {
    String text = cell.trim();
    Matcher m = BRACKETS.matcher(text);
    if (m.matches() && !letters(m.group(1)).isEmpty()) {
      return new HeaderName(text, letters(m.group(1)), m.group(2));
    }
    m = TAIL.matcher(text);
    if (m.matches() && isUnit(m.group(2)) && !letters(m.group(1)).isEmpty()) {
      return new HeaderName(text, letters(m.group(1)), m.group(2));
    }
    return glued(text);
  }

  /** "dxum", "Xmm": a unit without anything between, where only that makes a known name. */
  private static HeaderName glued(String text) {
    String letters = letters(text);
    if (Vocabulary.meaning(letters).isEmpty()) {
      for (String u : new String[] {"mm", "um", "mils", "mil", "inch", "deg"}) {
        if (letters.endsWith(u)
            && Vocabulary.meaning(letters.substring(0, letters.length() - u.length()))
                .filter(s -> s.field().numeric())
                .isPresent()) {
          return new HeaderName(text, letters.substring(0, letters.length() - u.length()), u);
        }
      }
    }
    return new HeaderName(text, letters, null);
  }

  private static boolean isUnit(String s) {
    return LengthUnit.parse(s).isPresent() || isDegrees(s);
  }

  /** True for the ways to write degrees. */
  static boolean isDegrees(String s) {
    return switch (s.toLowerCase(Locale.ROOT)) {
      case "deg", "deg.", "degs", "degree", "degrees", "\u00b0", "\u00ba" -> true;
      default -> false;
    };
  }

  /** What the name means in common use. */
  Optional<Spelling> meaning() {
    return Vocabulary.meaning(letters);
  }

  /** Letters and digits in lower case; the sign for a difference becomes a d. */
  static String letters(String text) {
    StringBuilder b = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '\u0394' || c == '\u03b4' || c == '\u2206') {
        b.append('d');
      } else if (c == '\u03b8' || c == '\u0398') {
        b.append("theta");
      } else if (c == '\u03c6' || c == '\u03a6') {
        b.append("phi");
      } else if (Character.isLetterOrDigit(c) && c != '\u00ba') {
        b.append(Character.toLowerCase(c));
      }
    }
    return b.toString();
  }
}
