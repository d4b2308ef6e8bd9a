package org.padtrue.history;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.padtrue.panel.Level;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;
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
 * @param increment value ADDED to what the machine had, in {@code unit}, at most 15 digits
 * @param scope how far it reaches
 * @param sourceHash hash of the sheet it was read from; the same sheet is refused twice on a
 *     machine; empty when there is none
 */
public record LoggedTrim(
    String name, String unit, double increment, Scope scope, String sourceHash) {
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

  /** Beyond this a rotation of a part type holds a turn. */
  private static final double REST_DEG = 45;

  /** True for a whole turn of a part type's library. */
  public boolean turn() {
    return on(OffsetAxis.TURN);
  }

  /**
   * Turn and rest apart. Earlier versions logged them in one rotation (-89.89), and so may a person
   * who types it.
   *
   * @return this trim; or a turn of 90, 180 or 270 degrees and what is left beside it, without what
   *     is 0
   */
  public List<LoggedTrim> apart() {
    boolean together = on(OffsetAxis.ROTATION) && Math.abs(increment) > REST_DEG;
    if (!together && !turn()) {
      return List.of(this);
    }
    int turn = Angles.quadrant(increment);
    Level level = LevelTerm.parse(name).orElseThrow().level();
    List<LoggedTrim> parts = new ArrayList<>();
    if (turn != 0) {
      parts.add(
          new LoggedTrim(
              LevelTerm.of(level, OffsetAxis.TURN).series(), unit, turn, scope, sourceHash));
    }
    // what is finer than a billionth of a degree is arithmetic
    double rest = turn() ? 0 : Math.rint(1e9 * Angles.wrap(increment - turn)) / 1e9;
    if (rest != 0) {
      parts.add(
          new LoggedTrim(
              LevelTerm.of(level, OffsetAxis.ROTATION).series(), unit, rest, scope, sourceHash));
    }
    return List.copyOf(parts);
  }

  /** Shift and rotation belong to the job's registration, everything else to the machine. */
  public static Scope usualScope(String name) {
    return FixedTerm.isRegistration(name) ? Scope.JOB : Scope.MACHINE;
  }

  /**
   * How much of it shows in a series: 1; -1 where a difference takes its level off; 0 not at all.
   */
  int share(String series) {
    Optional<LevelTerm> mine = LevelTerm.parse(name);
    Optional<LevelTerm> other = LevelTerm.parse(series);
    return mine.isPresent() && other.isPresent()
        ? mine.get().share(other.get())
        : name.equals(series) ? 1 : 0;
  }

  /** True for a correction of a part type along an axis. */
  private boolean on(OffsetAxis axis) {
    return LevelTerm.parse(name).filter(t -> t.factor().turns() && t.axis() == axis).isPresent();
  }
}
