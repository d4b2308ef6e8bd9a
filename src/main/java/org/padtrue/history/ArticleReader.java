package org.padtrue.history;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Levels;

/** Reads articles back. */
final class ArticleReader {
  private static final String ENTRY =
      "SELECT a.*, c.id AS corrected_by FROM article a LEFT JOIN article c ON c.corrects = a.id ";

  private final Connection c;

  ArticleReader(Connection c) {
    this.c = c;
  }

  List<ArticleEntry> entries(@Nullable String machine, @Nullable String job) throws SQLException {
    String sql = ENTRY + "WHERE (? = '' OR a.machine = ?) AND (? = '' OR a.job = ?) ";
    try (PreparedStatement s = c.prepareStatement(sql + "ORDER BY a.measured_at, a.id")) {
      filter(s, machine, job);
      return entries(s);
    }
  }

  static void filter(PreparedStatement s, @Nullable String machine, @Nullable String job)
      throws SQLException {
    String m = machine == null ? "" : machine;
    String j = job == null ? "" : job;
    s.setString(1, m);
    s.setString(2, m);
    s.setString(3, j);
    s.setString(4, j);
  }

  @Nullable ArticleEntry byId(long id) throws SQLException {
    try (PreparedStatement s = c.prepareStatement(ENTRY + "WHERE a.id = ?")) {
      s.setLong(1, id);
      List<ArticleEntry> found = entries(s);
      return found.isEmpty() ? null : found.get(0);
    }
  }

  /** The latest row with a content, if any. */
  @Nullable ArticleEntry byHash(String hash) throws SQLException {
    String sql = ENTRY + "WHERE a.content_hash = ? ORDER BY a.id DESC";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      s.setString(1, hash);
      List<ArticleEntry> found = entries(s);
      return found.isEmpty() ? null : found.get(0);
    }
  }

  /** The standing article of a machine whose trims came from a sheet, if any. */
  @Nullable ArticleEntry byTrimSource(String machine, String source) throws SQLException {
    String sql =
        ENTRY
            + "WHERE a.machine = ? AND c.id IS NULL AND a.id IN (SELECT article_id FROM"
            + " entered_trim WHERE source_hash = ?) ORDER BY a.id";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      s.setString(1, machine);
      s.setString(2, source);
      List<ArticleEntry> found = entries(s);
      return found.isEmpty() ? null : found.get(0);
    }
  }

  private static List<ArticleEntry> entries(PreparedStatement s) throws SQLException {
    List<ArticleEntry> all = new ArrayList<>();
    try (ResultSet r = s.executeQuery()) {
      while (r.next()) {
        all.add(
            new ArticleEntry(
                r.getLong("id"),
                Sql.string(r, "content_hash"),
                Instant.parse(r.getString("recorded_at")),
                Sql.string(r, "recorded_by"),
                Instant.parse(r.getString("measured_at")),
                Sql.string(r, "machine"),
                Sql.string(r, "job"),
                Sql.string(r, "file"),
                Sql.string(r, "stage"),
                Sql.string(r, "reference"),
                Sql.conditions(r),
                Sql.string(r, "notes"),
                Sql.whole(r, "corrects"),
                Sql.whole(r, "corrected_by"),
                Sql.string(r, "reason")));
      }
    }
    return all;
  }

  /** The whole article again. */
  LoggedArticle article(ArticleEntry e) throws SQLException {
    return new LoggedArticle(
        e.job(),
        e.file(),
        e.machine(),
        e.measuredAt(),
        e.conditions(),
        e.stage(),
        e.reference(),
        e.notes(),
        rows("placement", e.id(), ArticleReader::placement),
        rows("fit_parameter", e.id(), ArticleReader::parameter),
        rows("entered_trim", e.id(), ArticleReader::trim).stream()
            .flatMap(t -> t.apart().stream())
            .toList(),
        rows("attachment", e.id(), ArticleReader::attachment));
  }

  private interface Row<T> {
    T of(ResultSet r) throws SQLException;
  }

  private <T> List<T> rows(String table, long id, Row<T> row) throws SQLException {
    List<T> all = new ArrayList<>();
    String sql = "SELECT * FROM " + table + " WHERE article_id = ? ORDER BY seq";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      s.setLong(1, id);
      try (ResultSet r = s.executeQuery()) {
        while (r.next()) {
          all.add(row.of(r));
        }
      }
    }
    return all;
  }

  private static LoggedPlacement placement(ResultSet r) throws SQLException {
    return new LoggedPlacement(
        Sql.string(r, "panel"),
        r.getInt("board_column"),
        r.getInt("board_row"),
        Sql.string(r, "ref"),
        Sql.string(r, "part"),
        Levels.read(f -> r.getString(f.key())),
        r.getDouble("x_mm"),
        r.getDouble("y_mm"),
        r.getDouble("rotation_deg"),
        Sql.number(r, "dx_mm"),
        Sql.number(r, "dy_mm"),
        Sql.number(r, "drotation_deg"),
        Sql.number(r, "u_mm"),
        r.getInt("used") == 1,
        Sql.string(r, "excluded_as"));
  }

  private static LoggedParameter parameter(ResultSet r) throws SQLException {
    return new LoggedParameter(
        Sql.string(r, "panel"),
        Sql.string(r, "name"),
        Sql.string(r, "unit"),
        r.getDouble("value"),
        Sql.number(r, "standard_error"));
  }

  static LoggedTrim trim(ResultSet r) throws SQLException {
    return new LoggedTrim(
        Sql.string(r, "name"),
        Sql.string(r, "unit"),
        r.getDouble("increment"),
        LoggedTrim.Scope.valueOf(r.getString("scope")),
        Sql.string(r, "source_hash"));
  }

  private static LoggedAttachment attachment(ResultSet r) throws SQLException {
    return new LoggedAttachment(Sql.string(r, "sha256"), Sql.string(r, "file"), r.getLong("bytes"));
  }
}
