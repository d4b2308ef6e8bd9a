package org.padtrue.web.bench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Job;
import org.padtrue.web.server.ShownNumbers;

/**
 * The page on which measurements are typed.
 *
 * @param id article
 * @param name its name
 * @param job id of its job
 * @param jobName its name
 * @param rows what to measure, in walking order, and what else was measured
 * @param map where everything is
 * @param fit as far as it has come
 * @param sequence last entry that this page knows
 * @param stepMm smallest step of an entry at the machine, mm
 * @param stepDeg the same for rotation
 * @param second true when it was placed with the trims of another article entered
 */
public record MeasureView(
    String id,
    String name,
    String job,
    String jobName,
    List<Row> rows,
    MapView map,
    FitView fit,
    long sequence,
    String stepMm,
    String stepDeg,
    boolean second) {
  public MeasureView {
    rows = List.copyOf(rows);
  }

  /**
   * One placement to measure.
   *
   * @param number place in the walk
   * @param key panel/column/row/ref
   * @param panel its panel where there are several; empty for one
   * @param ref its name, with panel and board where there are several
   * @param part part type
   * @param x nominal in the panel frame, mm
   * @param y nominal, mm
   * @param rotation nominal, degrees
   * @param dx measured minus nominal, mm; empty when not measured
   * @param dy the same
   * @param turn the same, degrees
   * @param fault what is wrong with it, as typed; empty for nothing
   * @param stands number of the entry that says so, or that nothing was measured; 0 when none
   */
  public record Row(
      int number,
      String key,
      String panel,
      String ref,
      String part,
      String x,
      String y,
      String rotation,
      String dx,
      String dy,
      String turn,
      String fault,
      long stands) {}

  static MeasureView of(BenchArticle a, LoadedJob loaded, FitView fit) {
    Job job = loaded.job();
    long sequence = a.journal().last();
    return new MeasureView(
        a.id(),
        a.about().name(),
        a.about().job(),
        job.name(),
        rows(a, job),
        MapView.of(job),
        fit,
        sequence,
        ShownNumbers.plain(job.machine().resolutionMm()),
        ShownNumbers.plain(job.machine().rotationResolutionDeg()),
        !a.about().after().isEmpty());
  }

  /** Placements on the list, in walking order, and what else was measured. */
  static List<Row> rows(BenchArticle a, Job job) {
    Places places = Places.of(job);
    Map<String, Entry> measured = a.measured();
    Set<String> keys = new LinkedHashSet<>(a.planned());
    keys.addAll(measured.keySet());
    Map<String, Entry> faults = a.faults();
    keys.addAll(faults.keySet());
    Map<String, Long> stands = a.journal().standing();
    boolean array = job.array().boards().size() > 1;
    boolean panels = keys.stream().map(Places::panel).distinct().count() > 1;
    List<Row> rows = new ArrayList<>();
    for (String key : byPanel(keys)) {
      places
          .find(key)
          .ifPresent(
              p ->
                  rows.add(
                      row(
                          rows.size() + 1,
                          p,
                          panels,
                          array,
                          measured.get(key),
                          faults.get(key),
                          stands.getOrDefault(key, 0L))));
    }
    return rows;
  }

  /** One panel after the other, in the order in which they are met. */
  private static List<String> byPanel(Set<String> keys) {
    Map<String, List<String>> panels = new LinkedHashMap<>();
    keys.forEach(k -> panels.computeIfAbsent(Places.panel(k), p -> new ArrayList<>()).add(k));
    return panels.values().stream().flatMap(List::stream).toList();
  }

  private static Row row(
      int number,
      Places.Place p,
      boolean panels,
      boolean array,
      @Nullable Entry e,
      @Nullable Entry fault,
      long stands) {
    return new Row(
        number,
        p.key(),
        panels ? Places.panel(p.key()) : "",
        (panels ? Places.panel(p.key()) + " " : "")
            + (array ? p.board() + "/" : "")
            + p.placement().ref(),
        p.placement().part(),
        ShownNumbers.plain(p.nominal().xMm()),
        ShownNumbers.plain(p.nominal().yMm()),
        ShownNumbers.plain(p.nominal().rotationDeg()),
        e == null ? "" : ShownNumbers.plain(e.dxMm()),
        e == null ? "" : ShownNumbers.plain(e.dyMm()),
        e == null ? "" : ShownNumbers.plain(e.dRotationDeg()),
        fault == null ? "" : Typed.fault(fault),
        stands);
  }
}
