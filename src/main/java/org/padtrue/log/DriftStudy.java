package org.padtrue.log;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.DriftAnalysis;
import org.padtrue.drift.DriftOptions;
import org.padtrue.drift.DriftResult;
import org.padtrue.drift.ExcessSpread;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.KnownEvent;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.history.ArticleEntry;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedEvent;
import org.padtrue.history.LoggedPoint;
import org.padtrue.history.LoggedSeries;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * What drifts on one machine.
 *
 * @param machine its name
 * @param job the job whose articles were taken, or null for all
 * @param articles the articles that stand, in order of time
 * @param drift series, signals, hints
 * @param repeatability of registration at the centre of what was measured: shiftX, shiftY, rotation
 * @param notes what a reader should know, one sentence each
 */
public record DriftStudy(
    String machine,
    @Nullable String job,
    List<ArticleEntry> articles,
    DriftResult drift,
    List<ExcessSpread> repeatability,
    List<String> notes) {
  public DriftStudy {
    articles = List.copyOf(articles);
    repeatability = List.copyOf(repeatability);
    notes = List.copyOf(notes);
  }

  /**
   * Studies the log.
   *
   * @param log open to read
   * @param machine a machine's name, or null when the log has only one
   * @param job only this job's articles, or null for all
   * @param options charts, materials, and limits that go before the dead bands of the log
   * @throws InputException when the log has no such articles
   */
  public static DriftStudy of(
      ArticleLog log, @Nullable String machine, @Nullable String job, DriftOptions options) {
    String m = machine(log, machine);
    List<ArticleEntry> entries =
        log.articles(m, job).stream().filter(ArticleEntry::stands).toList();
    if (entries.isEmpty()) {
      throw new InputException(
          Problem.of(
              "--job",
              "machine '" + m + "' has no articles of job '" + job + "' in the log",
              "it has " + String.join(", ", log.jobs())));
    }
    List<String> notes = new ArrayList<>();
    List<LoggedSeries> logged = OpenTerms.settled(log.series(m, job));
    Map<String, DriftSeries> series = new LinkedHashMap<>();
    String registrationJob = mostFrequentJob(entries);
    Set<Long> registered = new LinkedHashSet<>();
    entries.stream()
        .filter(e -> e.job().equals(registrationJob))
        .forEach(e -> registered.add(e.id()));
    if (registered.size() < entries.size()) {
      notes.add(
          "Shift and rotation belong to a job: they are shown for '"
              + registrationJob
              + "', which has most articles; --job shows another's.");
    }
    for (LoggedSeries s : KnownWell.of(ordered(logged))) {
      boolean own = FixedTerm.isRegistration(s.name());
      series.put(s.name(), series(s, own ? registered : null));
    }
    Map<String, Double> limits = new HashMap<>(DeadBands.limits(logged));
    limits.putAll(options.limits());
    DriftResult drift =
        new DriftAnalysis(options.withLimits(limits))
            .run(List.copyOf(series.values()), events(log, m));
    return new DriftStudy(m, job, entries, drift, LogRepeatability.of(logged, registered), notes);
  }

  /** The machine asked for, or the only one of the log. */
  static String machine(ArticleLog log, @Nullable String machine) {
    List<String> all = log.machines();
    if (all.isEmpty()) {
      throw new InputException(
          Problem.of("--history", "the log has no articles yet", "record an article first"));
    }
    if (machine == null) {
      if (all.size() > 1) {
        throw new InputException(
            Problem.of(
                "--machine",
                "the log has several machines: " + String.join(", ", all),
                "name one"));
      }
      return all.get(0);
    }
    if (!all.contains(machine)) {
      throw new InputException(
          Problem.of(
              "--machine",
              "the log has no machine '" + machine + "'",
              "it has " + String.join(", ", all)));
    }
    return machine;
  }

  private static String mostFrequentJob(List<ArticleEntry> entries) {
    Map<String, Integer> count = new LinkedHashMap<>();
    entries.forEach(e -> count.merge(e.job(), 1, Integer::sum));
    String best = entries.get(0).job();
    for (Map.Entry<String, Integer> e : count.entrySet()) {
      if (e.getValue() > count.getOrDefault(best, 0)) {
        best = e.getKey();
      }
    }
    return best;
  }

  // Panel terms first, then scatter, then levels in the order of their names.
  private static List<LoggedSeries> ordered(List<LoggedSeries> all) {
    List<LoggedSeries> out = new ArrayList<>();
    for (String name : SeriesNames.PANEL) {
      all.stream().filter(s -> s.name().equals(name)).forEach(out::add);
    }
    record Named(LoggedSeries series, LevelTerm term) {}
    all.stream()
        .flatMap(s -> LevelTerm.parse(s.name()).map(t -> new Named(s, t)).stream())
        .sorted(
            java.util.Comparator.comparing((Named n) -> n.term().factor())
                .thenComparing(n -> n.term().levels())
                .thenComparing(n -> n.term().axis()))
        .forEach(n -> out.add(n.series()));
    return out;
  }

  static DriftSeries series(LoggedSeries s, @Nullable Set<Long> only) {
    List<SeriesPoint> points = new ArrayList<>();
    for (LoggedPoint p : s.points()) {
      if (only == null || only.contains(p.articleId())) {
        points.add(point(p));
      }
    }
    return new DriftSeries(s.name(), s.unit(), points);
  }

  private static SeriesPoint point(LoggedPoint p) {
    return new SeriesPoint(
        p.at(),
        Long.toString(p.articleId()),
        p.value(),
        p.state(),
        p.trims(),
        p.standardError(),
        p.conditions().minutesRunning(),
        p.conditions().temperatureC(),
        p.conditions().placementsSinceService());
  }

  static SeriesPoint point(LoggedPoint p, double value, double state, double standardError) {
    return new SeriesPoint(
        p.at(),
        Long.toString(p.articleId()),
        value,
        state,
        standardError,
        p.conditions().minutesRunning(),
        p.conditions().temperatureC(),
        p.conditions().placementsSinceService());
  }

  private static List<KnownEvent> events(ArticleLog log, String machine) {
    List<KnownEvent> all = new ArrayList<>();
    for (LoggedEvent e : log.events(machine)) {
      boolean reel = e.kind().equals("reel");
      String what = reel ? "the change of the reel of " + e.level() : e.kind() + suffix(e.level());
      all.add(
          new KnownEvent(
              e.at(), reel ? KnownEvent.Kind.REEL : KnownEvent.Kind.SERVICE, e.level(), what));
    }
    return all;
  }

  private static String suffix(String level) {
    return level.isEmpty() ? "" : " of " + level;
  }

  /** Time of the first article. */
  public Instant from() {
    return articles.get(0).measuredAt();
  }

  /** Time of the last article. */
  public Instant to() {
    return articles.get(articles.size() - 1).measuredAt();
  }
}
