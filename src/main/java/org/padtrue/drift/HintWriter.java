package org.padtrue.drift;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Reads what the series show together and names likely causes with their evidence. */
final class HintWriter {
  private final List<SeriesDrift> series;
  private final DriftOptions options;
  private final double alpha;
  private final List<Hint> hints = new ArrayList<>();
  private final Set<String> explained = new HashSet<>();

  HintWriter(List<SeriesDrift> series, DriftOptions options, double alpha) {
    this.series = series;
    this.options = options;
    this.alpha = alpha;
  }

  List<Hint> hints() {
    temperature();
    warmUp();
    trends();
    steps();
    signals();
    return hints;
  }

  private void add(List<SeriesDrift> shown, Cause cause, String sentence, String action) {
    List<String> names = shown.stream().map(SeriesDrift::name).toList();
    explained.addAll(names);
    hints.add(new Hint(names, cause, sentence, action));
  }

  private void temperature() {
    List<SeriesDrift> follow = series.stream().filter(d -> d.followsTemperature(alpha)).toList();
    List<SeriesDrift> scales = follow.stream().filter(d -> isScale(d.name())).toList();
    if (!scales.isEmpty()) {
      add(
          scales,
          Cause.TEMPERATURE,
          TemperatureWords.scales(scales, options.materials()),
          "Measure and trim at the temperature of production, and let the room and the machine"
              + " settle before touching an axis.");
    }
    for (SeriesDrift d : follow) {
      if (!isScale(d.name())) {
        add(
            List.of(d),
            Cause.TEMPERATURE,
            TemperatureWords.one(d),
            "Trim it at the temperature of production.");
      }
    }
  }

  private void warmUp() {
    for (SeriesDrift d : series) {
      WarmUp w = d.warmUp();
      if (w != null) {
        double remains = remains(d);
        add(
            List.of(d),
            Cause.WARM_UP,
            String.format(
                "%s starts %s off and settles with a time constant of %.0f \u00b1 %.0f minutes.",
                d.name(),
                Say.plusMinus(w.amplitude(), 2 * w.amplitudeSe(), d.series().unit()),
                w.minutes(),
                2 * w.minutesSe()),
            String.format(
                "Warm up for %.0f minutes until what remains is under %s.",
                Math.ceil(w.minutesUntil(remains)), Say.value(remains, d.series().unit())));
      }
    }
  }

  // What may remain: the limit if there is one, else the spread of one article.
  private double remains(SeriesDrift d) {
    double limit = options.limit(d.series());
    if (limit > 0) {
      return limit;
    }
    BaseEstimate b = d.base();
    double sd = b == null ? 0 : b.processSd();
    double[] se =
        d.series().points().stream()
            .mapToDouble(SeriesPoint::standardError)
            .filter(v -> v >= 0 && Double.isFinite(v))
            .toArray();
    double typical = Math.hypot(sd, se.length == 0 ? 0 : TheilSen.median(se));
    WarmUp w = d.warmUp();
    return typical > 0 || w == null ? typical : 0.1 * Math.abs(w.amplitude());
  }

  private void trends() {
    List<SeriesDrift> trending = series.stream().filter(d -> d.trends(alpha)).toList();
    List<SeriesDrift> scales = trending.stream().filter(d -> isScale(d.name())).toList();
    if (!scales.isEmpty()) {
      scaleTrend(scales);
    }
    for (Map.Entry<String, List<SeriesDrift>> e : byOwner(trending).entrySet()) {
      List<SeriesDrift> shown = e.getValue();
      if (isScale(shown.get(0).name())) {
        continue;
      }
      List<String> clauses = new ArrayList<>();
      for (SeriesDrift d : shown) {
        clauses.add(d.name() + " by " + perDay(d) + forecast(d));
      }
      Blame b = blame(shown.get(0), trending);
      add(
          shown,
          b.cause,
          "Since "
              + Say.time(shown.get(0).series().points().get(0).at())
              + " there is a steady drift: "
              + Say.list(clauses)
              + "; "
              + b.evidence
              + ".",
          b.action);
    }
  }

