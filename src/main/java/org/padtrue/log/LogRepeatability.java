package org.padtrue.log;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.padtrue.drift.DriftAnalysis;
import org.padtrue.drift.DriftOptions;
import org.padtrue.drift.ExcessSpread;
import org.padtrue.drift.series.DriftSeries;
import org.padtrue.drift.series.SeriesPoint;
import org.padtrue.history.LoggedPoint;
import org.padtrue.history.LoggedSeries;
import org.padtrue.panel.term.FixedTerm;

/**
 * How well the machine registers panels, from the log: the spread of shift and rotation from
 * article to article beyond their standard errors, drift and trims taken off.
 *
 * <p>The shift is taken at the centre of what was measured, where an analysis tests it: at the
 * panel origin it would also hold what a turn moves there.
 */
final class LogRepeatability {
  private LogRepeatability() {}

  /**
   * The estimates.
   *
   * @param logged series of the log
   * @param articles of one job
   * @return shiftX, shiftY and rotation, as far as the log tells
   */
  static List<ExcessSpread> of(List<LoggedSeries> logged, Set<Long> articles) {
    Map<String, Map<String, LoggedPoint>> by = new HashMap<>();
    for (LoggedSeries s : logged) {
      Map<String, LoggedPoint> points = new LinkedHashMap<>();
      for (LoggedPoint p : s.points()) {
        if (articles.contains(p.articleId())) {
          points.put(key(p), p);
        }
      }
      by.put(s.name(), points);
    }
    List<DriftSeries> series = new ArrayList<>();
    series.add(centre(by, PlainFit.CENTRE_SHIFT_X, FixedTerm.SHIFT_X));
    series.add(centre(by, PlainFit.CENTRE_SHIFT_Y, FixedTerm.SHIFT_Y));
    logged.stream()
        .filter(s -> s.name().equals(FixedTerm.ROTATION.series()))
        .forEach(s -> series.add(DriftStudy.series(s, articles)));
    return new DriftAnalysis(DriftOptions.withDefaults()).run(series, List.of()).repeatability();
  }

  private static String key(LoggedPoint p) {
    return p.articleId() + "/" + p.panel();
  }

  private static DriftSeries centre(
      Map<String, Map<String, LoggedPoint>> by, String from, FixedTerm term) {
    List<SeriesPoint> points = new ArrayList<>();
    boolean alongX = term == FixedTerm.SHIFT_X;
    by.getOrDefault(from, Map.of())
        .forEach(
            (key, p) -> {
              double x = valueAt(by, PlainFit.CENTRE_X, key);
              double y = valueAt(by, PlainFit.CENTRE_Y, key);
              double turn = Math.toRadians(trim(by, FixedTerm.ROTATION, key));
              double trims =
                  trim(by, term, key)
                      + (alongX
                          ? 1e-6 * trim(by, FixedTerm.SCALE_X, article(p)) * x
                              - (turn + 1e-3 * trim(by, FixedTerm.SQUARENESS, article(p))) * y
                          : turn * x + 1e-6 * trim(by, FixedTerm.SCALE_Y, article(p)) * y);
              points.add(DriftStudy.point(p, p.value(), p.value() - trims, p.standardError()));
            });
    return new DriftSeries(term.series(), term.unit(), points);
  }

  private static String article(LoggedPoint p) {
    return p.articleId() + "/";
  }

  private static double valueAt(Map<String, Map<String, LoggedPoint>> by, String name, String key) {
    LoggedPoint p = by.getOrDefault(name, Map.of()).get(key);
    return p == null ? 0 : p.value();
  }

  private static double trim(Map<String, Map<String, LoggedPoint>> by, FixedTerm term, String key) {
    LoggedPoint p = by.getOrDefault(term.series(), Map.of()).get(key);
    return p == null ? 0 : p.trims();
  }
}
