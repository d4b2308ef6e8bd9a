package org.padtrue.drift.series;

import java.time.Instant;

/**
 * Something that happened to the machine at a known time, after which a step would be no surprise.
 *
 * @param at when
 * @param kind service or reel
 * @param level part type whose reel was changed, or nozzle that was changed; empty when every
 *     series may be touched
 * @param what one clause: "service", "reel of R0603 changed"
 */
public record KnownEvent(Instant at, Kind kind, String level, String what) {
  /** What kind of event. */
  public enum Kind {
    SERVICE,
    REEL
  }

  /** True when a series may show it. */
  public boolean touches(DriftSeries s) {
    return level.isEmpty()
        || level.equals(s.plusLevel())
        || level.equals(s.minusLevel())
        || s.tiedTo().endsWith(" " + level);
  }
}
