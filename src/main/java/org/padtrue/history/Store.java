package org.padtrue.history;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Locale;
import java.util.Properties;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * One open connection. SQLite: write-ahead log, full sync at every commit, writers wait for each
 * other.
 */
final class Store implements AutoCloseable {
  private static final int BUSY_MILLIS = 20_000;
  private static final int TRIES = 5;

  static {
    // The drivers' logging facade would complain on the console that nobody listens to it.
    if (System.getProperty("slf4j.internal.verbosity") == null) {
      System.setProperty("slf4j.internal.verbosity", "ERROR");
    }
  }

  final HistoryUrl url;
  final Connection connection;

  private Store(HistoryUrl url, Connection connection) {
    this.url = url;
    this.connection = connection;
  }

  /** What is done on the connection. */
  interface Work<T> {
    T run(Connection c) throws SQLException;
  }

  /** Opens to write, making or migrating the tables as needed. */
  static Store open(HistoryUrl url) {
    try {
      checkFolder(url);
      if (url.embedded()) {
        writeAhead(url);
      }
      if (versionOf(url) < Schema.VERSION) {
        migrateAlone(url);
      }
      return new Store(url, connect(url, false));
    } catch (SQLException e) {
      throw StoreTrouble.of(e, url);
    }
  }

  /** Opens to read; the store must exist. */
  static Store openToRead(HistoryUrl url) {
    Path file = url.file();
    if (file == null) {
      return open(url);
    }
    if (!Files.exists(file)) {
      throw new InputException(
          Problem.of(url.shown(), "there is no log here yet", "record an article first"));
    }
    if (Files.isWritable(file) && Files.isWritable(parent(file))) {
      return open(url);
    }
    try {
      Connection c = connect(url, true);
      try {
        int version = Schema.version(c, url);
        Schema.refuseNewer(version, url);
        if (version < Schema.VERSION) {
          throw new InputException(
              Problem.of(
                  url.shown(),
                  "the log was written by an older version and cannot be brought up to date, as it"
                      + " may only be read",
                  "make the file and its folder writable once"));
        }
        return new Store(url, c);
      } catch (SQLException | RuntimeException e) {
        c.close();
        throw e;
      }
    } catch (SQLException e) {
      throw StoreTrouble.of(e, url);
    }
  }

  private static Path parent(Path file) {
    Path p = file.getParent();
    return p == null ? Path.of(".") : p;
  }

  private static void checkFolder(HistoryUrl url) {
    Path file = url.file();
    if (file == null) {
      return;
    }
    if (Files.isDirectory(file)) {
      throw new InputException(
          Problem.of(url.shown(), "it is a folder, not a log", "give the name of a file"));
    }
    if (!Files.isDirectory(parent(file))) {
      throw new InputException(
          Problem.of(
              url.shown(), "the folder " + parent(file) + " does not exist", "make it first"));
    }
  }

  private static int versionOf(HistoryUrl url) throws SQLException {
    try (Connection c = connect(url, false)) {
      int version = Schema.version(c, url);
      Schema.refuseNewer(version, url);
      return version;
    }
  }

  // Two programs that start on a new or old store at once must not both build its tables.
  private static synchronized void migrateAlone(HistoryUrl url) throws SQLException {
    Path file = url.file();
    if (file == null) {
      migrateIfOld(url);
      return;
    }
    Path lock = Path.of(file + ".migrating");
    try (FileChannel ch =
            FileChannel.open(lock, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        FileLock held = ch.lock()) {
      if (held.isValid()) {
        migrateIfOld(url);
      }
      // one who waited on the file now taken away finds the tables up to date, and does nothing
      Files.deleteIfExists(lock);
    } catch (IOException e) {
      throw new InputException(
          Problem.of(
              url.shown(),
              "the log's folder may only be read or is full",
              "make the folder writable"));
    }
  }

  private static void migrateIfOld(HistoryUrl url) throws SQLException {
    if (versionOf(url) < Schema.VERSION) {
      Schema.migrate(url);
    }
  }

  // The mode stays in the file; it must be set while nothing else is open on this connection.
  private static void writeAhead(HistoryUrl url) throws SQLException {
    try (Connection c = connect(url, false);
        Statement s = c.createStatement()) {
      String mode;
      try (ResultSet r = s.executeQuery("PRAGMA journal_mode")) {
        mode = r.next() ? r.getString(1) : "";
      }
      if (!mode.equalsIgnoreCase("wal")) {
        try (ResultSet r = s.executeQuery("PRAGMA journal_mode=WAL")) {
          mode = r.next() ? r.getString(1) : "";
        }
      }
      if (!mode.toLowerCase(Locale.ROOT).equals("wal")) {
        throw new InputException(
            Problem.of(
                url.shown(),
                "this disk does not support a write-ahead log",
                "keep the log on a local disk"));
      }
    }
  }

  private static Connection connect(HistoryUrl url, boolean readOnly) throws SQLException {
    Properties p = new Properties();
    if (!url.embedded()) {
      return ServerPool.connection(url);
    }
    p.setProperty("busy_timeout", Integer.toString(BUSY_MILLIS));
    p.setProperty("synchronous", "FULL");
    p.setProperty("foreign_keys", "true");
    // A writer takes its lock at once: two readers that both turn writers would block each other.
    p.setProperty("transaction_mode", "IMMEDIATE");
    if (!readOnly) {
      return DriverManager.getConnection(url.jdbc(), p);
    }
    Path file = url.file();
    String uri = file == null ? "" : file.toUri().getRawPath();
    p.setProperty("open_mode", "65"); // SQLITE_OPEN_READONLY | SQLITE_OPEN_URI
    return DriverManager.getConnection("jdbc:sqlite:file:" + uri + "?immutable=1", p);
  }

  /** Runs a transaction; tries again when another writer was in the way. */
  <T> T write(Work<T> work) {
    for (int attempt = 1; ; attempt++) {
      try {
        return once(work);
      } catch (SQLException e) {
        if (StoreTrouble.kind(e) != StoreTrouble.Kind.BUSY || attempt == TRIES) {
          throw StoreTrouble.of(e, url);
        }
      }
    }
  }

  private <T> T once(Work<T> work) throws SQLException {
    connection.setAutoCommit(false);
    T result;
    try {
      result = work.run(connection);
      connection.commit();
    } catch (SQLException | RuntimeException e) {
      rollback();
      throw e;
    }
    connection.setAutoCommit(true);
    return result;
  }

  // A full disk may have rolled back already and say so; what led here is what counts.
  private void rollback() {
    try {
      connection.rollback();
    } catch (SQLException e) {
      ignored(e);
    }
    try {
      connection.setAutoCommit(true);
    } catch (SQLException e) {
      ignored(e);
    }
  }

  private static void ignored(SQLException e) {
    Logger.getLogger(Store.class.getName()).log(Level.FINE, "rollback", e);
  }

  /** Reads. */
  <T> T read(Work<T> work) {
    try {
      return work.run(connection);
    } catch (SQLException e) {
      throw StoreTrouble.of(e, url);
    }
  }

  @Override
  public void close() {
    try {
      connection.close();
    } catch (SQLException e) {
      throw StoreTrouble.of(e, url);
    }
  }
}
