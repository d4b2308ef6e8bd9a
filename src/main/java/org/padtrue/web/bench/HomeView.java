package org.padtrue.web.bench;

import java.util.List;

/**
 * The first page: jobs and articles, newest first.
 *
 * @param skipped sentences on folders of which nothing could be made
 * @param wanted words that are looked for, empty for all
 * @param all number of jobs there are
 */
public record HomeView(
    List<JobLine> jobs, List<ArticleLine> articles, List<String> skipped, String wanted, int all) {
  private static final int FEW = 6;

  /** True when there is so much that people look for something. */
  public boolean searchable() {
    return all > FEW || !wanted.isEmpty();
  }

  /** One job. */
  public record JobLine(String id, String name, String facts) {}

  public HomeView {
    jobs = List.copyOf(jobs);
    articles = List.copyOf(articles);
    skipped = List.copyOf(skipped);
  }
}
