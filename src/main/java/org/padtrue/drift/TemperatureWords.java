package org.padtrue.drift;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.drift.cause.TemperatureEffect;
import org.padtrue.drift.hint.Expansion;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.drift.hint.SpelledNumbers;

/** Says how series follow temperature, and which materials expand like that. */
final class TemperatureWords {
  /** Materials named at most. */
  private static final int MOST = 4;

  private TemperatureWords() {}

  static String one(SeriesDrift d) {
    TemperatureEffect t = d.temperature();
    if (t == null) {
      return SeriesWords.name(d.name());
    }
    String unit = d.series().unit();
    return String.format(
        "%s moves with temperature by %s per kelvin (95 %%: %s to %s).",
        SeriesWords.framed(d.name()),
        SpelledNumbers.signedNumber(t.slope(), unit, t.standardError())
            + " "
            + SpelledNumbers.unit(unit),
        SpelledNumbers.signedNumber(t.low(), unit, t.standardError()),
        SpelledNumbers.signedNumber(t.high(), unit, t.standardError()));
  }

  static String scales(List<SeriesDrift> scales, List<Expansion> materials) {
    TemperatureEffect a = scales.get(0).temperature();
    TemperatureEffect b = scales.get(scales.size() - 1).temperature();
    if (a == null || b == null) {
      return "";
    }
    if (scales.size() == 1) {
      return String.format(
          Locale.ROOT,
          "%s moves with temperature at %s, the other axis does not as far as can be seen%s.",
          SeriesWords.name(scales.get(0).name()),
          rate(a),
          materials(a, materials));
    }
    double apart = Math.abs(a.slope() - b.slope());
    boolean alike = apart <= 2 * Math.hypot(a.standardError(), b.standardError());
    if (!alike) {
      return String.format(
          Locale.ROOT,
          "Both scales move with temperature, but differently: x at %s%s, y at %s%s.",
          rate(a),
          materials(a, materials),
          rate(b),
          materials(b, materials));
    }
    double wa = 1 / (a.standardError() * a.standardError());
    double wb = 1 / (b.standardError() * b.standardError());
    double se = Math.sqrt(1 / (wa + wb));
    double mean = (wa * a.slope() + wb * b.slope()) / (wa + wb);
    return String.format(
        Locale.ROOT,
        "Both scales move with temperature alike, x at %s and y at %s, together %+.1f ppm/K%s.",
        rate(a),
        rate(b),
        mean,
        materials(mean, se, materials));
  }

  private static String rate(TemperatureEffect t) {
    return String.format(
        Locale.ROOT, "%+.1f ppm/K (95 %%: %+.1f to %+.1f)", t.slope(), t.low(), t.high());
  }

  private static String materials(TemperatureEffect t, List<Expansion> table) {
    return materials(t.slope(), t.standardError(), table);
  }

  /** What a value rests on, as the table's source begins; nothing where it does not say. */
  private static String standing(String source) {
    for (String s : List.of("published", "between published values", "from memory")) {
      if (source.startsWith(s + ":")) {
        return " (" + s + ")";
      }
    }
    return source.contains("from memory") ? " (from memory)" : "";
  }

  // Scale measured against lands or fiducials is machine minus board, so several may be named.
  private static String materials(double slope, double se, List<Expansion> table) {
    List<String> names = new ArrayList<>();
    for (Expansion e : table) {
      if (e.matches(slope, se) && names.size() < MOST) {
        names.add(
            e.material()
                + (e.lowPpmPerK() == e.highPpmPerK()
                    ? String.format(Locale.ROOT, " %.3g", e.lowPpmPerK())
                    : String.format(Locale.ROOT, " %.3g to %.3g", e.lowPpmPerK(), e.highPpmPerK()))
                + standing(e.source()));
      }
    }
    if (names.isEmpty()) {
      return "";
    }
    return ", as "
        + SpelledNumbers.list(names)
        + " ppm/K would (what is seen is the machine against the board)";
  }
}
