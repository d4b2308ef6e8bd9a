package org.padtrue.history;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;
import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Factor;

/** Puts one article and all that belongs to it into the tables, within a transaction. */
final class ArticleWriter {
  private final Connection c;

  ArticleWriter(Connection c) {
    this.c = c;
  }

  long insert(LoggedArticle a, String who, @Nullable Long corrects, String reason)
      throws SQLException {
    long id = article(a, who, corrects, reason);
    placements(id, a);
    parameters(id, a);
    trims(id, a);
    attachments(id, a);
    return id;
  }

  private long article(LoggedArticle a, String who, @Nullable Long corrects, String reason)
      throws SQLException {
    String sql =
        "INSERT INTO article (content_hash, recorded_at, recorded_by, measured_at, machine, job,"
            + " file, stage, reference, shift, operator, temperature_c, humidity_percent,"
            + " minutes_running, placements_since_service, notes, corrects, reason)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
    try (PreparedStatement s = c.prepareStatement(sql, Statement.RETURN_GENERATED_KEYS)) {
      Conditions k = a.conditions();
      s.setString(1, a.contentHash());
      s.setString(2, Sql.time(Instant.now()));
      s.setString(3, who);
      s.setString(4, Sql.time(a.measuredAt()));
      s.setString(5, a.machine());
      s.setString(6, a.job());
      s.setString(7, a.file());
      s.setString(8, a.stage());
      s.setString(9, a.reference());
      s.setString(10, k.shift());
      s.setString(11, k.operator());
      Sql.number(s, 12, k.temperatureC());
      Sql.number(s, 13, k.humidityPercent());
      Sql.number(s, 14, k.minutesRunning());
      Sql.number(s, 15, k.placementsSinceService());
      s.setString(16, a.notes());
      if (corrects == null) {
        s.setNull(17, Types.BIGINT);
      } else {
        s.setLong(17, corrects);
      }
      s.setString(18, reason);
      s.executeUpdate();
      return key(s);
    }
  }

  static long key(PreparedStatement s) throws SQLException {
    try (ResultSet keys = s.getGeneratedKeys()) {
      if (!keys.next()) {
        throw new SQLException("the store gave no key", "22000");
      }
      return keys.getLong(1);
    }
  }

  private void placements(long id, LoggedArticle a) throws SQLException {
    List<Factor> listed = Factor.listedOnes();
    String sql =
        "INSERT INTO placement (article_id, seq, panel, board_column, board_row, ref, part,"
            + " x_mm, y_mm, rotation_deg, dx_mm, dy_mm, drotation_deg, u_mm, used, excluded_as"
            + listed.stream().map(f -> ", " + f.key()).collect(Collectors.joining())
            + ") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?"
            + ", ?".repeat(listed.size())
            + ")";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      int seq = 0;
      for (LoggedPlacement p : a.placements()) {
        s.setLong(1, id);
        s.setInt(2, seq++);
        s.setString(3, p.panel());
        s.setInt(4, p.column());
        s.setInt(5, p.row());
        s.setString(6, p.ref());
        s.setString(7, p.part());
        s.setDouble(8, p.xMm());
        s.setDouble(9, p.yMm());
        s.setDouble(10, p.rotationDeg());
        Sql.number(s, 11, p.dxMm());
        Sql.number(s, 12, p.dyMm());
        Sql.number(s, 13, p.dRotationDeg());
        Sql.number(s, 14, p.uMm());
        s.setInt(15, p.used() ? 1 : 0);
        s.setString(16, p.excludedAs());
        for (int k = 0; k < listed.size(); k++) {
          Sql.text(s, 17 + k, p.levels().get(listed.get(k)));
        }
        s.addBatch();
      }
      s.executeBatch();
    }
  }

  private void parameters(long id, LoggedArticle a) throws SQLException {
    String sql =
        "INSERT INTO fit_parameter (article_id, seq, panel, name, unit, value, standard_error)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?)";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      int seq = 0;
      for (LoggedParameter p : a.parameters()) {
        s.setLong(1, id);
        s.setInt(2, seq++);
        s.setString(3, p.panel());
        s.setString(4, p.name());
        s.setString(5, p.unit());
        s.setDouble(6, p.value());
        Sql.number(s, 7, p.standardError());
        s.addBatch();
      }
      s.executeBatch();
    }
  }

  private void trims(long id, LoggedArticle a) throws SQLException {
    String sql =
        "INSERT INTO entered_trim (article_id, seq, name, unit, increment, scope, source_hash)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?)";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      int seq = 0;
      for (LoggedTrim t : a.trims()) {
        s.setLong(1, id);
        s.setInt(2, seq++);
        s.setString(3, t.name());
        s.setString(4, t.unit());
        s.setDouble(5, t.increment());
        s.setString(6, t.scope().name());
        s.setString(7, t.sourceHash());
        s.addBatch();
      }
      s.executeBatch();
    }
  }

  private void attachments(long id, LoggedArticle a) throws SQLException {
    String sql =
        "INSERT INTO attachment (article_id, seq, sha256, file, bytes) VALUES (?, ?, ?, ?, ?)";
    try (PreparedStatement s = c.prepareStatement(sql)) {
      int seq = 0;
      for (LoggedAttachment t : a.attachments()) {
        s.setLong(1, id);
        s.setInt(2, seq++);
        s.setString(3, t.sha256());
        s.setString(4, t.file());
        s.setLong(5, t.bytes());
        s.addBatch();
      }
      s.executeBatch();
    }
  }
}
