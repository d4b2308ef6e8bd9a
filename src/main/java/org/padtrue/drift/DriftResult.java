package org.padtrue.drift;

import java.util.List;
import org.padtrue.drift.chart.FamilyControl;
import org.padtrue.drift.hint.Hint;

/**
 * What drifts.
 *
 * @param series one entry per series, in the order given
 * @param family how false alarms are held
 * @param repeatability of registration: shiftX, shiftY, rotation, as far as the log tells
 * @param hints likely causes, the most telling first
 * @param notes what a reader should know, one sentence each
 */
public record DriftResult(
    List<SeriesDrift> series,
    FamilyControl family,
    List<ExcessSpread> repeatability,
    List<Hint> hints,
    List<String> notes) {
  public DriftResult {
    series = List.copyOf(series);
    repeatability = List.copyOf(repeatability);
    hints = List.copyOf(hints);
    notes = List.copyOf(notes);
  }
}
