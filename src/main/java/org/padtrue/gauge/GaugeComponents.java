package org.padtrue.gauge;

/**
 * Standard deviations of what a reading is made of, in the unit of its axis.
 *
 * @param repeatability one person, one placement, again; registering anew included
 * @param registration of the repeatability, what all readings of one session share because the
 *     panel was registered anew; 0 when it does not stand out from chance
 * @param reproducibility between persons
 * @param interaction between persons, differently for different placements
 * @param part between placements: the machine's scatter and offsets, which the study is not about
 */
public record GaugeComponents(
    double repeatability,
    double registration,
    double reproducibility,
    double interaction,
    double part) {

  /** The gauge: repeatability, reproducibility and interaction together. */
  public double gauge() {
    return Math.sqrt(
        repeatability * repeatability
            + reproducibility * reproducibility
            + interaction * interaction);
  }

  /** Gauge and part together. */
  public double total() {
    return Math.hypot(gauge(), part);
  }
}
