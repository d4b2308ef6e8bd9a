package org.padtrue.panel;

import java.util.Locale;
import java.util.Optional;

/** Corrections that a machine may accept. */
public enum TrimKind {
  REGISTRATION("registration"),
  ROTATION("rotation"),
  SCALE("scale"),
  ARRAY("array"),
  COMMON("common"),
  ROTATION_ZERO("rotationZero"),
  PART("part"),
  NOZZLE("nozzle"),
  FEEDER("feeder"),
  HEAD("head"),
  LOT("lot"),
  PLACEMENT("placement");

  private final String key;

  TrimKind(String key) {
    this.key = key;
  }

  /** The word used in job files. */
  public String key() {
    return key;
  }

  /** The kind with a key. */
  public static Optional<TrimKind> parse(String text) {
    for (TrimKind k : values()) {
      if (k.key.equals(text) || k.key.toLowerCase(Locale.ROOT).equals(text)) {
        return Optional.of(k);
      }
    }
    return Optional.empty();
  }
}