  private void scaleTrend(List<SeriesDrift> scales) {
    if (scales.size() == 1) {
      SeriesDrift d = scales.get(0);
      String other = d.name().equals("scaleXPpm") ? "scaleYPpm" : "scaleXPpm";
      add(
          scales,
          Cause.BELT_STRETCH,
          "Since "
              + Say.time(d.series().points().get(0).at())
              + " "
              + d.name()
              + " creeps by "
              + perDay(d)
              + stays(other)
              + ": one axis alone creeping as the machine runs is what a stretching belt does"
              + (d.slow() == SlowKind.TREND_AND_EVENT_STEPS ? ", and service sets it back" : "")
              + forecast(d)
              + ".",
          "Check the tension of that axis' belt as the maker says, then calibrate its scale; until"
              + " then a scale trim follows it.");
      return;
    }
    SeriesDrift x = scales.get(0);
    SeriesDrift y = scales.get(1);
    add(
        scales,
        Cause.UNKNOWN,
        "Since "
            + Say.time(x.series().points().get(0).at())
            + " both scales creep: "
            + x.name()
            + " by "
            + perDay(x)
            + forecast(x)
            + ", "
            + y.name()
            + " by "
            + perDay(y)
            + forecast(y)
            + "; two axes at once point to the reference or a temperature that was not recorded"
            + " rather than to a belt.",
        "Check the reference that the measuring is scaled by, and record the temperature.");
  }

  private String stays(String name) {
    for (SeriesDrift d : series) {
      if (d.name().equals(name) && d.trend() != null) {
        return " while " + name + " stays (" + perDay(d) + ")";
      }
    }
    return "";
  }

  private static String perDay(SeriesDrift d) {
    TrendEffect t = d.trend();
    if (t == null) {
      return "an unknown rate";
    }
    String unit = d.series().unit();
    double half = 0.5 * (t.high() - t.low());
    return String.format(
        "%s%s %s per day (95 %%: %s to %s)",
        t.perDay() > 0 ? "+" : "",
        Say.number(t.perDay(), unit, half),
        Say.unit(unit),
        Say.number(t.low(), unit, half),
        Say.number(t.high(), unit, half));
  }

  private static String forecast(SeriesDrift d) {
    Forecast f = d.forecast();
    if (f == null) {
      return "";
    }
    String limit = Say.value(f.limit(), d.series().unit());
    if (f.beyond()) {
      return ", now beyond its limit of " + limit;
    }
    java.time.Instant high = f.high();
    return ", reaching "
        + limit
        + " about "
        + Say.time(f.at())
        + " (between "
        + Say.time(f.low())
        + " and "
        + (high == null ? "no foreseeable end" : Say.time(high))
        + ")";
  }

  private void steps() {
    List<SeriesDrift> stepping = series.stream().filter(d -> !d.changes().isEmpty()).toList();
    for (SeriesDrift d : stepping) {
      explained.add(d.name());
    }
    Map<String, List<Step>> groups = new LinkedHashMap<>();
    for (SeriesDrift d : stepping) {
      for (Change c : d.changes()) {
        String key = owner(d) + " " + near(groups, owner(d), c.index());
        groups.computeIfAbsent(key, k -> new ArrayList<>()).add(new Step(d, c));
      }
    }
    for (List<Step> g : groups.values()) {
      step(g, stepping);
    }
  }

  private record Step(SeriesDrift series, Change change) {}

  // Steps of one owner within two articles of each other are one event.
  private static int near(Map<String, List<Step>> groups, String owner, int index) {
    for (int i = index - 2; i <= index + 2; i++) {
      if (groups.containsKey(owner + " " + i)) {
        return i;
      }
    }
    return index;
  }

