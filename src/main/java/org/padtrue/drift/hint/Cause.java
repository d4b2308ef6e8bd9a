package org.padtrue.drift.hint;

/** Likely causes that a hint may name. */
public enum Cause {
  BELT_STRETCH("beltStretch"),
  TEMPERATURE("temperature"),
  WARM_UP("warmUp"),
  NOZZLE("nozzle"),
  PART_TYPE("partType"),
  SERVICE("service"),
  REGISTRATION("registration"),
  UNKNOWN("unknown");

  private final String key;

  Cause(String key) {
    this.key = key;
  }

  /** The word used in files. */
  public String key() {
    return key;
  }
}
