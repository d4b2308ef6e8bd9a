package org.padtrue.report.record;

/**
 * How a result is held against its limits, as ILAC-G8:09/2019 defines it (terms as in JCGM
 * 106:2012). To be agreed before measuring.
 */
public enum DecisionRule {
  /** Simple acceptance, section 4.2.1: the acceptance limit is the tolerance limit. */
  SIMPLE(
      "simple",
      "Simple acceptance (ILAC-G8:09/2019, 4.2.1): a result within its limits is accepted; one near"
          + " a limit is wrong with a probability of up to 50 %."),
  /** Non-binary with a guard band as wide as the expanded uncertainty, section 4.2.3. */
  GUARDED(
      "guarded",
      "Guard band as wide as the expanded uncertainty, four answers (ILAC-G8:09/2019, 4.2.3):"
          + " 'within' and 'OUT' by more than it, 'within?' and 'OUT?' by less.");

  private final String key;
  private final String sentence;

  DecisionRule(String key, String sentence) {
    this.key = key;
    this.sentence = sentence;
  }

  /** Its name in files and options. */
  public String key() {
    return key;
  }

  /** The rule in words. */
  public String sentence() {
    return sentence;
  }

  /**
   * Decides.
   *
   * @param distance to the nearest limit, negative outside; infinite without a limit
   * @param expanded expanded uncertainty, NaN unknown
   */
  Conformity decide(double distance, double expanded) {
    if (distance == Double.POSITIVE_INFINITY) {
      return Conformity.NO_LIMIT;
    }
    if (this == GUARDED && Math.abs(distance) < expanded) {
      return distance < 0 ? Conformity.CONDITIONALLY_OUTSIDE : Conformity.CONDITIONALLY_WITHIN;
    }
    return distance < 0 ? Conformity.OUTSIDE : Conformity.WITHIN;
  }
}
