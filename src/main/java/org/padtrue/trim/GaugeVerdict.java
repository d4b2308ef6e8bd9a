package org.padtrue.trim;

/**
 * Whether the measuring is good enough to decide by. The gauge's share below 10 %: fit; to 30 %:
 * conditional; above: unfit (AIAG, Measurement Systems Analysis). The share is of the tolerance
 * where there is one, else of the study variation.
 */
public enum GaugeVerdict {
  FIT("fit"),
  CONDITIONAL("conditional"),
  UNFIT("unfit"),
  /** No tolerance, and no variation between placements to compare with. */
  NOT_JUDGED("notJudged");

  private static final double FIT_BELOW = 0.10;
  private static final double UNFIT_ABOVE = 0.30;

  private final String key;

  GaugeVerdict(String key) {
    this.key = key;
  }

  /** The word used in files. */
  public String key() {
    return key;
  }

  /**
   * @param share the gauge's share, 1 = all of it; NaN when there is nothing to compare with
   */
  static GaugeVerdict of(double share) {
    if (Double.isNaN(share)) {
      return NOT_JUDGED;
    }
    if (share < FIT_BELOW) {
      return FIT;
    }
    return share <= UNFIT_ABOVE ? CONDITIONAL : UNFIT;
  }
}
