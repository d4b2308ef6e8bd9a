package org.padtrue.load.ipc2581;

import org.padtrue.quantity.Angles;

/**
 * How a file means the rotation of a mirrored part, told by where the pads of such parts lie.
 *
 * <p>Writers differ in whether they mirror before or after turning, and about which axis. Each way
 * puts the pins somewhere else (unless the part stands at a multiple of 180 degrees), so that pads
 * that name part and pin settle it. Where no pad does, parts are turned first: so the pads of the
 * consortium's test case 3, revision C, show it.
 */
final class MirrorVotes {
  private static final double SAME_MM = 0.05;
  private static final double ROUNDING_MM = 2e-4;

  /** Ways, the default first. */
  enum Way {
    TURN_FIRST("turned, then mirrored about the y axis"),
    MIRROR_FIRST("mirrored about the y axis, then turned"),
    MIRROR_X_FIRST("mirrored about the x axis, then turned"),
    TURN_FIRST_X("turned, then mirrored about the x axis");

    private final String words;

    Way(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }

    /** The turn that does the same to a part first mirrored about the y axis. */
    double turn(double turn) {
      return switch (this) {
        case MIRROR_FIRST -> Angles.wrap(turn);
        case TURN_FIRST -> Angles.wrap(-turn);
        case MIRROR_X_FIRST -> Angles.wrap(turn + 180);
        case TURN_FIRST_X -> Angles.wrap(180 - turn);
      };
    }
  }

  private final int[] hits = new int[Way.values().length];
  private int seen;

  /**
   * A pad of a mirrored part: its place relative to the part, and that of the pin in the package.
   */
  void see(double padX, double padY, double pinX, double pinY, double turn) {
    if (Math.hypot(pinX, pinY) < 2 * SAME_MM) {
      return;
    }
    seen++;
    for (Way w : Way.values()) {
      double t = w.turn(turn);
      double c = Angles.cosDeg(t);
      double s = Angles.sinDeg(t);
      double x = c * -pinX - s * pinY;
      double y = s * -pinX + c * pinY;
      // a pin that stands at the limit exactly is not lost to the file's last digit
      if (Math.hypot(x - padX, y - padY) <= SAME_MM + ROUNDING_MM) {
        hits[w.ordinal()]++;
      }
    }
  }

  Way best() {
    Way best = Way.TURN_FIRST;
    for (Way w : Way.values()) {
      if (hits[w.ordinal()] > hits[best.ordinal()]) {
        best = w;
      }
    }
    return best;
  }

  int seen() {
    return seen;
  }

  int hits(Way w) {
    return hits[w.ordinal()];
  }
}
