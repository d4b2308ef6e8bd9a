package org.padtrue.web.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One job.
 *
 * @param problems why it cannot be read, empty when it can
 * @param notes how its files were understood
 * @param settings what the page asks, or null when the job has its own file
 * @param map of its placements, or null
 */
public record JobView(
    String id,
    String name,
    String facts,
    List<String> problems,
    List<String> notes,
    @Nullable JobSettings settings,
    @Nullable MapView map,
    List<ArticleLine> articles) {
  public JobView {
    problems = List.copyOf(problems);
    notes = List.copyOf(notes);
    articles = List.copyOf(articles);
  }
}
