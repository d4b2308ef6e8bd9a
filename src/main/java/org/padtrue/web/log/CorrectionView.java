package org.padtrue.web.log;

import java.util.List;

/**
 * The form of a correction: what stands in the log, to be written otherwise.
 *
 * @param id number of the article to correct
 * @param machines known to the log
 * @param machine as it stands
 * @param at as it stands, in words
 * @param shift as it stands
 * @param operator as it stands
 * @param temperature degrees Celsius, empty unknown
 * @param humidity percent, empty unknown
 * @param minutes running, empty unknown
 * @param placements since service, empty unknown
 * @param note as it stands
 * @param trims one a line, name = value
 */
public record CorrectionView(
    long id,
    List<String> machines,
    String machine,
    String at,
    String shift,
    String operator,
    String temperature,
    String humidity,
    String minutes,
    String placements,
    String note,
    String trims) {
  public CorrectionView {
    machines = List.copyOf(machines);
  }
}
