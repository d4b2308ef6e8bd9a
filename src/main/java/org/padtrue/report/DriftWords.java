package org.padtrue.report;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.padtrue.analysis.log.DriftStudy;
import org.padtrue.drift.ExcessSpread;
import org.padtrue.drift.SeriesDrift;

/** What a study of drift says, in the words of console and page. */
final class DriftWords {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);

  private DriftWords() {}

  static String day(Instant t) {
    return DAY.format(t);
  }

  /** Everything a reader should know, the study's own notes first. */
  static List<String> notes(DriftStudy s) {
    List<String> all = new ArrayList<>(s.notes());
    all.addAll(s.drift().notes());
    return all;
  }

  /** Names of series that a hint speaks of. */
  static Set<String> named(DriftStudy s) {
    Set<String> names = new LinkedHashSet<>();
    s.drift().hints().forEach(h -> names.addAll(h.series()));
    return names;
  }

  /** A value of a series with its unit: mm become micrometres. */
  static String value(double v, String unit) {
    return switch (unit) {
      case "mm" -> Show.um(v) + " um";
      case "deg" -> Show.short0(v, Math.abs(v) < 0.01 ? 4 : 3) + " deg";
      case "ppm" -> Show.three(v) + " ppm";
      default -> Show.short0(v, 3) + " " + unit;
    };
  }

  /** How well panels are registered, one sentence; empty when the log does not tell. */
  static String repeatability(DriftStudy s) {
    List<String> clauses = new ArrayList<>();
    for (ExcessSpread e : s.repeatability()) {
      clauses.add(
          String.format(
              Locale.ROOT,
              "%s SD %s (95 %%: %s to %s)",
              e.series(),
              value(e.sd(), e.unit()),
              value(e.low(), e.unit()),
              value(e.high(), e.unit())));
    }
    return clauses.isEmpty()
        ? ""
        : "Registration from panel to panel, from "
            + s.repeatability().get(0).points()
            + " articles: "
            + String.join(", ", clauses)
            + ".";
  }

  /** Series without a hint. */
  static List<SeriesDrift> quiet(DriftStudy s) {
    Set<String> named = named(s);
    return s.drift().series().stream().filter(d -> !named.contains(d.name())).toList();
  }
}
