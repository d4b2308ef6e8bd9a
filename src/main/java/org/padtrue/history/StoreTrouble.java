package org.padtrue.history;

import java.sql.SQLException;
import java.util.Locale;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** Trouble of the store in one sentence that a person can act on. */
final class StoreTrouble {
  private StoreTrouble() {}

  /** What went wrong, as far as it matters here. */
  enum Kind {
    /** Another writer was in the way; trying again may help. */
    BUSY,
    /** A unique index refused a row. */
    TWICE,
    /** A fault of the program. */
    FAULT,
    /** Something that a person must mend. */
    OTHER
  }

  static Kind kind(SQLException e) {
    String state = e.getSQLState() == null ? "" : e.getSQLState();
    if (e instanceof SQLiteException s) {
      return switch (s.getResultCode()) {
        case SQLITE_BUSY,
            SQLITE_BUSY_RECOVERY,
            SQLITE_BUSY_SNAPSHOT,
            SQLITE_BUSY_TIMEOUT,
            SQLITE_LOCKED ->
            Kind.BUSY;
        case SQLITE_CONSTRAINT_UNIQUE, SQLITE_CONSTRAINT_PRIMARYKEY -> Kind.TWICE;
        case SQLITE_ERROR, SQLITE_MISUSE, SQLITE_CONSTRAINT_NOTNULL, SQLITE_RANGE -> Kind.FAULT;
        default -> Kind.OTHER;
      };
    }
    if (state.equals("40001") || state.equals("40P01") || state.equals("55P03")) {
      return Kind.BUSY;
    }
    if (state.equals("23505")) {
      return Kind.TWICE;
    }
    return state.startsWith("42") && !state.equals("42501") || state.startsWith("22")
        ? Kind.FAULT
        : Kind.OTHER;
  }

  /** The exception to throw: a sentence, or the fault itself. */
  static RuntimeException of(SQLException e, HistoryUrl url) {
    if (kind(e) == Kind.FAULT) {
      return new IllegalStateException(url.shown() + ": " + e.getMessage(), e);
    }
    return new InputException(e instanceof SQLiteException s ? sqlite(s, url) : postgres(e, url));
  }

  private static Problem sqlite(SQLiteException e, HistoryUrl url) {
    SQLiteErrorCode code = e.getResultCode();
    String name = code.name();
    if (name.startsWith("SQLITE_BUSY") || name.startsWith("SQLITE_LOCKED")) {
      return Problem.of(
          url.shown(),
          "another program kept the log busy for too long and nothing was recorded",
          "run the command again");
    }
    if (name.startsWith("SQLITE_FULL")) {
      return Problem.of(
          url.shown(),
          "the disk is full and nothing was recorded",
          "free some space and run the command again");
    }
    if (name.startsWith("SQLITE_READONLY") || name.startsWith("SQLITE_PERM")) {
      return Problem.of(
          url.shown(),
          "the log may only be read and nothing was recorded",
          "make the file and its folder writable");
    }
    if (name.startsWith("SQLITE_CANTOPEN")) {
      return Problem.of(
          url.shown(), "the log cannot be opened", "check that its folder exists and is writable");
    }
    if (name.startsWith("SQLITE_NOTADB")) {
      return Problem.of(
          url.shown(), "the file is not a log of this program", "give another file name");
    }
    if (name.startsWith("SQLITE_CORRUPT")) {
      return Problem.of(
          url.shown(), "the log is damaged", "restore it from the last backup of the file");
    }
    if (name.startsWith("SQLITE_IOERR")) {
      return Problem.of(
          url.shown(),
          "the disk gave an error (" + name.toLowerCase(Locale.ROOT) + ") and nothing was recorded",
          "check the disk and run the command again");
    }
    return Problem.of(url.shown(), "the store says: " + firstLine(e), "");
  }

  private static Problem postgres(SQLException e, HistoryUrl url) {
    String state = e.getSQLState() == null ? "" : e.getSQLState();
    if (state.startsWith("08") || state.equals("57P03") || state.equals("53300")) {
      return Problem.of(
          url.shown(), "the database server does not answer", "check that it runs and the address");
    }
    if (state.startsWith("28")) {
      return Problem.of(
          url.shown(), "the database server refuses the login", "check user and password");
    }
    if (state.equals("3D000")) {
      return Problem.of(url.shown(), "there is no such database", "create it on the server first");
    }
    if (state.equals("53100")) {
      return Problem.of(
          url.shown(),
          "the server's disk is full and nothing was recorded",
          "free some space and run the command again");
    }
    if (state.equals("25006") || state.equals("42501")) {
      return Problem.of(
          url.shown(),
          "the log may only be read with this login and nothing was recorded",
          "use a login that may write");
    }
    if (kind(e) == Kind.BUSY) {
      return Problem.of(
          url.shown(),
          "another program kept the log busy for too long and nothing was recorded",
          "run the command again");
    }
    return Problem.of(url.shown(), "the database server says: " + firstLine(e), "");
  }

  private static String firstLine(SQLException e) {
    String m = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    return m.lines().findFirst().orElse("").strip();
  }
}
