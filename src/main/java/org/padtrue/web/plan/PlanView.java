package org.padtrue.web.plan;

import java.util.List;
import org.padtrue.web.bench.ArticleLine;

/**
 * A measuring plan.
 *
 * @param job id of the job
 * @param jobName its name
 * @param asked what was asked
 * @param query the same as a part of an address
 * @param sources where the scatter may come from
 * @param problems why there is no plan, one sentence each
 * @param summary what is measured and how well trims are then known
 * @param undecided what cannot be decided, one sentence each
 * @param assumed what it reckons with
 * @param terms those that need to be largest to be found first
 * @param rotations how well rotations are known; empty when not
 * @param lines what to measure on each panel, in walking order
 * @param panels number of panels
 * @param articles of the job
 */
public record PlanView(
    String job,
    String jobName,
    Asked asked,
    String query,
    List<Source> sources,
    List<String> problems,
    List<String> summary,
    List<String> undecided,
    List<String> assumed,
    List<Term> terms,
    String rotations,
    List<Line> lines,
    int panels,
    List<ArticleLine> articles) {
  public PlanView {
    sources = List.copyOf(sources);
    problems = List.copyOf(problems);
    summary = List.copyOf(summary);
    undecided = List.copyOf(undecided);
    assumed = List.copyOf(assumed);
    terms = List.copyOf(terms);
    lines = List.copyOf(lines);
    articles = List.copyOf(articles);
  }

  /** What was typed. */
  public record Asked(
      String count,
      String within,
      String scatter,
      String rotationScatter,
      String earlier,
      String panels) {}

  /** Where the scatter may come from. */
  public record Source(String key, String name) {}

  /** How well one trim will be known. */
  public record Term(
      String name, String foundFrom, String known, String everything, String own, String chosen) {}

  /** One placement to measure; positions in mm, rotation in degrees. */
  public record Line(
      int order, String board, String ref, String part, String x, String y, String rotation) {}
}
