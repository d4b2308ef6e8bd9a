package org.padtrue.land;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * What of a part is farthest beyond its limit on the lands, for people; {@link LandFit} judges, and
 * this names the termination behind a negative margin.
 *
 * @param termination its number in the part type, from 1; 0 the whole part is turned away
 * @param terminations how many there are
 * @param what which limit it is beyond
 * @param value mm; degrees where the part is turned away
 * @param allowed the limit, in the same unit
 */
public record Excess(int termination, int terminations, What what, double value, double allowed) {
  /** A limit on a land. */
  public enum What {
    /** Beyond the side of its land. */
    SIDE,
    /** Beyond the end of its land. */
    END,
    /** Not over its land any more; the value is the gap. */
    OFF,
    /** A ball's centre away from the middle of its land. */
    CENTRE,
    /** Turned so far that sides and ends have changed places. */
    TURN
  }

  private static final double MOST_TURN_DEG = 45;

  /**
   * What is farthest beyond its limit.
   *
   * @param part part type
   * @param limits limits to hold it against
   * @param acceptanceClass 1, 2 or 3
   * @param dxMm deviation along the part's own x, mm
   * @param dyMm deviation along the part's own y, mm
   * @param drotationDeg deviation in rotation, degrees; NaN = not measured, taken as square
   * @return empty when nothing is, or without lands and terminations
   */
  public static Optional<Excess> of(
      PartType part,
      AcceptanceLimits limits,
      int acceptanceClass,
      double dxMm,
      double dyMm,
      double drotationDeg) {
    if (part.terminations().isEmpty() || part.lands().isEmpty()) {
      return Optional.empty();
    }
    double turn = Double.isNaN(drotationDeg) ? 0 : Angles.wrap(drotationDeg, part.symmetry());
    LimitRule rule = limits.rule(part.kind(), acceptanceClass);
    List<EndAxis> ends = EndAxis.of(part);
    int n = ends.size();
    if (part.kind() != JointKind.BALL && Math.abs(turn) > MOST_TURN_DEG) {
      return Optional.of(new Excess(0, n, What.TURN, turn, MOST_TURN_DEG));
    }
    Excess worst = null;
    double most = 0;
    for (Overhang o : Overhang.of(part, dxMm, dyMm, turn)) {
      Rect t = part.terminations().get(o.termination());
      Rect land = part.lands().get(o.termination());
      for (Excess e : all(o, n, ends.get(o.termination()), t, land, rule)) {
        double beyond = e.value - e.allowed;
        if (beyond > most) {
          most = beyond;
          worst = e;
        }
      }
    }
    return Optional.ofNullable(worst);
  }

  private static List<Excess> all(
      Overhang o, int n, EndAxis end, Rect t, Rect land, LimitRule rule) {
    int number = o.termination() + 1;
    if (rule.kind() == JointKind.BALL) {
      return List.of(new Excess(number, n, What.CENTRE, o.offsetMm(), rule.offsetLimitMm(land)));
    }
    double across =
        end.x != 0
            ? rule.sideLimitMm(t.widthMm(), land.widthMm())
            : end.y != 0
                ? rule.sideLimitMm(t.lengthMm(), land.lengthMm())
                : Math.min(
                    rule.sideLimitMm(t.widthMm(), land.widthMm()),
                    rule.sideLimitMm(t.lengthMm(), land.lengthMm()));
    Excess side = new Excess(number, n, What.SIDE, o.sideMm(), across);
    return end == EndAxis.NONE
        ? List.of(side)
        : List.of(
            side,
            new Excess(number, n, What.END, o.endMm(), rule.endOverhangMm()),
            new Excess(number, n, What.OFF, -o.overlapMm(), 0));
  }

  /** The same in words, to follow the name of a placement. */
  public String sentence() {
    String which = (what == What.CENTRE ? "ball " : "termination ") + termination + " of ";
    String mm = String.format(Locale.ROOT, "%.3f mm", value);
    String most = String.format(Locale.ROOT, "%.3f mm allowed", allowed);
    return switch (what) {
      case SIDE -> which + terminations + " overhangs the side of its land by " + mm + ", " + most;
      case END -> which + terminations + " overhangs the end of its land by " + mm + ", " + most;
      case OFF -> which + terminations + " is off its land by " + mm;
      case CENTRE ->
          which + terminations + " stands " + mm + " from the centre of its land, " + most;
      case TURN ->
          String.format(Locale.ROOT, "the part is turned by %+.1f degrees on its lands", value);
    };
  }
}
