package org.padtrue.history;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Map;
import java.util.Properties;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Connections to a PostgreSQL server, kept open between pages: logging in takes longer than most
 * questions to the log. Closed after half a minute without use.
 */
final class ServerPool {
  /** More at once wait for each other; a server grants some hundred in all (its default). */
  private static final int MOST = 8;

  private static final int WAIT_MILLIS = 10_000;
  private static final int IDLE_MILLIS = 30_000;
  private static final Map<HistoryUrl, HikariDataSource> POOLS = new ConcurrentHashMap<>();

  private ServerPool() {}

  /** A connection whose closing gives it back. */
  static Connection connection(HistoryUrl url) throws SQLException {
    HikariDataSource pool = POOLS.get(url);
    if (pool == null) {
      // a wrong address or login is said at once; the pool would try until its time is up
      try (Connection c = DriverManager.getConnection(url.jdbc(), driver())) {
        c.isReadOnly();
      }
      pool = POOLS.computeIfAbsent(url, ServerPool::open);
    }
    return pool.getConnection();
  }

  private static Properties driver() {
    Properties p = new Properties();
    p.setProperty("ApplicationName", "padtrue");
    p.setProperty("loginTimeout", "10");
    return p;
  }

  private static HikariDataSource open(HistoryUrl url) {
    HikariConfig c = new HikariConfig();
    c.setJdbcUrl(url.jdbc());
    c.setDataSourceProperties(driver());
    c.setSchema(url.schema());
    c.setMaximumPoolSize(MOST);
    c.setMinimumIdle(0);
    c.setIdleTimeout(IDLE_MILLIS);
    c.setConnectionTimeout(WAIT_MILLIS);
    c.setInitializationFailTimeout(-1);
    c.setPoolName("log");
    return new HikariDataSource(c);
  }
}
