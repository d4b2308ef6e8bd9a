package org.padtrue.log;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.panel.term.Term;

/** Names of series and their units. */
public final class SeriesNames {
  /** Series of the panel and of the machine as a whole, in the order of reports. */
  public static final List<String> PANEL =
      Arrays.stream(FixedTerm.values()).map(FixedTerm::series).toList();

  /** Series that are shown whatever they do. */
  public static final List<String> ALWAYS_SHOWN =
      List.of(
          FixedTerm.SCALE_X.series(),
          FixedTerm.SCALE_Y.series(),
          FixedTerm.SHIFT_X.series(),
          FixedTerm.SHIFT_Y.series());

  private SeriesNames() {}

  /**
   * Unit of a series that a trim can move: mm, deg, ppm or mrad.
   *
   * @param name shiftX, scaleXPpm, "part R0603 x", "part * x" for all levels, or "part R0603 turn"
   *     for a whole turn of its library
   * @return empty when no trim has this name
   */
  public static Optional<String> trimUnit(String name) {
    return Term.parse(name).filter(Term::trimmed).map(Term::unit);
  }

  /**
   * Why a value cannot be a trim of this name.
   *
   * @return one clause; empty when it can
   */
  public static Optional<String> wrong(String name, double value) {
    boolean turn = LevelTerm.parse(name).filter(t -> t.axis() == OffsetAxis.TURN).isPresent();
    return turn && !(value % 90 == 0 && value % 360 != 0)
        ? Optional.of("a turn is 90, 180 or 270 degrees")
        : Optional.empty();
  }
}
