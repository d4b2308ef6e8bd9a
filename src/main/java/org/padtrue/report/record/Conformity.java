package org.padtrue.report.record;

/** What a decision rule says of a result. */
public enum Conformity {
  /** Within its limits; with the guarded rule, by more than the expanded uncertainty. */
  WITHIN("within", "within"),
  /** Guarded rule: within its limits, but by less than the expanded uncertainty. */
  CONDITIONALLY_WITHIN("conditionallyWithin", "within?"),
  /** Guarded rule: outside its limits, but by less than the expanded uncertainty. */
  CONDITIONALLY_OUTSIDE("conditionallyOutside", "OUT?"),
  /** Outside its limits. */
  OUTSIDE("outside", "OUT"),
  /** Looks like a transcription error and says nothing of the part: measure again. */
  SLIP("slip", "transcr. error"),
  /** Not measured. */
  NOT_MEASURED("notMeasured", "not measured"),
  /** Limited by the land fit of the placement, which is a characteristic of its own. */
  BY_LAND_FIT("byLandFit", "by land fit"),
  /** Nothing limits it. */
  NO_LIMIT("noLimit", "no limit");

  private final String key;
  private final String words;

  Conformity(String key, String words) {
    this.key = key;
    this.words = words;
  }

  /** Its name in files. */
  public String key() {
    return key;
  }

  /** Its flag in the table. */
  public String words() {
    return words;
  }

  /** True when somebody has to do something about it. */
  public boolean open() {
    return this != WITHIN && this != BY_LAND_FIT && this != NO_LIMIT;
  }
}
