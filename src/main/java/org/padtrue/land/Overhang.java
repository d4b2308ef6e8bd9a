package org.padtrue.land;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * How far one termination reaches beyond its land when the part sits at a deviation.
 *
 * <p>The part is turned about its origin and then shifted; the termination turns with it, the land
 * stays. An overhang is the largest distance by which a corner of the turned termination lies
 * beyond the (prolonged) edge of the land; it is exact, and negative while land is left over. Which
 * edge is the end and which are the sides: the end points away from the middle of the part, for two
 * terminations along the axis in which they lie apart, for leads along the lead (see {@code
 * EndAxis} for parts with several rows). A ball or a land under the middle of the part has sides
 * only.
 *
 * @param termination index of the termination in the part type, from 0
 * @param sideMm overhang over the worse side, mm; negative = land left over
 * @param endMm overhang over the end (toe), mm; NaN where there is no end
 * @param overlapMm length of termination over land along the end axis, mm; negative when it is off
 *     the land; NaN where there is no end
 * @param offsetMm distance between the centres of termination and land, mm (what balls are judged
 *     by)
 */
public record Overhang(
    int termination, double sideMm, double endMm, double overlapMm, double offsetMm) {

  /**
   * Overhang of every termination.
   *
   * @param part part type with one land for each termination
   * @param dxMm deviation along the part's own x, mm
   * @param dyMm deviation along the part's own y, mm
   * @param drotationDeg deviation in rotation, degrees, counter-clockwise positive
   * @return one entry per termination, in their order; empty without geometry
   */
  public static List<Overhang> of(PartType part, double dxMm, double dyMm, double drotationDeg) {
    if (part.terminations().isEmpty() || part.lands().isEmpty()) {
      return List.of();
    }
    checkPairs(part);
    List<EndAxis> ends = EndAxis.of(part);
    double c = Angles.cosDeg(drotationDeg);
    double s = Angles.sinDeg(drotationDeg);
    boolean round = part.kind() == JointKind.BALL;
    List<Overhang> out = new ArrayList<>(ends.size());
    for (int i = 0; i < ends.size(); i++) {
      Rect t = part.terminations().get(i);
      Rect land = part.lands().get(i);
      double x = c * t.xMm() - s * t.yMm() + dxMm - land.xMm();
      double y = s * t.xMm() + c * t.yMm() + dyMm - land.yMm();
      // A ball looks the same however it is turned.
      double reachX = reach(t, round ? 1 : c, round ? 0 : s);
      double reachY = reach(t, round ? 0 : s, round ? 1 : c);
      out.add(one(i, ends.get(i), x, y, reachX, reachY, land));
    }
    return List.copyOf(out);
  }

  private static double reach(Rect t, double alongLength, double alongWidth) {
    return t.lengthMm() / 2 * Math.abs(alongLength) + t.widthMm() / 2 * Math.abs(alongWidth);
  }

  private static Overhang one(
      int i, EndAxis end, double x, double y, double reachX, double reachY, Rect land) {
    double overX = Math.abs(x) + reachX - land.lengthMm() / 2;
    double overY = Math.abs(y) + reachY - land.widthMm() / 2;
    double offset = Math.hypot(x, y);
    if (end == EndAxis.NONE) {
      return new Overhang(i, Math.max(overX, overY), Double.NaN, Double.NaN, offset);
    }
    double out = end.x * x + end.y * y;
    double reach = end.x != 0 ? reachX : reachY;
    double half = (end.x != 0 ? land.lengthMm() : land.widthMm()) / 2;
    double overlap = Math.min(out + reach, half) - Math.max(out - reach, -half);
    return new Overhang(i, end.x != 0 ? overY : overX, out + reach - half, overlap, offset);
  }

  static void checkPairs(PartType part) {
    if (part.terminations().size() != part.lands().size()) {
      throw new IllegalArgumentException(
          "part type '"
              + part.name()
              + "' has "
              + part.terminations().size()
              + " terminations and "
              + part.lands().size()
              + " lands; expected one land for each termination");
    }
  }
}
