package org.padtrue.load.placement;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.table.SideWord;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Side;
import org.padtrue.problem.Problem;

/** Turns the words of a side column into sides once all of them are known. */
final class SideReader {
  private static final Pattern BANNER =
      Pattern.compile("\\b(?:side|layer)\\s*[:=]\\s*([\\w.]+)", Pattern.CASE_INSENSITIVE);

  private final Map<String, Side> told;
  private final Set<String> words = new TreeSet<>();
  private String lastWord = "";
  private @Nullable Side lastSide;

  SideReader(Map<String, Side> told) {
    this.told = new TreeMap<>(String.CASE_INSENSITIVE_ORDER);
    this.told.putAll(told);
  }

  /** Notes a word; its side when the word says it by itself, else null until all are known. */
  @Nullable Side see(String word) {
    // texts are pooled, so that nearly always the last word comes again
    if (word.equals(lastWord)) {
      return lastSide;
    }
    words.add(word);
    lastWord = word;
    lastSide = told.get(word);
    if (lastSide == null) {
      lastSide = SideWord.isTop(word).map(top -> top ? Side.TOP : Side.BOTTOM).orElse(null);
    }
    return lastSide;
  }

  /** What each word means; a word that nobody can tell is absent. */
  Map<String, Side> meanings() {
    Map<String, Side> m = new LinkedHashMap<>();
    for (String w : words) {
      Side side = told.get(w);
      if (side == null) {
        side = byItself(w);
      }
      if (side != null) {
        m.put(w, side);
      }
    }
    return m;
  }

  private @Nullable Side byItself(String w) {
    Optional<Boolean> top = SideWord.isTop(w);
    if (top.isPresent()) {
      return top.get() ? Side.TOP : Side.BOTTOM;
    }
    boolean lonelyB =
        w.equalsIgnoreCase("b")
            && words.stream()
                .allMatch(o -> o.equalsIgnoreCase("b") || SideWord.isTop(o).orElse(false));
    return lonelyB ? Side.BOTTOM : null;
  }

  /** The problem of words that nobody can tell, if there are any. */
  Optional<Problem> problem(String file, int headerLine, String column, Collection<String> known) {
    Set<String> unknown = new TreeSet<>(words);
    unknown.removeAll(known);
    if (unknown.isEmpty()) {
      return Optional.empty();
    }
    String example =
        unknown.stream()
            .limit(2)
            .map(w -> "\"" + w + "\": \"" + (w.equals(first(unknown)) ? "top" : "bottom") + "\"")
            .collect(Collectors.joining(", "));
    return Optional.of(
        new Problem(
            file,
            headerLine,
            column,
            "the sides "
                + TextPieces.list(unknown, 6)
                + " do not say which is top and which is bottom",
            "say so in the job, \"sides\": {" + example + "}, or the other way round"));
  }

  private static String first(Set<String> words) {
    return words.iterator().next();
  }

  /** The side that banner lines state for the whole file, if they state one. */
  static @Nullable Side banner(Collection<String> comments) {
    Side found = null;
    for (String c : comments) {
      Matcher m = BANNER.matcher(c.toLowerCase(Locale.ROOT));
      if (m.find()) {
        Optional<Boolean> top = SideWord.isTop(m.group(1));
        if (top.isPresent()) {
          Side s = top.get() ? Side.TOP : Side.BOTTOM;
          if (found != null && found != s) {
            return null;
          }
          found = s;
        }
      }
    }
    return found;
  }
}
