package org.padtrue.history;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.Study;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Levels;
import org.padtrue.problem.InputException;

/** The embedded store, and what may befall a file. */
class SqliteArticleLogTest extends ArticleLogContract {
  private static final int KILLS = Study.runs("kills", 5, 50);

  @TempDir Path folder;

  @Override
  String url() {
    return folder.resolve("log.db").toString();
  }

  /** Every article whose number was given out before kill -9 is there afterwards, and whole. */
  @Test
  void killedInTheMiddleLosesNoAcknowledgedArticle() throws Exception {
    Random random = new Random(17);
    Set<String> acknowledged = new HashSet<>();
    long next = 1;
    for (int k = 0; k < KILLS; k++) {
      Process p = RecorderProcess.start(url(), next, 100_000);
      int wanted = 3 + random.nextInt(25);
      try (BufferedReader r =
          new BufferedReader(new InputStreamReader(p.getInputStream(), StandardCharsets.UTF_8))) {
        for (int i = 0; i < wanted; i++) {
          acknowledged.add(r.readLine().split(" ")[2]);
        }
        Thread.sleep(random.nextInt(5));
        // through the handle: the process object would close the pipe as well
        p.toHandle().destroyForcibly();
        // what it still said before it died counts too
        for (String line = r.readLine(); line != null; line = r.readLine()) {
          if (line.matches("ack \\d+ [0-9a-f]{64}")) {
            acknowledged.add(line.split(" ")[2]);
          }
        }
      }
      p.waitFor();
      next += 100_000;
      try (ArticleLog log = ArticleLog.open(url())) {
        Set<String> kept = new HashSet<>();
        for (ArticleEntry e : log.articles(null, null)) {
          kept.add(e.contentHash());
        }
        assertThat(kept).containsAll(acknowledged);
        List<ArticleEntry> all = log.articles(null, null);
        ArticleEntry last = all.get(all.size() - 1);
        LoggedArticle whole = log.article(last.id()).orElseThrow();
        assertThat(whole.contentHash()).isEqualTo(last.contentHash());
        assertThat(whole.parameters()).hasSize(3);
      }
    }
    assertThat(integrity()).isEqualTo("ok");
    System.out.printf(
        "killed %d times among %d acknowledged articles: none lost, integrity check ok%n",
        KILLS, acknowledged.size());
  }

