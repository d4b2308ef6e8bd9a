package org.padtrue.web.bench;

import java.util.List;

/**
 * The first page: jobs and articles, newest first.
 *
 * @param skipped sentences on folders of which nothing could be made
 */
public record HomeView(List<JobLine> jobs, List<ArticleLine> articles, List<String> skipped) {
  /** One job. */
  public record JobLine(String id, String name, String facts) {}

  public HomeView {
    jobs = List.copyOf(jobs);
    articles = List.copyOf(articles);
    skipped = List.copyOf(skipped);
  }
}
