package org.padtrue.load.article;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.padtrue.panel.article.FaultKind;

/** Words in common use for what is wrong with a placed part (common practice, from memory). */
public final class StatusWords {
  private static final Map<String, FaultKind> FAULTS = new HashMap<>();

  private static final Set<String> NOT_MEASURED =
      Set.of("notmeasured", "unmeasured", "skip", "skipped", "na", "nm");

  private static final Set<String> GOOD =
      Set.of(
          "",
          "ok",
          "okay",
          "good",
          "pass",
          "passed",
          "fine",
          "measured",
          "placed",
          "present",
          "fitted",
          "accept",
          "accepted",
          "yes",
          "y",
          "true",
          "1",
          "0",
          "no",
          "none",
          "false");

  static {
    put(FaultKind.MISSING, "missing absent gone lost nopart partmissing missingpart notpresent");
    put(FaultKind.MISSING, "missingcomponent componentmissing fehlt mp");
    put(FaultKind.NOT_PLACED, "dnp dnf dni notplaced notfitted notpopulated unplaced notmounted");
    put(FaultKind.TOMBSTONE, "tombstone tombstoned tombstoning tomb drawbridge standing");
    put(FaultKind.ON_ITS_SIDE, "billboard billboarded billboarding onitsside onside sideways");
    put(FaultKind.UPSIDE_DOWN, "upsidedown flipped inverted facedown overturned");
    put(
        FaultKind.SKEWED,
        "skewed skew twisted misaligned misplaced shifted offpad offpads offland");
    put(FaultKind.POLARITY, "polarity wrongpolarity reversed reversedpolarity backwards");
    put(FaultKind.POLARITY, "wrongorientation wrongdirection polarityreversed");
    put(FaultKind.WRONG_PART, "wrongpart wrongcomponent wrongvalue otherpart incorrectpart");
    put(FaultKind.DAMAGED, "damaged damage broken cracked bentlead bentleads leadbent");
  }

  private StatusWords() {}

  private static void put(FaultKind kind, String words) {
    for (String w : words.split(" ")) {
      FAULTS.put(w, kind);
    }
  }

  private static String letters(String text) {
    StringBuilder b = new StringBuilder();
    text.toLowerCase(Locale.ROOT)
        .chars()
        .filter(Character::isLetterOrDigit)
        .forEach(b::appendCodePoint);
    return b.toString();
  }

  /** What is wrong, if the text says so. */
  public static Optional<FaultKind> fault(String text) {
    return text.isEmpty() ? Optional.empty() : Optional.ofNullable(FAULTS.get(letters(text)));
  }

  static boolean notMeasured(String text) {
    return !text.isEmpty() && NOT_MEASURED.contains(letters(text));
  }

  /** True for words that say nothing is wrong. */
  static boolean good(String text) {
    return GOOD.contains(letters(text));
  }
}