  private String integrity() throws SQLException {
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + url());
        Statement s = c.createStatement();
        ResultSet r = s.executeQuery("PRAGMA integrity_check")) {
      return r.getString(1);
    }
  }

  /** Two processes that start on the same new file and write at once: both get all theirs in. */
  @Test
  void twoWritersAtOnce() throws Exception {
    Process a = RecorderProcess.start(url(), 1, 60);
    Process b = RecorderProcess.start(url(), 1001, 60);
    List<String> said = new ArrayList<>();
    for (Process p : List.of(a, b)) {
      try (BufferedReader r =
          new BufferedReader(new InputStreamReader(p.getInputStream(), StandardCharsets.UTF_8))) {
        r.lines().forEach(said::add);
      }
      assertThat(p.waitFor()).isZero();
    }
    assertThat(said).hasSize(120);
    try (ArticleLog log = ArticleLog.open(url())) {
      assertThat(log.articles(null, null)).hasSize(120);
    }
    assertThat(Files.exists(Path.of(url() + ".migrating"))).isFalse();
  }

  @Test
  void commitsAreSyncedAndLoggedAhead() throws Exception {
    try (Store s = Store.open(HistoryUrl.parse(url()))) {
      assertThat(pragma(s, "journal_mode")).isEqualTo("wal");
      assertThat(pragma(s, "synchronous")).isEqualTo("2");
      assertThat(pragma(s, "foreign_keys")).isEqualTo("1");
    }
  }

  private static String pragma(Store s, String name) throws SQLException {
    try (Statement st = s.connection.createStatement();
        ResultSet r = st.executeQuery("PRAGMA " + name)) {
      return r.getString(1);
    }
  }

  @Test
  void rowsCannotBeChangedOrDeleted() throws Exception {
    try (ArticleLog log = ArticleLog.open(url())) {
      log.signOff(log.record(Articles.article(1, 5)), new SignOff("A. Example", "quality", ""));
    }
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + url());
        Statement s = c.createStatement()) {
      for (String table :
          List.of("article", "placement", "fit_parameter", "attachment", "sign_off")) {
        assertThatThrownBy(() -> s.execute("DELETE FROM " + table))
            .hasMessageContaining("the log is append-only");
      }
      assertThatThrownBy(() -> s.execute("UPDATE article SET machine = 'M2'"))
          .hasMessageContaining("the log is append-only");
      assertThatThrownBy(() -> s.execute("UPDATE sign_off SET name = 'B. Example'"))
          .hasMessageContaining("the log is append-only");
    }
  }

  @Test
  void aNewerLogIsRefusedWithASentence() throws Exception {
    try (ArticleLog log = ArticleLog.open(url())) {
      log.record(Articles.article(1, 5));
    }
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + url());
        Statement s = c.createStatement()) {
      s.execute(
          "INSERT INTO padtrue_schema SELECT 99, '7', description, type, 'V7__x.sql', checksum,"
              + " installed_by, installed_on, execution_time, success FROM padtrue_schema WHERE"
              + " version = '1'");
    }
    assertThatThrownBy(() -> ArticleLog.open(url()))
        .isInstanceOf(InputException.class)
        .hasMessage(
            url()
                + ": the log was written by a newer version of this program (its tables are version"
                + " 7, this program knows 5); update the program");
  }

  /** A log with tables of version 1 and an article in it opens, with the article, at today's. */
  @Test
  void anOlderLogIsBroughtUpToDate() throws Exception {
    HistoryUrl url = HistoryUrl.parse(url());
    try (Connection c = DriverManager.getConnection(url.jdbc());
        Statement s = c.createStatement();
        ResultSet r = s.executeQuery("PRAGMA journal_mode=WAL")) {
      assertThat(r.getString(1)).isEqualTo("wal");
    }
    Schema.migrate(url, 1);
    try (Connection c = DriverManager.getConnection(url.jdbc());
        Statement s = c.createStatement()) {
      assertThat(Schema.version(c, url)).isEqualTo(1);
      s.execute(
          "INSERT INTO article (content_hash, recorded_at, recorded_by, measured_at, machine, job,"
              + " file, stage, reference, shift, operator, temperature_c, notes, reason) VALUES"
              + " ('h', '2025-01-01T00:00:00.000Z', 'u', '2025-01-01T00:00:00.000Z', 'M1', 'J1',"
              + " 'f.csv', 'paste', 'fiducials', '', '', 21, '', '')");
      s.execute(
          "INSERT INTO placement (article_id, seq, panel, board_column, board_row, ref, part,"
              + " nozzle, feeder, head, x_mm, y_mm, rotation_deg, used, excluded_as) VALUES"
              + " (1, 0, 'P1', 1, 1, 'R1', 'R0603', 'N1', NULL, 'H2', 1, 2, 90, 1, '')");
    }
    try (ArticleLog log = ArticleLog.open(url())) {
      ArticleEntry e = log.articles("M1", null).get(0);
      assertThat(e.conditions().temperatureC()).isEqualTo(21);
      assertThat(e.conditions().humidityPercent()).isNaN();
      assertThat(log.article(1).orElseThrow().placements().get(0).levels())
          .isEqualTo(Levels.NONE.with(Factor.NOZZLE, "N1").with(Factor.HEAD, "H2"));
      log.record(Articles.article(1, 5));
      assertThat(log.articles("M1", null)).hasSize(2);
    }
    try (Connection c = DriverManager.getConnection(url.jdbc())) {
      assertThat(Schema.version(c, url)).isEqualTo(Schema.VERSION);
    }
  }

  /** A log from before there were sign-offs takes one as soon as it is opened, even to read. */
  @Test
  void aLogFromBeforeSignOffsTakesThem() throws Exception {
    try (ArticleLog log = ArticleLog.open(url())) {
      log.record(Articles.article(1, 5));
    }
    HistoryUrl url = HistoryUrl.parse(url());
    try (Connection c = DriverManager.getConnection(url.jdbc());
        Statement s = c.createStatement()) {
      s.execute("DROP TABLE sign_off");
      s.execute("ALTER TABLE placement DROP COLUMN lot");
      s.execute("DELETE FROM padtrue_schema WHERE version IN ('4', '5')");
      assertThat(Schema.version(c, url)).isEqualTo(3);
    }
    try (ArticleLog log = ArticleLog.openToRead(url())) {
      assertThat(log.signOffs(null)).isEmpty();
    }
    try (ArticleLog log = ArticleLog.open(url())) {
      log.signOff(1, new SignOff("A. Example", "quality", ""));
      assertThat(log.signOffs(1L)).hasSize(1);
      assertThat(log.articles(null, null)).hasSize(1);
    }
  }

  /** The constant that spares Flyway at every start is the highest number among the migrations. */
  @Test
  void schemaVersionIsTheHighestMigration() throws Exception {
    int highest = 0;
    for (String sub : List.of("common", "sqlite", "postgresql")) {
      Path at = Path.of("src/main/resources/org/padtrue/history", sub);
      try (Stream<Path> files = Files.list(at)) {
        for (Path f : files.toList()) {
          String name = f.getFileName().toString();
          highest = Math.max(highest, Integer.parseInt(name.replaceAll("V(\\d+)__.*", "$1")));
        }
      }
    }
    assertThat(Schema.VERSION).isEqualTo(highest);
  }

  /**
   * SQLite reports a full disk and a full page allowance alike; the allowance needs no full disk.
   */
  @Test
  void aFullDiskIsOneSentenceAndNothingIsRecorded() {
    try (ArticleLog log = ArticleLog.open(url())) {
      log.record(Articles.article(1, 5));
    }
    try (ArticleLog log = ArticleLog.open("jdbc:sqlite:" + url() + "?max_page_count=60")) {
      assertThatThrownBy(() -> log.record(Articles.article(2, 5000)))
          .isInstanceOf(InputException.class)
          .hasMessage(
              url()
                  + ": the disk is full and nothing was recorded; free some space and run the"
                  + " command again");
      assertThat(log.articles(null, null)).hasSize(1);
    }
    try (ArticleLog log = ArticleLog.open(url())) {
      log.record(Articles.article(2, 5));
      assertThat(log.articles(null, null)).hasSize(2);
    }
  }

  @Test
  void aFileThatMayOnlyBeReadIsOneSentence() throws IOException {
    try (ArticleLog log = ArticleLog.open(url())) {
      log.record(Articles.article(1, 5));
    }
    try (ArticleLog log = ArticleLog.open("jdbc:sqlite:" + url() + "?open_mode=1")) {
      assertThatThrownBy(() -> log.record(Articles.article(2, 5)))
          .isInstanceOf(InputException.class)
          .hasMessage(
              url()
                  + ": the log may only be read and nothing was recorded; make the file and its"
                  + " folder writable");
      assertThat(log.articles(null, null)).hasSize(1);
    }
  }

  /** With real permissions, where the account is subject to them. */
  @Test
  void aReadOnlyFolderCanBeRead() throws IOException {
    try (ArticleLog log = ArticleLog.open(url())) {
      log.record(Articles.article(1, 5));
    }
    Path file = Path.of(url());
    assertThat(file.toFile().setWritable(false)).isTrue();
    assertThat(folder.toFile().setWritable(false)).isTrue();
    try {
      Assumptions.assumeFalse(Files.isWritable(file), "this account writes where it likes");
      try (ArticleLog log = ArticleLog.openToRead(url())) {
        assertThat(log.articles(null, null)).hasSize(1);
        assertThatThrownBy(() -> log.record(Articles.article(2, 5)))
            .isInstanceOf(InputException.class)
            .hasMessageContaining("may only be read");
      }
      assertThatThrownBy(() -> ArticleLog.open(url())).isInstanceOf(InputException.class);
    } finally {
      assertThat(folder.toFile().setWritable(true)).isTrue();
    }
  }

  @Test
  void whatIsNoLogIsSaidSo() throws Exception {
    assertThatThrownBy(() -> ArticleLog.openToRead(url()))
        .hasMessage(url() + ": there is no log here yet; record an article first");
    assertThatThrownBy(() -> ArticleLog.open(folder.toString()))
        .hasMessage(folder + ": it is a folder, not a log; give the name of a file");
    String nowhere = folder.resolve("no/where.db").toString();
    assertThatThrownBy(() -> ArticleLog.open(nowhere))
        .hasMessageContaining("does not exist; make it first");
    Path text = folder.resolve("text.db");
    Files.writeString(text, "ref,x,y\nR1,1,2\n".repeat(100));
    assertThatThrownBy(() -> ArticleLog.open(text.toString()))
        .hasMessage(text + ": the file is not a log of this program; give another file name");
    Path other = folder.resolve("other.db");
    try (Connection c = DriverManager.getConnection("jdbc:sqlite:" + other);
        Statement s = c.createStatement()) {
      s.execute("CREATE TABLE x (y INTEGER)");
    }
    assertThatThrownBy(() -> ArticleLog.open(other.toString()))
        .hasMessageContaining("it is a database, but not a log of this program");
    assertThatThrownBy(() -> ArticleLog.open("mysql://host/db"))
        .hasMessageContaining("this kind of store is not known");
  }

  /** Content is job and measured values, not file name, order, time or machine. */
  @Test
  void contentHashSeesWhatWasMeasured() {
    LoggedArticle a = Articles.article(1, 5, "M1", "J1", List.of());
    assertThat(Articles.article(1, 5, "M2", "J1", List.of()).contentHash())
        .isEqualTo(a.contentHash());
    assertThat(Articles.article(1, 5, "M1", "J2", List.of()).contentHash())
        .isNotEqualTo(a.contentHash());
    assertThat(Articles.article(2, 5, "M1", "J1", List.of()).contentHash())
        .isNotEqualTo(a.contentHash());
    List<LoggedPlacement> turned = new ArrayList<>(a.placements());
    java.util.Collections.reverse(turned);
    assertThat(ContentHash.of("J1", turned)).isEqualTo(a.contentHash());
  }

  /** Files are recorded in order of time; known ones and bad ones are told apart. */
  @Test
  void folderImport() throws Exception {
    for (String name : List.of("b.csv", "a.csv", "known.csv", "bad.csv", "readme.txt")) {
      Files.writeString(folder.resolve(name), "");
    }
    try (ArticleLog log = ArticleLog.open(url())) {
      log.record(Articles.article(9, 5));
      FolderImport.Imported i =
          FolderImport.run(
              log,
              FolderImport.files(folder),
              file ->
                  switch (file.getFileName().toString()) {
                    case "a.csv" -> Articles.article(2, 5);
                    case "b.csv" -> Articles.article(1, 5);
                    case "known.csv" -> Articles.article(9, 5);
                    default ->
                        throw new InputException(
                            org.padtrue.problem.Problem.of("bad.csv", "it is empty", ""));
                  });
      assertThat(i.recorded()).containsExactly("b.csv", "a.csv");
      assertThat(i.known()).containsExactly("known.csv");
      assertThat(i.problems()).hasSize(1);
      assertThat(log.articles(null, null)).hasSize(3);
    }
  }
}
