package org.padtrue.web.bench;

import java.util.List;

/** The first page: jobs and articles, newest first. */
public record HomeView(List<JobLine> jobs, List<ArticleLine> articles) {
  /** One job. */
  public record JobLine(String id, String name, String facts) {}

  public HomeView {
    jobs = List.copyOf(jobs);
    articles = List.copyOf(articles);
  }
}
