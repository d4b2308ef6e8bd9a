package org.padtrue.plan.model;

import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.padtrue.panel.Factor;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * What a measuring plan assumes and what it shall reach.
 *
 * <p>The spreads are assumptions, not results: scatter from the log or from experience, the spread
 * of offsets as common practice has it. They decide how much a reading is worth, so the plan
 * repeats them in its text.
 *
 * @param scatterMm random scatter of one placement per axis, standard deviation, mm, positive
 * @param scatterRotationDeg the same for rotation, degrees, positive
 * @param offsetSdMm spread of the offsets of each factor's levels per axis, mm, positive
 * @param offsetSdRotationDeg spread of rotation offsets of any factor, degrees, positive
 * @param count placements to measure; empty: found from {@code withinMm}, or as many as are enough
 *     to decide by
 * @param withinMm wanted standard error of every trim, mm; empty when none is wanted
 * @param scatterMmByType scatter of part types that scatter otherwise, mm, positive
 * @param scatterDegByType the same for rotation, degrees, positive
 */
public record MeasuringPlanOptions(
    double scatterMm,
    double scatterRotationDeg,
    Map<Factor, Double> offsetSdMm,
    double offsetSdRotationDeg,
    OptionalInt count,
    OptionalDouble withinMm,
    Map<String, Double> scatterMmByType,
    Map<String, Double> scatterDegByType) {

  public MeasuringPlanOptions {
    positive(scatterMm, "scatter", "mm");
    positive(scatterRotationDeg, "rotation scatter", "degrees");
    offsetSdMm = Map.copyOf(offsetSdMm);
    offsetSdMm.forEach((f, v) -> positive(v, "spread of " + f.nouns(), "mm"));
    positive(offsetSdRotationDeg, "spread of rotation offsets", "degrees");
    scatterMmByType = Map.copyOf(scatterMmByType);
    scatterDegByType = Map.copyOf(scatterDegByType);
    scatterMmByType.forEach((k, v) -> positive(v, "scatter of part type " + k, "mm"));
    scatterDegByType.forEach(
        (k, v) -> positive(v, "rotation scatter of part type " + k, "degrees"));
    if (count.isPresent() && count.getAsInt() < 1) {
      throw new InputException(
          Problem.of(
              "",
              "the number of placements to measure is " + count.getAsInt(),
              "give a whole number of 1 or more"));
    }
    if (withinMm.isPresent()) {
      positive(withinMm.getAsDouble(), "wanted uncertainty", "mm");
    }
  }

  /**
   * Scatter 0.02 mm and 0.1 degrees, offsets as {@link Factor#usualSpreadMm} has them, of rotations
   * 0.1 degrees: common practice for a machine between small and production size, from memory.
   * Neither count nor wanted uncertainty.
   */
  public static MeasuringPlanOptions withDefaults() {
    return new MeasuringPlanOptions(
        0.02,
        0.1,
        Factor.carried().stream().collect(Collectors.toMap(f -> f, Factor::usualSpreadMm)),
        0.1,
        OptionalInt.empty(),
        OptionalDouble.empty(),
        Map.of(),
        Map.of());
  }

  /** Spread of the offsets of a factor's levels, mm. */
  public double spreadMm(Factor f) {
    return offsetSdMm.getOrDefault(f, f.usualSpreadMm());
  }

  /** The same with another scatter, mm. */
  public MeasuringPlanOptions withScatterMm(double mm) {
    return with(mm, scatterRotationDeg, count, withinMm, scatterMmByType, scatterDegByType);
  }

  /** The same with another scatter of rotation, degrees. */
  public MeasuringPlanOptions withScatterRotationDeg(double deg) {
    return with(scatterMm, deg, count, withinMm, scatterMmByType, scatterDegByType);
  }

  /** The same with the scatter of some part types, mm, beside that of all others. */
  public MeasuringPlanOptions withScatterMmByType(Map<String, Double> mm) {
    return with(scatterMm, scatterRotationDeg, count, withinMm, mm, scatterDegByType);
  }

  /** The same with the scatter of rotation of some part types, degrees. */
  public MeasuringPlanOptions withScatterDegByType(Map<String, Double> deg) {
    return with(scatterMm, scatterRotationDeg, count, withinMm, scatterMmByType, deg);
  }

  /** The same with a number of placements. */
  public MeasuringPlanOptions withCount(int n) {
    return with(
        scatterMm,
        scatterRotationDeg,
        OptionalInt.of(n),
        withinMm,
        scatterMmByType,
        scatterDegByType);
  }

  /** The same with a wanted standard error of every trim, mm. */
  public MeasuringPlanOptions withWithinMm(double mm) {
    return with(
        scatterMm,
        scatterRotationDeg,
        count,
        OptionalDouble.of(mm),
        scatterMmByType,
        scatterDegByType);
  }

  private MeasuringPlanOptions with(
      double mm,
      double deg,
      OptionalInt n,
      OptionalDouble within,
      Map<String, Double> mmByType,
      Map<String, Double> degByType) {
    return new MeasuringPlanOptions(
        mm, deg, offsetSdMm, offsetSdRotationDeg, n, within, mmByType, degByType);
  }

  private static void positive(double value, String what, String unit) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new InputException(
          Problem.of(
              "",
              "the " + what + " is " + value + " " + unit,
              "give a number greater than 0, in " + unit));
    }
  }
}
