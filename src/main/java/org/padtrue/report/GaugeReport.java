package org.padtrue.report;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.next.TightestTolerance;
import org.padtrue.gauge.GaugeReading;
import org.padtrue.gauge.GaugeStudy;
import org.padtrue.load.article.GaugeRepeats;
import org.padtrue.panel.Job;

/** A gauge study against the tightest tolerance of a job. */
public final class GaugeReport {
  private GaugeReport() {}

  /**
   * Evaluates repeated readings.
   *
   * @param file the readings
   * @param job whose tightest tolerance is to be decided on, or null
   * @throws org.padtrue.problem.InputException when the readings do not make a study
   */
  public static GaugeStudy study(GaugeRepeats file, @Nullable Job job) {
    TightestTolerance tightest = job == null ? null : TightestTolerance.of(job);
    return GaugeStudy.of(
        file.file(),
        readings(file),
        tightest == null ? null : tightest.tolerance(),
        tightest == null ? Map.of() : tightest.parts());
  }

  private static List<GaugeReading> readings(GaugeRepeats file) {
    return file.readings().stream()
        .map(
            r ->
                new GaugeReading(
                    r.id(),
                    r.operator(),
                    r.trial(),
                    r.turned(),
                    r.dxMm(),
                    r.dyMm(),
                    r.dRotationDeg(),
                    r.line()))
        .toList();
  }
}
