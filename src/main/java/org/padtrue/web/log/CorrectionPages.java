package org.padtrue.web.log;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.Conditions;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedTrim;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.TypedTrims;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.Times;

/**
 * Corrects what was recorded beside the measurements of an article: a new row that points at the
 * old one, which stays. What was measured is taken over as it is.
 */
public final class CorrectionPages {
  private static final double MOST = 1e12;

  private final Bench bench;

  public CorrectionPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/log/{id}/correct", this::page);
    routes.post("/log/{id}/correct", this::correct);
  }

  private LoggedArticle old(ArticleLog log, long id) {
    return log.article(id)
        .orElseThrow(() -> Refusal.notThere("There is no article number " + id + " in the log."));
  }

  private ArticleLog open() {
    if (!ArticleLog.exists(bench.historyUrl())) {
      throw Refusal.notThere("There is no log yet; record an article first.");
    }
    return ArticleLog.openToRead(bench.historyUrl());
  }

  private void page(Context ctx) {
    long id = Fields.number(ctx.pathParam("id"), "article");
    CorrectionView view;
    try (ArticleLog log = open()) {
      LoggedArticle a = old(log, id);
      Long by = log.entry(id).orElseThrow().correctedBy();
      if (by != null) {
        throw Refusal.bad(
            "Number " + id + " was corrected by number " + by + "; correct that one.");
      }
      view = view(id, log.machines(), a);
    }
    bench.pages().show(ctx, "correction", "Correct article " + id, "log", view);
  }

  private static CorrectionView view(long id, List<String> machines, LoggedArticle a) {
    Conditions c = a.conditions();
    return new CorrectionView(
        id,
        machines,
        a.machine(),
        Times.minute(a.measuredAt()) + " " + Times.zone(),
        c.shift(),
        c.operator(),
        ShownNumbers.plain(c.temperatureC()),
        ShownNumbers.plain(c.humidityPercent()),
        ShownNumbers.plain(c.minutesRunning()),
        ShownNumbers.plain(c.placementsSinceService()),
        a.notes(),
        text(a.trims()));
  }

  private static String text(List<LoggedTrim> trims) {
    return trims.stream()
        .map(t -> t.name() + " = " + ShownNumbers.plain(t.increment()))
        .collect(Collectors.joining("\n"));
  }

  private void correct(Context ctx) {
    long id = Fields.number(ctx.pathParam("id"), "article");
    String reason = Fields.note(ctx, "reason");
    if (reason.isEmpty()) {
      throw Refusal.bad("Write why it is corrected, in a few words.");
    }
    LoggedArticle a;
    try (ArticleLog log = open()) {
      a = old(log, id);
    }
    String machine = Fields.line(ctx, "machine");
    Instant at = Fields.line(ctx, "at").isEmpty() ? a.measuredAt() : EventPages.at(ctx);
    LoggedArticle now =
        new LoggedArticle(
            a.job(),
            a.file(),
            machine.isEmpty() ? a.machine() : machine,
            at,
            new Conditions(
                Fields.line(ctx, "shift"),
                Fields.line(ctx, "operator"),
                Fields.measured(ctx, "temperature", -40, 100),
                Fields.measured(ctx, "humidity", 0, 100),
                Fields.measured(ctx, "minutesRunning", 0, 1e7),
                Fields.measured(ctx, "placementsSinceService", 0, MOST)),
            a.stage(),
            a.reference(),
            Fields.note(ctx, "note"),
            a.placements(),
            a.parameters(),
            trims(ctx, a),
            a.attachments());
    long number;
    try (ArticleLog log = ArticleLog.open(bench.historyUrl())) {
      number = log.correct(id, now, reason);
    }
    ctx.redirect("/log/" + number, HttpStatus.SEE_OTHER);
  }

  /** Those that stand unchanged keep their source; others count as typed by hand. */
  private static List<LoggedTrim> trims(Context ctx, LoggedArticle a) {
    String typed = Fields.note(ctx, "trims");
    if (typed.equals(text(a.trims()))) {
      return a.trims();
    }
    List<LoggedTrim> all = new ArrayList<>();
    for (String line : typed.lines().filter(l -> !l.isBlank()).toList()) {
      all.addAll(TypedTrims.of(line.strip()));
    }
    return all;
  }
}
