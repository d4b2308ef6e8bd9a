package org.padtrue.web.log;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import org.padtrue.drift.SeriesDrift;
import org.padtrue.history.ArticleEntry;
import org.padtrue.history.ArticleLog;
import org.padtrue.log.DriftStudy;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;

/** What drifts: a machine, and one series of it. */
public final class DriftPages {
  private final Bench bench;
  private final DriftStudies studies = new DriftStudies();

  public DriftPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/drift", this::machine);
    routes.get("/drift/series", this::series);
  }

  private void machine(Context ctx) {
    DriftView view = DriftView.empty();
    if (ArticleLog.exists(bench.historyUrl())) {
      try (ArticleLog log = ArticleLog.openToRead(bench.historyUrl())) {
        if (log.state().articles() > 0) {
          DriftStudy s = study(ctx, log);
          view = DriftView.of(s, log.machines(), jobs(log, s.machine()));
        }
      }
    }
    bench.pages().show(ctx, "drift", "Drift", "drift", view);
  }

  private DriftStudy study(Context ctx, ArticleLog log) {
    String asked = Fields.query(ctx, "machine");
    String job = Fields.query(ctx, "job");
    String machine = asked.isEmpty() ? latest(log) : asked;
    if (!log.machines().contains(machine)) {
      throw Refusal.notThere("The log has no machine '" + machine + "'.");
    }
    // a job chosen for another machine is no choice for this one
    boolean known = !job.isEmpty() && jobs(log, machine).contains(job);
    if (!job.isEmpty() && !known) {
      throw Refusal.notThere("Machine '" + machine + "' has no articles of job '" + job + "'.");
    }
    return studies.of(log, machine, known ? job : null);
  }

  /** The machine of the article measured last. */
  private static String latest(ArticleLog log) {
    List<String> machines = log.machines();
    if (machines.size() == 1) {
      return machines.get(0);
    }
    List<ArticleEntry> all = log.articles(null, null);
    return all.get(all.size() - 1).machine();
  }

  private static List<String> jobs(ArticleLog log, String machine) {
    return log.articles(machine, null).stream()
        .filter(ArticleEntry::stands)
        .map(ArticleEntry::job)
        .distinct()
        .sorted()
        .toList();
  }

  private void series(Context ctx) {
    String name = Fields.query(ctx, "name");
    if (!ArticleLog.exists(bench.historyUrl())) {
      throw Refusal.notThere("There is no log yet; record an article first.");
    }
    DriftSeriesView view;
    try (ArticleLog log = ArticleLog.openToRead(bench.historyUrl())) {
      DriftStudy s = study(ctx, log);
      SeriesDrift d =
          s.drift().series().stream()
              .filter(x -> x.name().equals(name) && !x.series().points().isEmpty())
              .findFirst()
              .orElseThrow(
                  () -> Refusal.notThere("The log has no series '" + name + "' of this machine."));
      view = DriftSeriesView.of(s, d);
    }
    bench.pages().show(ctx, "drift-series", name, "drift", view);
  }
}
