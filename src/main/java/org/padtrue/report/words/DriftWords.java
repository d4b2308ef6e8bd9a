package org.padtrue.report.words;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.ExcessSpread;
import org.padtrue.drift.Forecast;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.drift.hint.Cause;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.log.DriftStudy;

/** What a study of drift says, in the words of console and pages. */
public final class DriftWords {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);

  /** Said once wherever it is told what to do. */
  public static final List<String> CAUTIONS =
      List.of(
          "The gantry moves: interlocks and lockout as the maker of the machine says. Change"
              + " offsets only as a qualified person; local rules hold.",
          "A hint names what usually does this; look before you mend.");

  /** How values are to be read, once for all of them. */
  public static final String SIGNS =
      "Values are measured minus nominal: plus is to the right, up, counter-clockwise as placed,"
          + " for a scale longer than nominal. A value to ADD is a correction to what is programmed"
          + " now. After \u00b1 stands one standard error; an interval is 95 % where it says so.";

  private DriftWords() {}

  /** A sentence for a page: micrometres by their sign. */
  public static String page(String sentence) {
    return Show.words(sentence);
  }

  /** The day, UTC. */
  public static String day(Instant t) {
    return DAY.format(t);
  }

  /** Everything a reader should know, the study's own notes first. */
  public static List<String> notes(DriftStudy s) {
    List<String> all = new ArrayList<>(s.notes());
    all.addAll(s.drift().notes());
    return all;
  }

  /** Names of series that a hint speaks of. */
  public static Set<String> named(DriftStudy s) {
    Set<String> names = new LinkedHashSet<>();
    s.drift().hints().forEach(h -> names.addAll(h.series()));
    return names;
  }

  /** A value of a series with its unit: mm become micrometres. */
  public static String value(double v, String unit) {
    return switch (unit) {
      case "mm" -> Math.abs(v) < 0.9995 ? Show.um(v) + " um" : Show.fixed(v, 2) + " mm";
      case "deg" -> Show.short0(v, Math.abs(v) < 0.01 ? 4 : 3) + " degrees";
      case "ppm" -> Show.three(v) + " ppm";
      default -> Show.short0(v, 3) + " " + unit;
    };
  }

  /** How well panels are registered, one sentence; empty when the log does not tell. */
  public static String repeatability(DriftStudy s) {
    List<String> clauses = new ArrayList<>();
    for (ExcessSpread e : s.repeatability()) {
      clauses.add(
          String.format(
              Locale.ROOT,
              "%s %s (95 %%: %s to %s)",
              SeriesWords.name(e.series()),
              value(e.sd(), e.unit()),
              value(e.low(), e.unit()),
              value(e.high(), e.unit())));
    }
    return clauses.isEmpty()
        ? ""
        : "Registration from panel to panel (standard deviations), from "
            + s.repeatability().get(0).points()
            + " articles: "
            + String.join(", ", clauses)
            + ".";
  }

  /** Series without a hint. */
  public static List<SeriesDrift> quiet(DriftStudy s) {
    Set<String> named = named(s);
    return s.drift().series().stream().filter(d -> !named.contains(d.name())).toList();
  }

  /** What a reader takes away, one or two sentences. */
  public static String headline(DriftStudy s) {
    int hints = s.drift().hints().size();
    if (s.drift().family().charts() == 0) {
      return "This cannot be told yet: control limits need eight articles or more.";
    }
    if (hints == 0) {
      return "Nothing drifts. Leave everything alone.";
    }
    int quiet = quiet(s).size();
    return (hints == 1 ? "One thing drifts" : hints + " things drift")
        + "; the other "
        + quiet
        + " series are steady and are to be left alone.";
  }

  /** A likely cause in the trade's words. */
  public static String cause(Cause c) {
    return switch (c) {
      case BELT_STRETCH -> "belt stretch";
      case TEMPERATURE -> "temperature";
      case WARM_UP -> "warm-up";
      case NOZZLE -> "one nozzle";
      case PART_TYPE -> "one part type";
      case SERVICE -> "service";
      case REGISTRATION -> "registration";
      case UNKNOWN -> "not known";
    };
  }

  /** When a series reaches its limit; empty when nothing is forecast. */
  public static String forecast(@Nullable Forecast f) {
    if (f == null) {
      return "";
    }
    Instant high = f.high();
    return f.beyond()
        ? "beyond it now"
        : day(f.at()) + " (" + day(f.low()) + " to " + (high == null ? "open" : day(high)) + ")";
  }
}
