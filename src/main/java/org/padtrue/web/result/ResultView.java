package org.padtrue.web.result;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.bench.RecordForm;

/**
 * What an article shows: what to change, what to expect of it, where everything sits.
 *
 * @param id article
 * @param name its name
 * @param job id of its job
 * @param jobName its name
 * @param problems why there is no result, empty when there is one
 * @param file name of the file of measurements, empty when all was typed
 * @param ask key of the question that may be answered by 'it is really so'; empty when none is
 *     asked
 * @param headline the answer in one sentence
 * @param trims what to change
 * @param also what else belongs to the answer
 * @param cautions before anything is changed
 * @param signTrial how to find out which way the machine counts
 * @param figures numbers to know
 * @param rounding what the machine's resolution leaves; empty for nothing
 * @param risk placements outside, now and then
 * @param limits class and standing of the acceptance limits
 * @param measuring whether the measurement system is acceptable
 * @param map the panel with its deviations, or null
 * @param worst placements at risk, worst first
 * @param excluded what was left out and what it looks like
 * @param clearances neighbours that come near
 * @param evidence decision by decision
 * @param tests the tests behind them
 * @param notes what a reader should know
 * @param form for the log
 * @param what what is tried out
 */
public record ResultView(
    String id,
    String name,
    String job,
    String jobName,
    List<String> problems,
    String file,
    String ask,
    String headline,
    List<ResultWords.Trim> trims,
    List<String> also,
    List<String> cautions,
    String signTrial,
    List<Figure> figures,
    String rounding,
    String risk,
    String limits,
    String measuring,
    @Nullable DeviationMap map,
    List<PlaceLine> worst,
    List<ExcludedLine> excluded,
    List<ClearanceLine> clearances,
    List<Evidence> evidence,
    List<TestLine> tests,
    List<String> notes,
    RecordForm form,
    WhatIfView what) {

  /** A number with what it is. */
  public record Figure(String name, String value, String note) {}

  /** One placement against its limit. */
  public record PlaceLine(
      String key,
      String label,
      String part,
      String now,
      String margin,
      String marginAfter,
      String chance,
      String chanceAfter) {}

  /** One placement that was left out of the fit. */
  public record ExcludedLine(String key, String label, String kind, String sentence) {}

  /** Two neighbours. */
  public record ClearanceLine(
      String keyA,
      String keyB,
      String label,
      String gap,
      String gapAfter,
      String chance,
      String sentence) {}

  /** What stands behind one decision. */
  public record Evidence(String name, String decision, String estimate, String reason) {}

  /** One test. */
  public record TestLine(String name, String statistic, String p, String passes) {}
}
