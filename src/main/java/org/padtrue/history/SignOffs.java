package org.padtrue.history;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Sign-offs in the tables: rows are added, never changed. */
final class SignOffs {
  private static final String SELECT =
      "SELECT s.*, w.id AS withdrawn_by FROM sign_off s LEFT JOIN sign_off w ON w.withdraws = s.id";

  private final Connection c;

  SignOffs(Connection c) {
    this.c = c;
  }

  /** All, or those of one article, in the order in which they were given. */
  List<LoggedSignOff> read(@Nullable Long article) throws SQLException {
    String where = article == null ? "" : " WHERE s.article_id = ?";
    List<LoggedSignOff> all = new ArrayList<>();
    try (PreparedStatement s = c.prepareStatement(SELECT + where + " ORDER BY s.id")) {
      if (article != null) {
        s.setLong(1, article);
      }
      try (ResultSet r = s.executeQuery()) {
        while (r.next()) {
          all.add(row(r));
        }
      }
    }
    return all;
  }

  private static LoggedSignOff row(ResultSet r) throws SQLException {
    return new LoggedSignOff(
        r.getLong("id"),
        r.getLong("article_id"),
        Instant.parse(r.getString("signed_at")),
        Sql.string(r, "recorded_by"),
        new SignOff(Sql.string(r, "name"), Sql.string(r, "role"), Sql.string(r, "note")),
        Sql.whole(r, "withdraws"),
        Sql.whole(r, "withdrawn_by"));
  }

  long signOff(long article, SignOff said, String who) throws SQLException {
    ArticleEntry e = new ArticleReader(c).byId(article);
    if (e == null) {
      throw refused("there is no article number " + article + " in the log", "list the articles");
    }
    Long by = e.correctedBy();
    if (by != null) {
      throw refused(
          "article number " + article + " has been corrected by number " + by,
          "sign off number " + by);
    }
    return insert(article, said, who, null);
  }

  long withdraw(long id, SignOff said, String who) throws SQLException {
    LoggedSignOff old =
        read(null).stream()
            .filter(s -> s.id() == id && s.withdraws() == null)
            .findFirst()
            .orElse(null);
    if (old == null) {
      throw refused("there is no sign-off number " + id + " in the log", "look at its article");
    }
    if (old.withdrawnBy() != null) {
      throw refused("sign-off number " + id + " has been withdrawn already", "");
    }
    if (said.note().isBlank()) {
      throw refused("a withdrawal needs a reason", "say why in its note");
    }
    return insert(old.articleId(), said, who, id);
  }

  private static InputException refused(String what, String mend) {
    return new InputException(Problem.of("", what, mend));
  }

  private long insert(long article, SignOff said, String who, @Nullable Long withdraws)
      throws SQLException {
    String sql =
        "INSERT INTO sign_off (article_id, signed_at, recorded_by, name, role, note, withdraws)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?)";
    try (PreparedStatement s = c.prepareStatement(sql, Statement.RETURN_GENERATED_KEYS)) {
      s.setLong(1, article);
      s.setString(2, Sql.time(Instant.now()));
      s.setString(3, who);
      s.setString(4, said.name());
      s.setString(5, said.role());
      s.setString(6, said.note());
      if (withdraws == null) {
        s.setNull(7, Types.BIGINT);
      } else {
        s.setLong(7, withdraws);
      }
      s.executeUpdate();
      return ArticleWriter.key(s);
    }
  }
}
