package org.padtrue.history;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** How our values look in the store. */
final class Sql {
  /** Fixed width, so that times sort as text. */
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  private Sql() {}

  static String time(Instant t) {
    return TIME.format(t);
  }

  /** NaN is NULL. */
  static void number(PreparedStatement s, int i, double v) throws SQLException {
    if (Double.isNaN(v)) {
      s.setNull(i, Types.DOUBLE);
    } else {
      s.setDouble(i, v);
    }
  }

  static double number(ResultSet r, String column) throws SQLException {
    double v = r.getDouble(column);
    return r.wasNull() ? Double.NaN : v;
  }

  static void text(PreparedStatement s, int i, @Nullable String v) throws SQLException {
    if (v == null) {
      s.setNull(i, Types.VARCHAR);
    } else {
      s.setString(i, v);
    }
  }

  static @Nullable Long whole(ResultSet r, String column) throws SQLException {
    long v = r.getLong(column);
    return r.wasNull() ? null : v;
  }

  static String string(ResultSet r, String column) throws SQLException {
    String s = r.getString(column);
    return s == null ? "" : s;
  }

  static Conditions conditions(ResultSet r) throws SQLException {
    return new Conditions(
        string(r, "shift"),
        string(r, "operator"),
        number(r, "temperature_c"),
        number(r, "humidity_percent"),
        number(r, "minutes_running"),
        number(r, "placements_since_service"));
  }
}
