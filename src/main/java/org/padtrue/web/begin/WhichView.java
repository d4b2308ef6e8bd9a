package org.padtrue.web.begin;

import java.util.List;
import org.padtrue.web.bench.ArticleLine;

/**
 * The question which panel an article is.
 *
 * @param id the article; empty where it is only about to be begun
 * @param name its name
 * @param job id of its job
 * @param kind key of what was said so far
 * @param first id of the article whose trims were entered, as said so far
 * @param others articles of the job that may be it, the newest first; empty: nothing is to be asked
 */
public record WhichView(
    String id, String name, String job, String kind, String first, List<ArticleLine> others) {
  public WhichView {
    others = List.copyOf(others);
  }
}
