package org.padtrue.web;

import io.javalin.http.Context;

/**
 * What the pages work with.
 *
 * @param workspace jobs and articles
 * @param historyUrl the log
 * @param pages templates
 * @param analyses what the articles show
 */
record Bench(Workspace workspace, String historyUrl, Pages pages, Analyses analyses) {
  /** The job that the address names. */
  JobFolder job(Context ctx) {
    return workspace.job(ctx.pathParam("job"));
  }

  /** The article that the address names. */
  BenchArticle article(Context ctx) {
    return workspace.article(ctx.pathParam("article"));
  }
}
