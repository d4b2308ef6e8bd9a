package org.padtrue.load.article;

import java.util.Map;

/**
 * What is known of one old article beside what was measured.
 *
 * @param file name of the article's file
 * @param line line of the table
 * @param at when it was placed, as written; empty unknown
 * @param machine empty when not said
 * @param shift empty when not said
 * @param operator empty when not said
 * @param note empty when not said
 * @param temperatureC degrees Celsius; NaN unknown
 * @param humidityPercent relative humidity; NaN unknown
 * @param minutesRunning minutes since the machine was started; NaN unknown
 * @param placementsSinceService number of placements since service; NaN unknown
 * @param trims values that were added before it, by series name
 */
public record ArticleConditions(
    String file,
    int line,
    String at,
    String machine,
    String shift,
    String operator,
    String note,
    double temperatureC,
    double humidityPercent,
    double minutesRunning,
    double placementsSinceService,
    Map<String, Double> trims) {
  public ArticleConditions {
    trims = Map.copyOf(trims);
  }
}
