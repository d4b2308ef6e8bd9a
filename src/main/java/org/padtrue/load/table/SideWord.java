package org.padtrue.load.table;

import java.util.Optional;
import java.util.Set;

/** Words for the two sides of a board. A/B, 0/1 and 1/2 are not among them: nobody can tell. */
public final class SideWord {
  private static final Set<String> TOP =
      Set.of(
          "top",
          "t",
          "tp",
          "toplayer",
          "topside",
          "topcopper",
          "front",
          "f",
          "frontside",
          "fcu",
          "upper",
          "primary",
          "primaryside",
          "component",
          "componentside",
          "componentlayer",
          "sidetop",
          "layertop",
          "up");
  private static final Set<String> BOTTOM =
      Set.of(
          "bottom",
          "bot",
          "bt",
          "bottomlayer",
          "bottomside",
          "bottomcopper",
          "botside",
          "back",
          "backside",
          "bcu",
          "lower",
          "secondary",
          "secondaryside",
          "solder",
          "solderside",
          "solderlayer",
          "sidebottom",
          "layerbottom",
          "down");

  private SideWord() {}

  /** True for top, false for bottom, empty when the word says neither by itself. */
  public static Optional<Boolean> isTop(String word) {
    String w = HeaderName.letters(word);
    if (TOP.contains(w)) {
      return Optional.of(true);
    }
    return BOTTOM.contains(w) ? Optional.of(false) : Optional.empty();
  }

  /** True for a word of either side. */
  static boolean known(String word) {
    return isTop(word).isPresent();
  }
}
