package org.padtrue.history;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.flywaydb.core.api.MigrationVersion;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Version of the tables: read with plain SQL, brought up to date by Flyway only when it is old. */
final class Schema {
  /** Version that this program writes: the highest number among the migrations. */
  static final int VERSION = 5;

  static final String TABLE = "padtrue_schema";

  // Held here, or the level would be forgotten with the logger.
  private static final Logger FLYWAY = Logger.getLogger("org.flywaydb");

  static {
    FLYWAY.setLevel(Level.OFF);
  }

  private Schema() {}

  /** Version of an open store: 0 when it is new and empty. */
  static int version(Connection c, HistoryUrl url) throws SQLException {
    if (!exists(c, url, TABLE)) {
      if (exists(c, url, "%")) {
        throw new InputException(
            Problem.of(
                url.shown(),
                "it is a database, but not a log of this program",
                "give another file or schema"));
      }
      return 0;
    }
    int highest = 0;
    try (Statement s = c.createStatement();
        ResultSet r = s.executeQuery("SELECT version, success FROM " + TABLE)) {
      while (r.next()) {
        String v = r.getString(1);
        if (v != null && v.matches("\\d+") && r.getBoolean(2)) {
          highest = Math.max(highest, Integer.parseInt(v));
        }
      }
    }
    return highest;
  }

  private static boolean exists(Connection c, HistoryUrl url, String like) throws SQLException {
    try (ResultSet r =
        c.getMetaData()
            .getTables(
                null,
                url.embedded() ? null : url.schema(),
                like.replace("_", url.embedded() ? "_" : "\\_"),
                new String[] {"TABLE"})) {
      while (r.next()) {
        if (!r.getString("TABLE_NAME").startsWith("sqlite_")) {
          return true;
        }
      }
      return false;
    }
  }

  /** Refuses a store that a newer program has written. */
  static void refuseNewer(int version, HistoryUrl url) {
    if (version > VERSION) {
      throw new InputException(
          Problem.of(
              url.shown(),
              "the log was written by a newer version of this program (its tables are version "
                  + version
                  + ", this program knows "
                  + VERSION
                  + ")",
              "update the program"));
    }
  }

  /** Brings the tables up to date. */
  static void migrate(HistoryUrl url) {
    migrate(url, VERSION);
  }

  /** Brings the tables to a version; tests make old stores with it. */
  static void migrate(HistoryUrl url, int target) {
    String vendor = url.embedded() ? "sqlite" : "postgresql";
    String identity =
        url.embedded()
            ? "INTEGER PRIMARY KEY AUTOINCREMENT"
            : "BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY";
    String at = "classpath:org/padtrue/history/";
    try {
      Flyway.configure(Schema.class.getClassLoader())
          .dataSource(url.jdbc(), null, null)
          .locations(at + "common", at + vendor)
          .placeholders(Map.of("identity", identity))
          .defaultSchema(url.embedded() ? null : url.schema())
          .table(TABLE)
          .target(MigrationVersion.fromVersion(Integer.toString(target)))
          .load()
          .migrate();
    } catch (FlywayException e) {
      for (Throwable t = e; t != null; t = t.getCause()) {
        if (t instanceof SQLException s) {
          throw StoreTrouble.of(s, url);
        }
      }
      throw e;
    }
  }
}
