package org.padtrue.panel.term;

import java.util.Optional;

/** A number that can be estimated, decided, checked and followed in the log. */
public sealed interface Term permits FixedTerm, LevelTerm {
  /** As in the log: shiftX, scaleXPpm, "part R0603 x". */
  String series();

  /** mm, deg, ppm or mrad. */
  String unit();

  /** True when a correction can move it. */
  boolean trimmed();

  /** The term of a name in the log; empty when it is none. */
  static Optional<Term> parse(String series) {
    Optional<Term> fixed = FixedTerm.parse(series).map(t -> t);
    return fixed.isPresent() ? fixed : LevelTerm.parse(series).map(t -> t);
  }
}
