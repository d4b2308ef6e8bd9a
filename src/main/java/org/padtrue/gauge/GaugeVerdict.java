package org.padtrue.gauge;

/**
 * Whether the measuring is good enough to decide by. The gauge's share below 10 %: acceptable; to
 * 30 %: conditionally acceptable; above: not acceptable (AIAG, Measurement Systems Analysis). The
 * share is of the tolerance where there is one, else of the study variation. The words used in
 * files are fit, conditional and unfit.
 */
public enum GaugeVerdict {
  FIT("fit", "acceptable"),
  CONDITIONAL("conditional", "conditionally acceptable"),
  UNFIT("unfit", "not acceptable"),
  /** No tolerance, and no variation between placements to compare with. */
  NOT_JUDGED("notJudged", "not judged");

  private static final double FIT_BELOW = 0.10;
  private static final double UNFIT_ABOVE = 0.30;

  private final String key;
  private final String words;

  GaugeVerdict(String key, String words) {
    this.key = key;
    this.words = words;
  }

  /** The word people read, of the measurement system (AIAG, Measurement Systems Analysis). */
  public String words() {
    return words;
  }

  /** The word used in files. */
  public String key() {
    return key;
  }

  /**
   * The verdict on a share.
   *
   * @param share the gauge's share, 1 = all of it; NaN when there is nothing to compare with
   */
  public static GaugeVerdict of(double share) {
    if (Double.isNaN(share)) {
      return NOT_JUDGED;
    }
    if (share < FIT_BELOW) {
      return FIT;
    }
    return share <= UNFIT_ABOVE ? CONDITIONAL : UNFIT;
  }
}
