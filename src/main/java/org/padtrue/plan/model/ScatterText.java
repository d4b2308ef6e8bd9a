package org.padtrue.plan.model;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * A scatter as it is typed: one for all part types, some part types' own, or both: {@code 0.02},
 * {@code 0.02,L2020=0.05}, {@code L2020=0.05}.
 *
 * @param all of the part types that are not named; null when only some are given
 * @param byType of those that are
 */
public record ScatterText(@Nullable Double all, Map<String, Double> byType) {
  public ScatterText {
    byType = Map.copyOf(byType);
  }

  /**
   * Reads it.
   *
   * @param option name of the option or field, for messages
   * @param text as typed
   * @param unit mm or degrees
   * @param parts part types of the job
   */
  public static ScatterText parse(String option, String text, String unit, Iterable<String> parts) {
    Double all = null;
    Map<String, Double> byType = new LinkedHashMap<>();
    for (String piece : text.split(",", -1)) {
      int equals = piece.lastIndexOf('=');
      double value = number(option, piece.substring(equals + 1).trim(), unit, text);
      if (equals < 0) {
        if (all != null) {
          throw refused(option, text, "two numbers without a part type", unit);
        }
        all = value;
      } else {
        byType.put(known(option, piece.substring(0, equals).trim(), parts), value);
      }
    }
    return new ScatterText(all, byType);
  }

  private static String known(String option, String name, Iterable<String> parts) {
    for (String p : parts) {
      if (p.equals(name)) {
        return p;
      }
    }
    throw new InputException(
        Problem.of(
            "",
            option + " names part type '" + name + "', which the job does not place",
            "write it as the placement file does"));
  }

  private static double number(String option, String s, String unit, String text) {
    try {
      return Double.parseDouble(s.toLowerCase(Locale.ROOT).replace("nan", "NaN"));
    } catch (NumberFormatException e) {
      throw refused(option, text, "'" + s + "' is no number", unit);
    }
  }

  private static InputException refused(String option, String text, String why, String unit) {
    return new InputException(
        Problem.of(
            "",
            option + " '" + text + "': " + why,
            "write one number in "
                + unit
                + " for all part types, TYPE=NUMBER for one, or several behind commas"));
  }
}
