package org.padtrue.gauge;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Tolerance;

/**
 * Is the measuring good enough to decide anything? Repeated readings of the same placements, split
 * into what the measuring does and what the placements do.
 *
 * <p>All of it is about deviations: positions differ by millimetres between placements and would
 * make any gauge look perfect.
 *
 * @param placements distinct placements
 * @param operators distinct operators
 * @param readings readings
 * @param balanced true when every operator read every placement equally often
 * @param axes x, y and, when it was read, rotation
 * @param bias bias from turning, or null when no placement was read both ways by one operator
 * @param uncertaintyMm standard uncertainty of one reading, for {@code measurement.uncertainty}:
 *     root mean square of the gauge standard deviations in x and y, mm
 * @param rotationUncertaintyDeg the same for rotation, degrees; NaN when it was not read
 * @param suspects readings that stand far off their fellows, one sentence each
 * @param notes what a reader should know, one sentence each
 */
public record GaugeStudy(
    int placements,
    int operators,
    int readings,
    boolean balanced,
    List<GaugeAxis> axes,
    @Nullable GaugeBias bias,
    double uncertaintyMm,
    double rotationUncertaintyDeg,
    List<String> suspects,
    List<String> notes) {

  public GaugeStudy {
    axes = List.copyOf(axes);
    suspects = List.copyOf(suspects);
    notes = List.copyOf(notes);
  }

  /**
   * Evaluates a study.
   *
   * @param file file name, for messages
   * @param readings the readings
   * @param tolerance the tightest tolerance that is to be decided on, along the panel's axes; null
   *     when none is known
   * @param parts part type behind the tolerance by axis (x, y, rotation)
   * @return the study
   * @throws org.padtrue.problem.InputException when the readings do not make a study
   */
  public static GaugeStudy of(
      String file,
      List<GaugeReading> readings,
      @Nullable Tolerance tolerance,
      Map<String, String> parts) {
    return new GaugeEvaluation(file, readings, tolerance, parts).study();
  }

  /** The worst verdict of any axis; axes that are not judged do not count. */
  public GaugeVerdict verdict() {
    return axes.stream()
        .map(GaugeAxis::verdict)
        .filter(v -> v != GaugeVerdict.NOT_JUDGED)
        .max(Enum::compareTo)
        .orElse(GaugeVerdict.NOT_JUDGED);
  }
}
