package org.padtrue.load.text;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * Known words near a misspelt one, by the Damerau-Levenshtein distance (insert, delete, replace,
 * swap two neighbours; optimal string alignment), letters of either case being alike.
 *
 * <p>Source of the distance: F. J. Damerau, A technique for computer detection and correction of
 * spelling errors, Comm. ACM 7(3), 1964.
 */
public final class Nearest {
  private Nearest() {}

  private record Scored(String word, int distance) {}

  /**
   * Known words near a word, nearest first, then in the order of the alphabet.
   *
   * @param word what was found
   * @param known the known words
   * @param most how many at most
   * @return those at most a third of the word's length (and at least 1) away; may be empty
   */
  public static List<String> of(String word, Collection<String> known, int most) {
    int limit = Math.max(1, (word.length() + 1) / 3);
    List<Scored> near = new ArrayList<>();
    for (String k : known) {
      if (Math.abs(k.length() - word.length()) <= limit) {
        int d = distance(word, k);
        if (d <= limit) {
          near.add(new Scored(k, d));
        }
      }
    }
    near.sort(Comparator.comparingInt(Scored::distance).thenComparing(Scored::word));
    return near.stream().limit(most).map(Scored::word).toList();
  }

  /** Number of single steps from one word to the other. */
  static int distance(String first, String second) {
    String a = first.toLowerCase(Locale.ROOT);
    String b = second.toLowerCase(Locale.ROOT);
    int[] before = new int[b.length() + 1];
    int[] last = new int[b.length() + 1];
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      last[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int cost = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        row[j] = Math.min(Math.min(row[j - 1], last[j]) + 1, last[j - 1] + cost);
        if (i > 1 && j > 1 && swapped(a, i, b, j)) {
          row[j] = Math.min(row[j], before[j - 2] + 1);
        }
      }
      int[] t = before;
      before = last;
      last = row;
      row = t;
    }
    return last[b.length()];
  }

  private static boolean swapped(String a, int i, String b, int j) {
    return a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
  }
}
