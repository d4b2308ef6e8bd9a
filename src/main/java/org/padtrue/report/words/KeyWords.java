package org.padtrue.report.words;

import java.util.List;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.panel.Factor;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.term.TermFamily;

/** Keys of files in words for people. */
public final class KeyWords {
  private KeyWords() {}

  /** A decision in words, with a sign that does without colour. */
  public static String decision(Decision d) {
    return switch (d) {
      case TRIM -> "\u25cf\u00a0change";
      case LEAVE -> "\u25cb\u00a0leave";
      case CANNOT_TELL -> "?\u00a0cannot tell";
      case NOT_ACCEPTED -> "\u25a1\u00a0as coordinates";
    };
  }

  /** A family of terms in words. */
  public static String family(String key) {
    return TermFamily.parse(key).map(TermFamily::words).orElseGet(() -> levels(key));
  }

  /** "part x" is "part types, x". */
  private static String levels(String key) {
    int space = key.indexOf(' ');
    return space < 0 ? key : source(key.substring(0, space)) + ", " + key.substring(space + 1);
  }

  /** A kind of exclusion in words. */
  public static String kind(String key) {
    return switch (key) {
      case "quarterTurn" -> "a quarter turn";
      case "halfTurn" -> "half a turn";
      case "swappedRefs" -> "two refs swapped";
      case "swappedXY" -> "x and y swapped";
      case "signFlip" -> "a sign flipped";
      case "wrongUnit" -> "a wrong unit";
      case "decimalSlip" -> "a misplaced decimal point";
      case "transposedDigits" -> "two digits swapped";
      case "gross" -> "a gross error";
      case "neighbour" -> "measured on a neighbour";
      case "wrongInList" -> "a wrong row in the placement list";
      case "notPlaced" -> "not placed";
      case "onItsSide" -> "on its side";
      case "upsideDown" -> "upside down";
      case "wrongPolarity" -> "wrong polarity";
      case "wrongPart" -> "a wrong part";
      default -> key;
    };
  }

  /** Why there is nothing to change, one sentence. */
  static String whyNothing(FirstArticleResult r) {
    return r.whyLeft()
        .map(why -> Character.toUpperCase(why.charAt(0)) + why.substring(1) + ".")
        .orElse("What is seen is scatter, and an offset does not remove scatter.");
  }

  /** Where a placement stands against its limits. */
  public static String verdict(String key) {
    return switch (key) {
      case "notJudged" -> "not judged";
      case "notMeasured" -> "not measured";
      default -> key;
    };
  }

  /** A source of variation in words. */
  public static String source(String key) {
    return switch (key) {
      case "registration" -> "panel offset, from panel to panel";
      case "measuring" -> "scatter of measuring";
      case "overlap" -> "overlap of correlated terms";
      default ->
          Factor.parse(key)
              .map(Factor::nouns)
              .or(() -> TermFamily.parse(key).map(TermFamily::words))
              .orElse(key);
    };
  }

  /** An axis in words. */
  public static String axis(String key) {
    return key.equals("xy") ? "x and y, each" : key;
  }

  /** A kind of trim in words. */
  public static String trimKind(String key) {
    TrimKind kind = TrimKind.parse(key).orElse(null);
    if (kind == TrimKind.COMMON) {
      return "common to all parts";
    }
    return kind == TrimKind.ROTATION_ZERO
        ? "rotation zero"
        : Factor.parse(key).map(Factor::noun).orElse(key);
  }

  /** Names joined, cut after some. */
  public static String some(List<String> names, int most) {
    String s = String.join(", ", names.subList(0, Math.min(most, names.size())));
    return names.size() > most ? s + " and " + (names.size() - most) + " more" : s;
  }
}
