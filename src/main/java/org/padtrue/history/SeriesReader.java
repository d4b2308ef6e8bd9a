package org.padtrue.history;

import java.math.BigDecimal;
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
    List<Head> heads = heads(machine, job);
    Map<Long, List<Estimate>> estimates = new HashMap<>();
    heads.forEach(h -> estimates.put(h.id, new ArrayList<>()));
    Map<String, String> units = new HashMap<>();
    estimates(machine, job, estimates, units);
    InForce inForce = new InForce(trims(machine));
    Map<String, List<LoggedPoint>> points = new LinkedHashMap<>();
    for (Head h : heads) {
      inForce.advance(h.at, h.id);
      for (Estimate e : estimates.getOrDefault(h.id, List.of())) {
        double trims = inForce.sum(e.name, h.job);
        points
            .computeIfAbsent(e.name, n -> new ArrayList<>())
            .add(
                new LoggedPoint(
                    h.at,
                    h.id,
                    e.panel,
                    e.value,
                    e.standardError,
                    e.value - trims,
                    trims,
                    h.conditions));
      }
    }
    List<LoggedSeries> all = new ArrayList<>();
    points.forEach((name, p) -> all.add(new LoggedSeries(name, units.getOrDefault(name, ""), p)));
    return all;
  }

  private record Head(long id, Instant at, String job, Conditions conditions) {}

  private record Estimate(String panel, String name, double value, double standardError) {}

  private List<Head> heads(String machine, @Nullable String job) throws SQLException {
    String sql =
        "SELECT a.* FROM article a WHERE (? = '' OR a.machine = ?) AND (? = '' OR a.job = ?) AND "
            + STANDS
            + " ORDER BY a.measured_at, a.id";
    List<Head> all = new ArrayList<>();
    try (PreparedStatement s = c.prepareStatement(sql)) {
      ArticleReader.filter(s, machine, job);
      try (ResultSet r = s.executeQuery()) {
        while (r.next()) {
          all.add(
              new Head(
                  r.getLong("id"),
                  Instant.parse(r.getString("measured_at")),
                  Sql.string(r, "job"),
                  Sql.conditions(r)));
        }
      }
    }
    return all;
  }

  // In the order of the primary key, so that the store need not sort; columns by number, as there
  // are
  // many rows.
  private void estimates(
      String machine,
      @Nullable String job,
      Map<Long, List<Estimate>> byArticle,
      Map<String, String> units)
      throws SQLException {
    String sql =
        "SELECT p.article_id, p.panel, p.name, p.value, p.standard_error, p.unit FROM fit_parameter"
            + " p JOIN article a ON a.id = p.article_id WHERE (? = '' OR a.machine = ?) AND (? = ''"
            + " OR a.job = ?) ORDER BY p.article_id, p.seq";
    Map<String, String> once = new HashMap<>();
    try (PreparedStatement s = c.prepareStatement(sql)) {
      ArticleReader.filter(s, machine, job);
      try (ResultSet r = s.executeQuery()) {
        while (r.next()) {
          List<Estimate> article = byArticle.get(r.getLong(1));
          if (article == null) {
            continue; // corrected by a later row
          }
          String name = r.getString(3);
          double value = r.getDouble(4);
          double se = r.getDouble(5);
          double error = r.wasNull() ? Double.NaN : se;
          if (!units.containsKey(name)) {
            units.put(name, r.getString(6));
          }
          String panel = r.getString(2);
          article.add(
              new Estimate(
                  once.computeIfAbsent(panel, k -> k),
                  once.computeIfAbsent(name, k -> k),
                  value,
                  error));
        }
      }
    }
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
          Instant at = Instant.parse(r.getString(2));
          for (LoggedTrim t : ArticleReader.trim(r).apart()) {
            all.add(new Entered(at, r.getLong(1), r.getString(3), t));
          }
        }
      }
    }
    return all;
  }

  /**
   * Sums of the trims entered so far, kept as decimals: what was typed in adds up as on paper (0.1
   * + 0.2 = 0.3), over however many rows.
   */
  private static final class InForce {
    private final List<Entered> all;
    private int next;

    // by name of the trim; of every job, and of one
    private final Map<String, Sum> ofMachine = new LinkedHashMap<>();
    private final Map<String, Map<String, Sum>> ofJob = new HashMap<>();
    private final Map<String, Map<String, Double>> known = new HashMap<>();

    InForce(List<Entered> all) {
      this.all = all;
    }

    /** A name's trims: the last one stands for how they reach series. */
    private record Sum(LoggedTrim trim, BigDecimal sum) {
      static Sum of(LoggedTrim t) {
        return new Sum(t, BigDecimal.valueOf(t.increment()));
      }

      Sum plus(Sum o) {
        return new Sum(o.trim, sum.add(o.sum));
      }
    }

    void advance(Instant at, long id) {
      while (next < all.size() && !after(all.get(next), at, id)) {
        Entered e = all.get(next++);
        boolean machine = e.trim.scope() == LoggedTrim.Scope.MACHINE;
        (machine ? ofMachine : ofJob.computeIfAbsent(e.job, k -> new LinkedHashMap<>()))
            .merge(e.trim.name(), Sum.of(e.trim), Sum::plus);
        known.clear();
      }
    }

    private static boolean after(Entered e, Instant at, long id) {
      int order = e.at.compareTo(at);
      return order > 0 || (order == 0 && e.articleId > id);
    }

    double sum(String series, String job) {
      return known
          .computeIfAbsent(job, k -> new HashMap<>())
          .computeIfAbsent(series, k -> add(series, job));
    }

    private double add(String series, String job) {
      BigDecimal sum = BigDecimal.ZERO;
      for (Map<String, Sum> m : List.of(ofMachine, ofJob.getOrDefault(job, Map.of()))) {
        for (Sum s : m.values()) {
          int share = s.trim.share(series);
          if (share != 0) {
            sum = sum.add(share > 0 ? s.sum : s.sum.negate());
          }
        }
      }
      return sum.doubleValue();
    }
  }
}
