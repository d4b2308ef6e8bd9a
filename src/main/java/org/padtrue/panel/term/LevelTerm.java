package org.padtrue.panel.term;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;

/**
 * An offset of a level along an axis; or how two levels of a factor differ; or a level together
 * with the level of another factor that it cannot be told from.
 *
 * @param level the level; its name is {@value #EVERY} for all levels of the factor
 * @param minus the level of the same factor that is taken off; null for none
 * @param tiedTo the level of another factor that it only ever comes with; null for none
 * @param axis what it moves
 */
public record LevelTerm(Level level, @Nullable Level minus, @Nullable Level tiedTo, OffsetAxis axis)
    implements Term {
  private static final String EVERY = "*";
  private static final String MINUS = " minus ";
  private static final String WITH = " with ";

  /** An offset of one level. */
  public static LevelTerm of(Level level, OffsetAxis axis) {
    return new LevelTerm(level, null, null, axis);
  }

  /** What all levels of a factor share. */
  public static LevelTerm every(Factor factor, OffsetAxis axis) {
    return of(new Level(factor, EVERY), axis);
  }

  /** A difference of two levels. */
  public static LevelTerm difference(Level plus, Level minus, OffsetAxis axis) {
    return new LevelTerm(plus, minus, null, axis);
  }

  /** A level that only ever comes with one level of another factor. */
  public static LevelTerm tied(Level level, Level to, OffsetAxis axis) {
    return new LevelTerm(level, null, to, axis);
  }

  /** The factor. */
  public Factor factor() {
    return level.factor();
  }

  /** True for an offset of one level alone, or of every level. */
  public boolean plain() {
    return minus == null && tiedTo == null;
  }

  /** The levels without factor and axis: "R0603", "N1 minus N2", "IC with nozzle N3". */
  public String levels() {
    return level.name()
        + (minus == null ? "" : MINUS + minus.name())
        + (tiedTo == null ? "" : WITH + tiedTo);
  }

  /** "part R0603 x", "part * x", "nozzle N1 minus N2 x", "part IC with nozzle N3 x". */
  @Override
  public String series() {
    return factor().key() + " " + levels() + " " + axis.key();
  }

  @Override
  public String unit() {
    return axis.unit();
  }

  /** One level, or every; a turn for part types only. */
  @Override
  public boolean trimmed() {
    return plain() && (axis != OffsetAxis.TURN || factor().turns());
  }

  /** How much of a correction of this term shows in another: 1, -1 or 0. */
  public int share(LevelTerm of) {
    if (axis != of.axis || axis == OffsetAxis.TURN) {
      return 0;
    }
    return sees(of.level)
        - (of.minus == null ? 0 : sees(of.minus))
        + (of.tiedTo == null ? 0 : sees(of.tiedTo));
  }

  private int sees(Level other) {
    boolean all = level.name().equals(EVERY);
    return factor() == other.factor() && (all || level.name().equals(other.name())) ? 1 : 0;
  }

  /** The term of a name in the log. */
  public static Optional<LevelTerm> parse(String series) {
    int first = series.indexOf(' ');
    int last = series.lastIndexOf(' ');
    Factor f = first < 0 ? null : Factor.parse(series.substring(0, first)).orElse(null);
    OffsetAxis axis = OffsetAxis.parse(series.substring(last + 1)).orElse(null);
    if (f == null || axis == null || last <= first + 1) {
      return Optional.empty();
    }
    String levels = series.substring(first + 1, last);
    int minus = levels.indexOf(MINUS);
    if (minus >= 0) {
      return Optional.of(
          difference(
              new Level(f, levels.substring(0, minus)),
              new Level(f, levels.substring(minus + MINUS.length())),
              axis));
    }
    int with = levels.indexOf(WITH);
    Optional<Level> to =
        with < 0 ? Optional.empty() : Level.parse(levels.substring(with + WITH.length()));
    return Optional.of(
        to.isPresent()
            ? tied(new Level(f, levels.substring(0, with)), to.get(), axis)
            : of(new Level(f, levels), axis));
  }
}
