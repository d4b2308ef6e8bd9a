package org.padtrue.drift;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.cause.Change;
import org.padtrue.drift.cause.SlowKind;
import org.padtrue.drift.cause.WarmUp;
import org.padtrue.drift.chart.BaseEstimate;
import org.padtrue.drift.chart.Signal;
import org.padtrue.drift.hint.Cause;
import org.padtrue.drift.hint.Hint;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.drift.hint.SpelledNumbers;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.KnownEvent;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.drift.trend.TrendEffect;
import org.padtrue.numeric.Order;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;
import org.padtrue.panel.term.FixedTerm;

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
    String first = sentence.substring(0, 1).toUpperCase(Locale.ROOT);
    hints.add(new Hint(names, cause, first + sentence.substring(1), action));
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
                "%s starts %s off after switching on and settles with a time constant of %.0f"
                    + " \u00b1 %.0f minutes.",
                framed(d),
                SpelledNumbers.plusMinus(w.amplitude(), w.amplitudeSe(), d.series().unit()),
                w.minutes(),
                w.minutesSe()),
            String.format(
                "Let the machine run for %.0f minutes before the first article, until what remains"
                    + " is under %s.",
                Math.ceil(w.minutesUntil(remains)),
                SpelledNumbers.value(remains, d.series().unit())));
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
    double typical = Math.hypot(sd, se.length == 0 ? 0 : Order.median(se));
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
        clauses.add(framed(d) + " by " + perDay(d) + forecast(d));
      }
      Blame b = blame(shown.get(0), trending, slopes(shown.get(0)));
      add(
          shown,
          b.cause,
          "Since "
              + SpelledNumbers.day(shown.get(0).series().points().get(0).at())
              + " there is a steady drift: "
              + SpelledNumbers.list(clauses)
              + "; "
              + b.evidence
              + ".",
          b.action);
    }
  }

  private void scaleTrend(List<SeriesDrift> scales) {
    if (scales.size() == 1) {
      SeriesDrift d = scales.get(0);
      boolean x = d.name().equals(FixedTerm.SCALE_X.series());
      String other = (x ? FixedTerm.SCALE_Y : FixedTerm.SCALE_X).series();
      add(
          scales,
          Cause.BELT_STRETCH,
          "Since "
              + SpelledNumbers.day(d.series().points().get(0).at())
              + " "
              + words(d)
              + " creeps by "
              + perDay(d)
              + stays(other)
              + forecast(d)
              + ": one axis alone creeping as the machine runs is what a stretching belt does"
              + (d.slow() == SlowKind.TREND_AND_EVENT_STEPS ? ", and service sets it back" : "")
              + ".",
          "Check the tension of that axis' belt as the maker says, then calibrate its scale; until"
              + " then ADD "
              + followed(d)
              + " to "
              + words(d)
              + " for every day since it was last trimmed.");
      return;
    }
    SeriesDrift x = scales.get(0);
    SeriesDrift y = scales.get(1);
    add(
        scales,
        Cause.UNKNOWN,
        "Since "
            + SpelledNumbers.day(x.series().points().get(0).at())
            + " both scales creep: "
            + words(x)
            + " by "
            + perDay(x)
            + forecast(x)
            + ", "
            + words(y)
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
        return " while " + words(d) + " stays (" + perDay(d) + ")";
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
        "%s %s per day (95 %%: %s to %s)",
        SpelledNumbers.signedNumber(t.perDay(), unit, half),
        SpelledNumbers.unit(unit),
        SpelledNumbers.signedNumber(t.low(), unit, half),
        SpelledNumbers.signedNumber(t.high(), unit, half));
  }

  /** What takes one day's creep off. */
  private static String followed(SeriesDrift d) {
    TrendEffect t = d.trend();
    return t == null
        ? ""
        : SpelledNumbers.signed(-t.perDay(), d.series().unit(), 0.5 * (t.high() - t.low()));
  }

  private static String forecast(SeriesDrift d) {
    Forecast f = d.forecast();
    if (f == null) {
      return "";
    }
    String limit = SpelledNumbers.signed(f.limit(), d.series().unit(), 0.1 * f.limit());
    if (f.beyond()) {
      return ", now beyond its no-adjustment limit of " + limit;
    }
    java.time.Instant high = f.high();
    return ", reaching its no-adjustment limit of "
        + limit
        + " about "
        + SpelledNumbers.day(f.at())
        + " (95 %: "
        + SpelledNumbers.day(f.low())
        + " to "
        + (high == null ? "no foreseeable end" : SpelledNumbers.day(high))
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
        Culprit who = d.series().isDifference() ? Culprit.of(jumps(d, c)) : null;
        String owner = who == null ? owner(d) : against(d, who);
        String key = owner + " " + near(groups, owner, c.index());
        groups.computeIfAbsent(key, k -> new ArrayList<>()).add(new Step(d, c, who));
      }
    }
    for (List<Step> g : groups.values()) {
      step(g, stepping);
    }
  }

  private List<Culprit.Move> jumps(SeriesDrift d, Change c) {
    return Culprit.jumps(differences(d), c.at());
  }

  private List<Culprit.Move> slopes(SeriesDrift d) {
    return d.series().isDifference() ? Culprit.slopes(differences(d)) : List.of();
  }

  /** All differences of the same factor and axis. */
  private List<SeriesDrift> differences(SeriesDrift d) {
    return series.stream()
        .filter(
            o ->
                o.series().isDifference()
                    && o.series().factor() == d.series().factor()
                    && o.series().axis() == d.series().axis())
        .toList();
  }

  private record Step(SeriesDrift series, Change change, @Nullable Culprit who) {}

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
    List<String> corrections = new ArrayList<>();
    List<SeriesDrift> shown = new ArrayList<>();
    KnownEvent event = null;
    for (Step s : group) {
      DriftSeries of = s.series.series();
      clauses.add(
          framed(s.series)
              + " by "
              + SpelledNumbers.plusMinus(s.change.size(), s.change.standardError(), of.unit()));
      String correction = correction(s);
      if (!correction.isEmpty()) {
        corrections.add(correction);
      }
      shown.add(s.series);
      event = s.change.event() != null ? s.change.event() : event;
    }
    Step lead = group.get(0);
    Change first = lead.change;
    String what =
        "Between "
            + SpelledNumbers.time(first.previous())
            + " and "
            + SpelledNumbers.time(first.at())
            + " a step: "
            + SpelledNumbers.list(clauses);
    String add =
        corrections.isEmpty()
            ? ""
            : " To take the step out, ADD to what is programmed now: "
                + String.join("; ", corrections)
                + ".";
    if (event != null && event.kind() == KnownEvent.Kind.SERVICE) {
      add(
          shown,
          Cause.SERVICE,
          what + ", at the " + event.what() + " of " + SpelledNumbers.time(event.at()) + ".",
          "Measure a first article after every service and renew the trims." + add);
      return;
    }
    List<SeriesDrift> together =
        stepping.stream()
            .filter(
                d -> d.changes().stream().anyMatch(c -> Math.abs(c.index() - first.index()) <= 2))
            .toList();
    Blame b =
        blame(
            lead.series,
            together,
            lead.who == null ? List.of() : Culprit.jumps(differences(lead.series), first.at()));
    String reel = event == null ? "" : ", after " + event.what();
    add(shown, b.cause, what + reel + "; " + b.evidence + ".", b.action + add);
    Culprit who = lead.who;
    if (who != null && who.sure()) {
      // whatever else moves against that level is the same step
      differences(lead.series).stream()
          .map(SeriesDrift::series)
          .filter(d -> d.plusLevel().equals(who.level()) || d.minusLevel().equals(who.level()))
          .forEach(d -> explained.add(d.name()));
    }
  }

  /** What to add so that a step is taken out, what was trimmed since counted; empty for nothing. */
  private static String correction(Step s) {
    DriftSeries of = s.series.series();
    if (of.isDifference()
        || !of.tiedTo().isEmpty()
        || FixedTerm.parse(of.name()).filter(t -> !t.trimmed()).isPresent()) {
      return "";
    }
    List<SeriesPoint> p = of.points();
    double since = p.get(p.size() - 1).trims() - p.get(Math.max(0, s.change.index() - 1)).trims();
    double needed = -s.change.size() - since;
    return Math.abs(needed) < 2 * s.change.standardError()
        ? ""
        : words(s.series)
            + " "
            + SpelledNumbers.signed(needed, of.unit(), 5 * s.change.standardError());
  }

  private static String words(SeriesDrift d) {
    return SeriesWords.name(d.name());
  }

  private static String framed(SeriesDrift d) {
    return SeriesWords.framed(d.name());
  }

  // Charts that call where nothing else was found.
  private void signals() {
    for (SeriesDrift d : series) {
      if (!d.signals().isEmpty() && !explained.contains(d.name())) {
        Signal s = d.signals().get(0);
        List<SeriesDrift> calling = series.stream().filter(o -> !o.signals().isEmpty()).toList();
        Blame b = blame(d, calling, slopes(d));
        add(
            List.of(d),
            b.cause,
            s.sentence() + " No trend, step, temperature or warm-up accounts for it.",
            "Measure one more article before changing anything; a single article may be wrong.");
      }
    }
  }

  private record Blame(Cause cause, String evidence, String action) {}

  /**
   * Who is to blame for a series, given all those that do the same at the same time.
   *
   * @param moves of the differences of its factor and axis; empty for a single level
   */
  private Blame blame(SeriesDrift d, List<SeriesDrift> same, List<Culprit.Move> moves) {
    Factor factor = d.series().factor();
    if (factor != null && !moves.isEmpty()) {
      Culprit who = Culprit.of(moves);
      String name = new Level(factor, who.level()).words();
      return of(
          factor,
          who.level(),
          who.sure()
              ? name
                  + " has moved against "
                  + SpelledNumbers.list(who.others())
                  + (who.others().size() > 1 ? ", which stay to each other" : "")
              : "one of them has moved against the other, the log does not tell which");
    }
    String level = d.series().level();
    Set<String> levels = levels(series, factor);
    Set<String> moving = levels(same, factor);
    if (!d.series().tiedTo().isEmpty()) {
      return tied(d, levels, moving);
    }
    if (factor != null && moving.size() == 1 && levels.size() > 1) {
      String name = new Level(factor, level).words();
      int others = levels.size() - 1;
      Blame b =
          of(
              factor,
              level,
              name + " alone moves, the other " + others + (others == 1 ? " stays" : " stay"));
      if (b.cause != Cause.UNKNOWN) {
        return b;
      }
    }
    if (FixedTerm.isRegistration(d.name())) {
      return new Blame(
          Cause.REGISTRATION,
          "panel offset and panel rotation belong to how the panel is located",
          "Look at clamping, stops, fiducial recognition and the panels' fiducials.");
    }
    return new Blame(
        Cause.UNKNOWN,
        factor == null || levels.size() < 2
            ? "the log does not tell why"
            : moving.size() + " of " + levels.size() + " " + factor.nouns() + " move together",
        "Look for what changed at that time; record service, reels and temperature with each"
            + " article.");
  }

  // A type that comes only with one nozzle: all such types together point to the nozzle.
  private Blame tied(SeriesDrift d, Set<String> levels, Set<String> moving) {
    String to = d.series().tiedTo();
    List<String> alike = levels.stream().filter(l -> l.endsWith(" with " + to)).toList();
    boolean all = alike.size() > 1 && moving.containsAll(alike);
    return new Blame(
        all ? Cause.NOZZLE : Cause.UNKNOWN,
        all
            ? "all part types that " + to + " alone places move together"
            : "part type " + d.series().plusLevel() + " and " + to + " only ever come together",
        "Look at "
            + to
            + " and at the reel; place the type with another nozzle once to tell them"
            + " apart.");
  }

  private static Blame of(Factor factor, String level, String evidence) {
    return switch (factor) {
      case NOZZLE ->
          new Blame(
              Cause.NOZZLE,
              evidence,
              "Look at nozzle " + level + ": seat, wear, a bent or dirty tip; then measure anew.");
      case PART ->
          new Blame(
              Cause.PART_TYPE,
              evidence,
              "Look at the reel, the pick-up height and the recognition of "
                  + level
                  + "; then measure anew.");
      default ->
          new Blame(Cause.UNKNOWN, evidence, "Look at " + factor.key() + " " + level + " first.");
    };
  }

  private static Set<String> levels(List<SeriesDrift> all, @Nullable Factor factor) {
    Set<String> levels = new LinkedHashSet<>();
    for (SeriesDrift s : all) {
      if (s.series().factor() == factor && !s.series().isDifference()) {
        levels.add(s.series().level());
      }
    }
    return levels;
  }

  private Map<String, List<SeriesDrift>> byOwner(List<SeriesDrift> all) {
    Map<String, List<SeriesDrift>> m = new LinkedHashMap<>();
    for (SeriesDrift d : all) {
      String owner = d.series().isDifference() ? against(d, Culprit.of(slopes(d))) : owner(d);
      m.computeIfAbsent(owner, k -> new ArrayList<>()).add(d);
    }
    return m;
  }

  // Axes of one level belong together; so do shift and rotation; other terms stand alone.
  private static String owner(SeriesDrift d) {
    String name = d.name();
    if (!d.series().tiedTo().isEmpty()) {
      return d.series().tiedTo();
    }
    Factor factor = d.series().factor();
    if (factor != null) {
      return new Level(factor, d.series().level()).toString();
    }
    if (FixedTerm.isRegistration(name)) {
      return "registration";
    }
    return isScale(name) ? "scale " + name : name;
  }

  private static String against(SeriesDrift d, Culprit who) {
    Factor factor = d.series().factor();
    return factor == null ? who.level() : new Level(factor, who.level()).toString();
  }

  static boolean isScale(String name) {
    return name.equals(FixedTerm.SCALE_X.series()) || name.equals(FixedTerm.SCALE_Y.series());
  }
}
