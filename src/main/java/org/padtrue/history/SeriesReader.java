package org.padtrue.history;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Series of a machine's standing articles with the trims in force taken off. A trim is in force
 * from the article it was logged with on: for that article's job alone, or for every job of the
 * machine.
 */
final class SeriesReader {
  private static final String STANDS =
      "NOT EXISTS (SELECT 1 FROM article x WHERE x.corrects = a.id)";

  private final Connection c;

  SeriesReader(Connection c) {
    this.c = c;
  }

  private record Entered(Instant at, long articleId, String job, LoggedTrim trim) {}

  List<LoggedSeries> series(String machine, @Nullable String job) throws SQLException {
    List<Entered> trims = trims(machine);
    Map<String, List<LoggedPoint>> points = new LinkedHashMap<>();
    Map<String, String> units = new HashMap<>();
    String sql =
        "SELECT a.id, a.measured_at, a.job, a.shift, a.operator, a.temperature_c,"
            + " a.humidity_percent, a.minutes_running, a.placements_since_service, p.panel, p.name,"
            + " p.unit, p.value, p.standard_error FROM article a JOIN fit_parameter p ON"
            + " p.article_id = a.id WHERE (? = '' OR a.machine = ?) AND (? = '' OR a.job = ?) AND "
            + STANDS
            + " ORDER BY a.measured_at, a.id, p.seq";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      ArticleReader.filter(s, machine, job);
      try (ResultSet r = s.executeQuery()) {
        InForce inForce = new InForce(trims);
        long last = Long.MIN_VALUE;
        Instant at = Instant.EPOCH;
        Conditions k = Conditions.UNKNOWN;
        while (r.next()) {
          long id = r.getLong(1);
          if (id != last) {
            last = id;
            at = Instant.parse(r.getString(2));
            k = Sql.conditions(r);
            inForce.advance(at, id);
          }
          String name = r.getString(11);
          double value = r.getDouble(13);
          double se = Sql.number(r, "standard_error");
          units.putIfAbsent(name, r.getString(12));
          points
              .computeIfAbsent(name, n -> new ArrayList<>())
              .add(
                  new LoggedPoint(
                      at,
                      id,
                      r.getString(10),
                      value,
                      se,
                      value - inForce.sum(name, r.getString(3)),
                      k));
        }
      }
    }
    List<LoggedSeries> all = new ArrayList<>();
    points.forEach((name, p) -> all.add(new LoggedSeries(name, units.getOrDefault(name, ""), p)));
    return all;
  }

  private List<Entered> trims(String machine) throws SQLException {
    List<Entered> all = new ArrayList<>();
    String sql =
        "SELECT a.id, a.measured_at, a.job, t.name, t.unit, t.increment, t.scope, t.source_hash"
            + " FROM article a JOIN entered_trim t ON t.article_id = a.id WHERE a.machine = ? AND "
            + STANDS
            + " ORDER BY a.measured_at, a.id, t.seq";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      s.setString(1, machine);
      try (ResultSet r = s.executeQuery()) {
        while (r.next()) {
          all.add(
              new Entered(
                  Instant.parse(r.getString(2)),
                  r.getLong(1),
                  r.getString(3),
                  ArticleReader.trim(r)));
        }
      }
    }
    return all;
  }

  /** Sums of the trims entered so far. */
  private static final class InForce {
    private final List<Entered> all;
    private int next;
    private final List<Entered> entered = new ArrayList<>();
    private final Map<String, Double> sums = new HashMap<>();

    InForce(List<Entered> all) {
      this.all = all;
    }

    void advance(Instant at, long id) {
      while (next < all.size() && !after(all.get(next), at, id)) {
        entered.add(all.get(next++));
        sums.clear();
      }
    }

    private static boolean after(Entered e, Instant at, long id) {
      int order = e.at.compareTo(at);
      return order > 0 || (order == 0 && e.articleId > id);
    }

    double sum(String series, String job) {
      return sums.computeIfAbsent(series + "\u0000" + job, k -> add(series, job));
    }

    private double add(String series, String job) {
      double sum = 0;
      for (Entered e : entered) {
        boolean reaches = e.trim.scope() == LoggedTrim.Scope.MACHINE || e.job.equals(job);
        if (reaches && e.trim.moves(series)) {
          sum += e.trim.increment();
        }
      }
      return sum;
    }
  }
}
