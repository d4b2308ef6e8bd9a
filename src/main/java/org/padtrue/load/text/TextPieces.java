package org.padtrue.load.text;

import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;

/** Pieces of sentences. */
public final class TextPieces {
  private static final int LONGEST = 40;

  private TextPieces() {}

  /** Found text in single quotes, cut when long, control characters shown as blanks. */
  public static String quoted(String text) {
    StringBuilder b = new StringBuilder("'");
    int n = Math.min(text.length(), LONGEST);
    for (int i = 0; i < n; i++) {
      char c = text.charAt(i);
      b.append(Character.isISOControl(c) ? ' ' : c);
    }
    return b.append(text.length() > LONGEST ? "..." : "").append('\'').toString();
  }

  /** Several found texts, each in quotes; the first {@code most} of them. */
  public static String list(Collection<String> texts, int most) {
    String shown =
        texts.stream().limit(most).map(TextPieces::quoted).collect(Collectors.joining(", "));
    return texts.size() > most ? shown + " and " + (texts.size() - most) + " more" : shown;
  }

  /** "a", "a or b", "a, b or c". */
  public static String or(List<String> words) {
    return join(words, " or ");
  }

  /** "a", "a and b", "a, b and c". */
  public static String and(List<String> words) {
    return join(words, " and ");
  }

  private static String join(List<String> words, String last) {
    int n = words.size();
    if (n < 2) {
      return String.join("", words);
    }
    return String.join(", ", words.subList(0, n - 1)) + last + words.get(n - 1);
  }

  /** "1 row", "3 rows". */
  public static String count(long n, String noun) {
    return n + " " + noun + (n == 1 ? "" : noun.endsWith("x") ? "es" : "s");
  }
}
