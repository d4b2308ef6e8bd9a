package org.padtrue.history;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.ResultSetMetaData;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * The log of first articles. One instance is one connection, to be used by one thread; any number
 * of programs may write to one log.
 */
public final class ArticleLog implements AutoCloseable {
  private static final List<String> TABLES =
      List.of(
          "article",
          "placement",
          "fit_parameter",
          "entered_trim",
          "attachment",
          "machine_event",
          "sign_off");

  private final Store store;
  private final String who;

  private ArticleLog(Store store) {
    this.store = store;
    this.who = System.getProperty("user.name", "");
  }

  /**
   * Opens a log to write, making it when it is not there and bringing an old one up to date.
   *
   * @param url file name, sqlite:..., jdbc:sqlite:..., postgresql://... or jdbc:postgresql://...
   */
  public static ArticleLog open(String url) {
    return new ArticleLog(Store.open(HistoryUrl.parse(url)));
  }

  /** Opens a log that exists, to read; works on files that may only be read. */
  public static ArticleLog openToRead(String url) {
    return new ArticleLog(Store.openToRead(HistoryUrl.parse(url)));
  }

  /** False when the log is a file that nobody has made yet. */
  public static boolean exists(String url) {
    Path file = HistoryUrl.parse(url).file();
    return file == null || Files.exists(file);
  }

  /**
   * Records an article. When this returns, it is on disk.
   *
   * @return its number in the log
   * @throws InputException when the same article is in the log already, or the store is in trouble
   */
  public long record(LoggedArticle a) {
    return insert(a, null, "");
  }

  /**
   * Records an article in place of an older one, which stays as it is.
   *
   * @param id number of the article to correct
   * @param a the article as it should be
   * @param reason why
   * @return the number of the new row
   */
  public long correct(long id, LoggedArticle a, String reason) {
    return insert(a, id, reason);
  }

  private long insert(LoggedArticle a, @Nullable Long corrects, String reason) {
    return store.write(
        c -> {
          ArticleReader r = new ArticleReader(c);
          if (corrects == null) {
            refuseTwice(a, r.byHash(a.contentHash()));
          } else {
            refuseCorrection(corrects, r.byId(corrects));
          }
          refuseTrimsTwice(a, corrects, r);
          try {
            return new ArticleWriter(c).insert(a, who, corrects, reason);
          } catch (SQLException e) {
            if (StoreTrouble.kind(e) == StoreTrouble.Kind.TWICE) {
              // another writer was faster by a hair
              throw new InputException(
                  Problem.of(
                      a.file(),
                      "the same article or correction has just been recorded by another program"
                          + " and nothing was recorded",
                      ""));
            }
            throw e;
          }
        });
  }

  private static void refuseTwice(LoggedArticle a, @Nullable ArticleEntry old) {
    if (old != null) {
      throw new InputException(
          Problem.of(
              a.file(),
              "the same article is in the log already as number "
                  + old.id()
                  + " (machine "
                  + old.machine()
                  + ", measured "
                  + Sql.time(old.measuredAt())
                  + ", recorded "
                  + Sql.time(old.recordedAt())
                  + " by "
                  + old.recordedBy()
                  + ") and nothing was recorded",
              "record a correction of that number if something about it was wrong"));
    }
  }

  private static void refuseCorrection(long id, @Nullable ArticleEntry old) {
    if (old == null) {
      throw new InputException(
          Problem.of("", "there is no article number " + id + " in the log", "list the articles"));
    }
    Long by = old.correctedBy();
    if (by != null) {
      throw new InputException(
          Problem.of(
              "",
              "article number " + id + " has been corrected by number " + by + " already",
              "correct number " + by));
    }
  }

  // The same trim sheet entered twice would count double in every later state.
  private static void refuseTrimsTwice(LoggedArticle a, @Nullable Long corrects, ArticleReader r)
      throws SQLException {
    for (LoggedTrim t : a.trims()) {
      if (t.sourceHash().isEmpty()) {
        continue;
      }
      ArticleEntry old = r.byTrimSource(a.machine(), t.sourceHash());
      if (old != null && (corrects == null || old.id() != corrects)) {
        throw new InputException(
            Problem.of(
                a.file(),
                "the trims of this analysis are in the log already, with article number "
                    + old.id()
                    + ", and would count twice; nothing was recorded",
                "leave --trims out, or give the analysis whose trims were entered since"));
      }
    }
  }

  /** Records an event of a machine. */
  public long record(LoggedEvent e) {
    String sql =
        "INSERT INTO machine_event (recorded_at, recorded_by, happened_at, machine, kind, level,"
            + " note) VALUES (?, ?, ?, ?, ?, ?, ?)";
    return store.write(
        c -> {
          try (PreparedStatement s = c.prepareStatement(sql, Statement.RETURN_GENERATED_KEYS)) {
            s.setString(1, Sql.time(Instant.now()));
            s.setString(2, who);
            s.setString(3, Sql.time(e.at()));
            s.setString(4, e.machine());
            s.setString(5, e.kind());
            s.setString(6, e.level());
            s.setString(7, e.note());
            s.executeUpdate();
            return ArticleWriter.key(s);
          }
        });
  }

