package org.padtrue.imaging.camera;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.DeviceBend;

/**
 * What turned pictures of one panel say about the device that took them.
 *
 * @param bend the device's error as far as it can be known; terms that cannot are 0
 * @param terms every term with its value and uncertainty, or the word that it is not known
 * @param deviceMm largest error of the known part over the panel, mm
 * @param residualMm root mean square of what is left, per coordinate, mm
 * @param notes what was separated and what cannot be known, one sentence each
 */
public record ReversalResult(
    @Nullable DeviceBend bend,
    List<Term> terms,
    double deviceMm,
    double residualMm,
    List<String> notes) {

  public ReversalResult {
    terms = List.copyOf(terms);
    notes = List.copyOf(notes);
  }

  /**
   * One term of the device's error.
   *
   * @param name axis and powers, e.g. "x: xx"; combinations such as "scale difference"
   * @param valueMm error at the scale length, mm; NaN when not known
   * @param uMm standard uncertainty, mm; NaN when not known
   */
  public record Term(String name, double valueMm, double uMm) {}
}
