package org.padtrue.web.bench;

import io.javalin.http.Context;
import org.padtrue.web.server.Notice;
import org.padtrue.web.server.Pages;

/**
 * What the pages work with.
 *
 * @param workspace jobs and articles
 * @param historyUrl the log
 * @param pages templates
 * @param analyses what the articles show
 */
public record Bench(Workspace workspace, String historyUrl, Pages pages, Analyses analyses) {
  /** The job that the address names. */
  public JobFolder job(Context ctx) {
    return workspace.job(ctx.pathParam("job"));
  }

  /** The article that the address names. */
  public BenchArticle article(Context ctx) {
    BenchArticle a = workspace.article(ctx.pathParam("article"));
    a.damage().forEach(s -> Pages.notice(ctx, Notice.of(s)));
    if (a.about().kind() == PanelKind.UNSAID) {
      Pages.notice(
          ctx,
          new Notice(
              "Nobody has said yet which panel this is: placed after trims were entered, a further"
                  + " first article, or monitoring. Until then it counts as a first article.",
              "/articles/" + a.id() + "/which",
              "Say which it is"));
    }
    return a;
  }
}
