package org.padtrue.web.log;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.history.ArticleEntry;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedSignOff;
import org.padtrue.history.SignOff;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/** The log: its list, one article, two side by side, and who answers for an article. */
public final class LogPages {
  private static final int MOST_CORRECTIONS = 50;

  private final Bench bench;

  public LogPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/log", this::list);
    routes.get("/log/compare", this::compare);
    routes.get("/log/{id}", this::article);
    routes.post("/log/{id}/sign-off", this::signOff);
    routes.post("/log/{id}/sign-off/{signOff}/withdraw", this::withdraw);
  }

  private void list(Context ctx) {
    LogFilter filter = LogFilter.of(ctx);
    int page = (int) Math.min(1_000_000, TypedNumbers.whole(Fields.query(ctx, "page")).orElse(1));
    LogView view;
    if (ArticleLog.exists(bench.historyUrl())) {
      try (ArticleLog log = ArticleLog.openToRead(bench.historyUrl())) {
        view = LogView.of(filter, log.articles(null, null), log.signOffs(null), page);
      }
    } else {
      view = LogView.of(filter, List.of(), List.of(), 1);
    }
    bench.pages().show(ctx, "log", "Log", "log", view);
  }

  private ArticleLog open() {
    if (!ArticleLog.exists(bench.historyUrl())) {
      throw Refusal.notThere("There is no log yet; record an article first.");
    }
    return ArticleLog.openToRead(bench.historyUrl());
  }

  private static ArticleEntry entry(ArticleLog log, long id) {
    return log.entry(id)
        .orElseThrow(() -> Refusal.notThere("There is no article number " + id + " in the log."));
  }

  private void article(Context ctx) {
    long id = Fields.number(ctx.pathParam("id"), "article");
    boolean everything = Fields.query(ctx, "placements").equals("all");
    LogArticleView view;
    try (ArticleLog log = open()) {
      ArticleEntry e = entry(log, id);
      Long by = e.correctedBy();
      view =
          LogArticleView.of(
              e,
              log.article(id).orElseThrow(),
              log.signOffs(id),
              older(log, e),
              by == null ? null : entry(log, by),
              previous(log, e),
              everything);
    }
    bench.pages().show(ctx, "log-article", "Article " + id, "log", view);
  }

  /** The rows that a row corrects, the nearest first. */
  private static List<LogArticleView.Other> older(ArticleLog log, ArticleEntry e) {
    List<LogArticleView.Other> all = new ArrayList<>();
    Long next = e.corrects();
    while (next != null && all.size() < MOST_CORRECTIONS) {
      ArticleEntry o = entry(log, next);
      all.add(new LogArticleView.Other(o, log.signOffs(o.id())));
      next = o.corrects();
    }
    return all;
  }

  private static long previous(ArticleLog log, ArticleEntry e) {
    long before = 0;
    for (ArticleEntry o : log.articles(e.machine(), e.job())) {
      if (o.id() == e.id()) {
        break;
      }
      if (o.stands()) {
        before = o.id();
      }
    }
    return before;
  }

  private void compare(Context ctx) {
    List<String> chosen = ctx.queryParams("id");
    if (!chosen.isEmpty()) {
      if (chosen.size() != 2) {
        throw Refusal.bad(
            "Two articles are compared; "
                + chosen.size()
                + (chosen.size() == 1 ? " box is" : " boxes are")
                + " ticked. Go back and tick two.");
      }
      // the list is newest first, and people compare the later with the earlier
      Map<String, String> two = new LinkedHashMap<>();
      two.put("a", chosen.get(1));
      two.put("b", chosen.get(0));
      ctx.redirect(LogFilter.address("/log/compare", two), HttpStatus.SEE_OTHER);
      return;
    }
    if (Fields.query(ctx, "a").isEmpty() || Fields.query(ctx, "b").isEmpty()) {
      throw Refusal.bad("Two articles are compared; go to the log and tick two.");
    }
    long a = Fields.number(Fields.query(ctx, "a"), "article");
    long b = Fields.number(Fields.query(ctx, "b"), "article");
    CompareView view;
    try (ArticleLog log = open()) {
      ArticleEntry ea = entry(log, a);
      ArticleEntry eb = entry(log, b);
      LoggedArticle first = log.article(a).orElseThrow();
      view = CompareView.of(ea, first, eb, a == b ? first : log.article(b).orElseThrow());
    }
    bench.pages().show(ctx, "log-compare", "Articles " + a + " and " + b, "log", view);
  }

  private static SignOff said(Context ctx) {
    String name = Fields.line(ctx, "name");
    String role = Fields.line(ctx, "role");
    if (name.isEmpty() || role.isEmpty()) {
      throw Refusal.bad("A sign-off needs your name and your role.");
    }
    return new SignOff(name, role, Fields.note(ctx, "note"));
  }

  private void signOff(Context ctx) {
    long id = Fields.number(ctx.pathParam("id"), "article");
    SignOff said = said(ctx);
    try (ArticleLog read = open()) {
      entry(read, id);
    }
    try (ArticleLog log = ArticleLog.open(bench.historyUrl())) {
      log.signOff(id, said);
    }
    ctx.redirect("/log/" + id + "#sign-offs", HttpStatus.SEE_OTHER);
  }

  private void withdraw(Context ctx) {
    long id = Fields.number(ctx.pathParam("id"), "article");
    long number = Fields.number(ctx.pathParam("signOff"), "sign-off");
    SignOff said = said(ctx);
    try (ArticleLog read = open()) {
      if (read.signOffs(id).stream().map(LoggedSignOff::id).noneMatch(n -> n == number)) {
        throw Refusal.notThere("Article " + id + " has no sign-off number " + number + ".");
      }
    }
    try (ArticleLog log = ArticleLog.open(bench.historyUrl())) {
      log.withdraw(number, said);
    }
    ctx.redirect("/log/" + id + "#sign-offs", HttpStatus.SEE_OTHER);
  }
}
