package org.padtrue.panel;

import java.util.Locale;
import java.util.Optional;

/** The frame in which an offset acts: what the offset does when the placement is turned. */
public enum OffsetFrame {
  /** Turns with the part. */
  PART,
  /** Stays with the panel, whatever the rotation of the placement. */
  PANEL;

  /** As in files: part or panel. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** In words: "turns with the part", "stays with the panel". */
  public String words() {
    return this == PART ? "turns with the part" : "stays with the panel";
  }

  /** The frame of a key. */
  public static Optional<OffsetFrame> parse(String key) {
    for (OffsetFrame f : values()) {
      if (f.key().equals(key)) {
        return Optional.of(f);
      }
    }
    return Optional.empty();
  }
}
