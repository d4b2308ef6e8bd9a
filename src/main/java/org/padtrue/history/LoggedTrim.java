package org.padtrue.history;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.padtrue.quantity.Angles;

/**
 * A correction entered into the machine before the article with which it is logged: an increment,
 * in force for that article and all later ones.
 *
 * <p>A whole turn of a part type's library (90, 180, 270) is a quantity of its own, "part SOT23
 * turn": it moves no series, as rotations are logged from the zero that the type shows.
 *
 * @param name name of the series that it moves; "part * x" moves all types
 * @param unit unit of that series
 * @param increment value ADDED to what the machine had, at most 15 digits
 * @param scope how far it reaches
 * @param sourceHash hash of the sheet it was read from; the same sheet is refused twice on a
 *     machine; empty when there is none
 */
public record LoggedTrim(
    String name, String unit, double increment, Scope scope, String sourceHash) {
  // Stands between the two levels of a difference: "nozzle N1 minus N2 x".
  private static final String DIFFERENCE = " minus ";

  // Before the level that a level cannot be told from: "part IC with nozzle N3 x".
  private static final String TIED = " with ";

  /** Digits that a sum of decimals may carry; a double has a little more. */
  private static final MathContext DIGITS = new MathContext(15);

  /** How far a trim reaches. */
  public enum Scope {
    /** Only the job of the article: its registration. */
    JOB,
    /** Every job on the machine: axes, types, nozzles. */
    MACHINE
  }

  public LoggedTrim {
    if (!Double.isFinite(increment)) {
      throw new IllegalArgumentException(name + " = " + increment + "; expected a finite value");
    }
    // 0.1 + 0.2 made by a program is typed as 0.3
    increment = new BigDecimal(increment).round(DIGITS).doubleValue();
  }

  private static final String LEVEL = "part ";
  private static final String ROTATION = " rotation";
  private static final String TURN = " turn";

  /** Beyond this a rotation of a part type holds a turn. */
  private static final double REST_DEG = 45;

  /** True for a whole turn of a part type's library. */
  public boolean turn() {
    return name.startsWith(LEVEL) && name.endsWith(TURN);
  }

  /**
   * Turn and rest apart. Earlier versions logged them in one rotation (-89.89), and so may a person
   * who types it.
   *
   * @return this trim; or a turn of 90, 180 or 270 degrees and what is left beside it, without what
   *     is 0
   */
  public List<LoggedTrim> apart() {
    boolean together =
        name.startsWith(LEVEL) && name.endsWith(ROTATION) && Math.abs(increment) > REST_DEG;
    if (!together && !turn()) {
      return List.of(this);
    }
    int turn = Angles.quadrant(increment);
    String level = name.substring(0, name.lastIndexOf(' '));
    List<LoggedTrim> parts = new ArrayList<>();
    if (turn != 0) {
      parts.add(new LoggedTrim(level + TURN, unit, turn, scope, sourceHash));
    }
    // what is finer than a billionth of a degree is arithmetic
    double rest = turn() ? 0 : Math.rint(1e9 * Angles.wrap(increment - turn)) / 1e9;
    if (rest != 0) {
      parts.add(new LoggedTrim(level + ROTATION, unit, rest, scope, sourceHash));
    }
    return List.copyOf(parts);
  }

  /** Shift and rotation belong to the job's registration, everything else to the machine. */
  public static Scope usualScope(String name) {
    return name.equals("shiftX") || name.equals("shiftY") || name.equals("rotation")
        ? Scope.JOB
        : Scope.MACHINE;
  }

  /**
   * How much of it shows in a series: 1; -1 where a difference takes its level off; 0 not at all.
   */
  int share(String series) {
    int factor = series.indexOf(' ');
    int axis = series.lastIndexOf(' ');
    int minus = series.indexOf(DIFFERENCE);
    if (minus > factor && axis > minus + DIFFERENCE.length()) {
      String second =
          series.substring(0, factor + 1) + series.substring(minus + DIFFERENCE.length());
      return sees(series.substring(0, minus) + series.substring(axis)) - sees(second);
    }
    int with = series.indexOf(TIED);
    if (with > factor && axis > with + TIED.length()) {
      return sees(series.substring(0, with) + series.substring(axis))
          + sees(series.substring(with + TIED.length()));
    }
    return sees(series);
  }

  private int sees(String series) {
    return moves(series) ? 1 : 0;
  }

  private boolean moves(String series) {
    if (turn()) {
      return false;
    }
    int star = name.indexOf(" * ");
    return star < 0
        ? name.equals(series)
        : series.startsWith(name.substring(0, star + 1))
            && series.endsWith(name.substring(star + 2));
  }
}