  private void step(List<Step> group, List<SeriesDrift> stepping) {
    List<String> clauses = new ArrayList<>();
    List<SeriesDrift> shown = new ArrayList<>();
    KnownEvent event = null;
    for (Step s : group) {
      String unit = s.series.series().unit();
      clauses.add(
          s.series.name()
              + " by "
              + Say.plusMinus(s.change.size(), 2 * s.change.standardError(), unit));
      shown.add(s.series);
      event = s.change.event() != null ? s.change.event() : event;
    }
    Change first = group.get(0).change;
    String what =
        "Between "
            + Say.time(first.previous())
            + " and "
            + Say.time(first.at())
            + " a step: "
            + Say.list(clauses);
    if (event != null && event.kind() == KnownEvent.Kind.SERVICE) {
      add(
          shown,
          Cause.SERVICE,
          what + ", at the " + event.what() + " of " + Say.time(event.at()) + ".",
          "Measure a first article after every service and renew the trims.");
      return;
    }
    List<SeriesDrift> together =
        stepping.stream()
            .filter(
                d -> d.changes().stream().anyMatch(c -> Math.abs(c.index() - first.index()) <= 2))
            .toList();
    Blame b = blame(shown.get(0), together);
    String reel = event == null ? "" : ", after " + event.what();
    add(shown, b.cause, what + reel + "; " + b.evidence + ".", b.action);
  }

  // Charts that call where nothing else was found.
  private void signals() {
    for (SeriesDrift d : series) {
      if (!d.signals().isEmpty() && !explained.contains(d.name())) {
        Signal s = d.signals().get(0);
        List<SeriesDrift> calling = series.stream().filter(o -> !o.signals().isEmpty()).toList();
        Blame b = blame(d, calling);
        add(
            List.of(d),
            b.cause,
            s.sentence() + " No trend, step, temperature or warm-up accounts for it.",
            "Measure one more article before changing anything; a single article may be wrong.");
      }
    }
  }

  private record Blame(Cause cause, String evidence, String action) {}

  /** Who is to blame for a series, given all those that do the same at the same time. */
  private Blame blame(SeriesDrift d, List<SeriesDrift> same) {
    String factor = d.series().factor();
    String level = d.series().level();
    long levels =
        series.stream()
            .filter(s -> s.series().factor().equals(factor))
            .map(s -> s.series().level())
            .distinct()
            .count();
    long moving =
        same.stream()
            .filter(s -> s.series().factor().equals(factor))
            .map(s -> s.series().level())
            .distinct()
            .count();
    boolean alone = moving == 1 && levels > 1;
    if (factor.equals("nozzle") && alone) {
      return new Blame(
          Cause.NOZZLE,
          "nozzle " + level + " alone moves, the other " + (levels - 1) + " stay",
          "Look at nozzle " + level + ": seat, wear, a bent or dirty tip; then trim it anew.");
    }
    if (factor.equals("part") && alone) {
      return new Blame(
          Cause.PART_TYPE,
          "type " + level + " alone moves, the other " + (levels - 1) + " stay",
          "Look at the reel, the pick-up height and the recognition of "
              + level
              + "; then trim it anew.");
    }
    if (d.name().equals("shiftX") || d.name().equals("shiftY") || d.name().equals("rotation")) {
      return new Blame(
          Cause.REGISTRATION,
          "shift and rotation belong to how the panel is located",
          "Look at clamping, stops, fiducial recognition and the panels' fiducials.");
    }
    return new Blame(
        Cause.UNKNOWN,
        factor.isEmpty() || levels < 2
            ? "the log does not tell why"
            : moving + " of " + levels + " levels of " + factor + " move together",
        "Look for what changed at that time; record service, reels and temperature with each"
            + " article.");
  }

  private static Map<String, List<SeriesDrift>> byOwner(List<SeriesDrift> all) {
    Map<String, List<SeriesDrift>> m = new LinkedHashMap<>();
    for (SeriesDrift d : all) {
      m.computeIfAbsent(owner(d), k -> new ArrayList<>()).add(d);
    }
    return m;
  }

  // Axes of one level belong together; so do shift and rotation; other terms stand alone.
  private static String owner(SeriesDrift d) {
    String name = d.name();
    if (!d.series().factor().isEmpty()) {
      return d.series().factor() + " " + d.series().level();
    }
    if (name.equals("shiftX") || name.equals("shiftY") || name.equals("rotation")) {
      return "registration";
    }
    return isScale(name) ? "scale " + name : name;
  }

  static boolean isScale(String name) {
    return name.equals("scaleXPpm") || name.equals("scaleYPpm");
  }
}