  /** Events of a machine, in order of time. */
  public List<LoggedEvent> events(String machine) {
    return store.read(
        c -> {
          List<LoggedEvent> all = new ArrayList<>();
          String sql = "SELECT * FROM machine_event WHERE machine = ? ORDER BY happened_at, id";
          try (PreparedStatement s = c.prepareStatement(sql)) {
            s.setString(1, machine);
            try (ResultSet r = s.executeQuery()) {
              while (r.next()) {
                all.add(
                    new LoggedEvent(
                        Sql.string(r, "machine"),
                        Instant.parse(r.getString("happened_at")),
                        Sql.string(r, "kind"),
                        Sql.string(r, "level"),
                        Sql.string(r, "note")));
              }
            }
          }
          return all;
        });
  }

  /**
   * Signs an article off. Earlier sign-offs stay.
   *
   * @param article its number
   * @return number of the sign-off
   * @throws InputException when there is no such article or it has been corrected
   */
  public long signOff(long article, SignOff said) {
    return store.write(c -> new SignOffs(c).signOff(article, said, who));
  }

  /**
   * Withdraws a sign-off, which stays in the log.
   *
   * @param signOff its number
   * @param said who withdraws it, and why
   * @return number of the withdrawal
   * @throws InputException when there is no such sign-off, it is withdrawn, or no reason is given
   */
  public long withdraw(long signOff, SignOff said) {
    return store.write(c -> new SignOffs(c).withdraw(signOff, said, who));
  }

  /**
   * Sign-offs and withdrawals in the order in which they were given.
   *
   * @param article number of an article, or null for all
   */
  public List<LoggedSignOff> signOffs(@Nullable Long article) {
    return store.read(c -> new SignOffs(c).read(article));
  }

  /** How far the log has grown. */
  public LogState state() {
    String sql =
        "SELECT COUNT(*), COALESCE(MAX(id), 0), (SELECT COUNT(*) FROM machine_event),"
            + " (SELECT COALESCE(MAX(id), 0) FROM machine_event) FROM article";
    return store.read(
        c -> {
          try (Statement s = c.createStatement();
              ResultSet r = s.executeQuery(sql)) {
            r.next();
            return new LogState(r.getLong(1), r.getLong(2), r.getLong(3), r.getLong(4));
          }
        });
  }

  /** Machines that have articles in the log, by name. */
  public List<String> machines() {
    return names("SELECT DISTINCT machine FROM article ORDER BY machine");
  }

  /** Jobs that have articles in the log, by name. */
  public List<String> jobs() {
    return names("SELECT DISTINCT job FROM article ORDER BY job");
  }

  private List<String> names(String sql) {
    return store.read(
        c -> {
          List<String> all = new ArrayList<>();
          try (Statement s = c.createStatement();
              ResultSet r = s.executeQuery(sql)) {
            while (r.next()) {
              all.add(r.getString(1));
            }
          }
          return all;
        });
  }

  /**
   * Lines of the log in order of time, corrected ones included.
   *
   * @param machine null for all
   * @param job null for all
   */
  public List<ArticleEntry> articles(@Nullable String machine, @Nullable String job) {
    return store.read(c -> new ArticleReader(c).entries(machine, job));
  }

  /** One line of the log. */
  public Optional<ArticleEntry> entry(long id) {
    return store.read(c -> Optional.ofNullable(new ArticleReader(c).byId(id)));
  }

  /** A whole article as it was recorded. */
  public Optional<LoggedArticle> article(long id) {
    return store.read(
        c -> {
          ArticleReader r = new ArticleReader(c);
          ArticleEntry e = r.byId(id);
          return e == null ? Optional.empty() : Optional.of(r.article(e));
        });
  }

  /** True when an article with this content is in the log. */
  public boolean contains(LoggedArticle a) {
    return store.read(c -> new ArticleReader(c).byHash(a.contentHash()) != null);
  }

  /**
   * Series of a machine: articles that stand, state = value minus the sum of trims in force.
   *
   * @param machine its name
   * @param job only this job's articles, or null for all
   */
  public List<LoggedSeries> series(String machine, @Nullable String job) {
    return store.read(c -> new SeriesReader(c).series(machine, job));
  }

  /** Everything in the log, table by table, corrected articles included. */
  public void export(RowSink sink) {
    store.read(
        c -> {
          for (String table : TABLES) {
            export(c, table, sink);
          }
          return Boolean.TRUE;
        });
  }

  private static void export(Connection c, String table, RowSink sink) throws SQLException {
    try (Statement s = c.createStatement();
        ResultSet r = s.executeQuery("SELECT * FROM " + table + " ORDER BY 1, 2")) {
      ResultSetMetaData m = r.getMetaData();
      List<String> columns = new ArrayList<>();
      for (int i = 1; i <= m.getColumnCount(); i++) {
        columns.add(m.getColumnName(i));
      }
      sink.table(table, columns);
      while (r.next()) {
        List<@Nullable Object> row = new ArrayList<>();
        for (int i = 1; i <= columns.size(); i++) {
          row.add(plain(r.getObject(i)));
        }
        sink.row(row);
      }
    }
  }

  private static @Nullable Object plain(@Nullable Object v) {
    if (v instanceof Integer || v instanceof Short || v instanceof Long) {
      return ((Number) v).longValue();
    }
    return v instanceof Number n ? (Object) n.doubleValue() : v;
  }

  @Override
  public void close() {
    store.close();
  }
}
