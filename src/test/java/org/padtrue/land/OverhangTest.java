package org.padtrue.land;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/** Overhang against hand-worked cases and a general geometry library. */
public class OverhangTest {
  private static final double EXACT_MM = 1e-12;
  private static final GeometryFactory GEOMETRY = new GeometryFactory();

  /** Worked by hand: land half width 0.45, termination half width 0.40. */
  @Test
  void shiftedChip() {
    List<Overhang> o = Overhang.of(Parts.chip(), 0.10, -0.20, 0);
    assertThat(o.get(0).sideMm()).isCloseTo(0.20 + 0.40 - 0.45, within(EXACT_MM));
    // left outer edge -0.8 + 0.1 = -0.7, land's outer edge -1.2
    assertThat(o.get(0).endMm()).isCloseTo(-0.5, within(EXACT_MM));
    // right outer edge 0.9, land 1.2
    assertThat(o.get(1).endMm()).isCloseTo(-0.3, within(EXACT_MM));
    assertThat(o.get(0).overlapMm()).isCloseTo(0.3, within(EXACT_MM));
    assertThat(o.get(1).offsetMm()).isCloseTo(Math.hypot(0.0, 0.2), within(EXACT_MM));
  }

  /**
   * Worked by hand at 30 degrees: cos = 0.866025, sin = 0.5. The right termination's centre (0.65,
   * 0) goes to (0.562917, 0.325); it reaches 0.15 cos + 0.4 sin = 0.329904 in x, 0.15 sin + 0.4 cos
   * = 0.421410 in y. Side: 0.325 + 0.421410 - 0.45 = 0.296410; end: 0.892820 - 1.2.
   */
  @Test
  void turnedChip() {
    Overhang o = Overhang.of(Parts.chip(), 0, 0, 30).get(1);
    assertThat(o.sideMm()).isCloseTo(0.296410, within(1e-6));
    assertThat(o.endMm()).isCloseTo(-0.307180, within(1e-6));
    // the inner edge 0.233013 is left of the land's inner edge 0.3: overlap 0.892820 - 0.3
    assertThat(o.overlapMm()).isCloseTo(0.592820, within(1e-6));
  }

  @Test
  void quarterTurnedChipIsOffItsLands() {
    Overhang o = Overhang.of(Parts.chip(), 0, 0, 90).get(1);
    // centre (0, 0.65), half sides now 0.4 x 0.15: overlap 0.4 - 0.3, side 0.8 - 0.45
    assertThat(o.overlapMm()).isCloseTo(0.1, within(EXACT_MM));
    assertThat(o.sideMm()).isCloseTo(0.35, within(EXACT_MM));
  }

  /** Second route: the library turns the rectangle and boxes it. */
  @Test
  void agreesWithTheBoundingBoxOfTheTurnedPolygon() {
    Random random = new Random(20260105);
    for (int k = 0; k < 2000; k++) {
      Rect t = rect(random);
      Rect land = rect(random);
      PartType part = pair(t, land);
      double dx = random.nextGaussian() * 0.3;
      double dy = random.nextGaussian() * 0.3;
      double deg = random.nextGaussian() * 40;
      Overhang o = Overhang.of(part, dx, dy, deg).get(0);
      Envelope turned = turned(t, dx, dy, deg).getEnvelopeInternal();
      Envelope fixed = turned(land, 0, 0, 0).getEnvelopeInternal();
      double left = fixed.getMinX() - turned.getMinX();
      double top = turned.getMaxY() - fixed.getMaxY();
      double bottom = fixed.getMinY() - turned.getMinY();
      // two terminations apart in x, the first on the left: its end is to the left
      assertThat(o.endMm()).isCloseTo(left, within(1e-9));
      assertThat(o.sideMm()).isCloseTo(Math.max(top, bottom), within(1e-9));
      double overlap =
          Math.min(turned.getMaxX(), fixed.getMaxX()) - Math.max(turned.getMinX(), fixed.getMinX());
      assertThat(o.overlapMm()).isCloseTo(overlap, within(1e-9));
    }
  }

  /**
   * Independent Monte Carlo with polygon clipping: points thrown on the termination; those outside
   * the strip of land prolonged along the end axis are the side overhang. The farthest of them
   * tends to the overhang from below; and where the clip with the land leaves nothing, overlap is
   * negative or the side is all off.
   */
  @Test
  void agreesWithPointsThrownOnTheTermination() {
    Random random = new Random(7);
    PartType part = Parts.chip();
    for (int k = 0; k < 40; k++) {
      double dx = random.nextGaussian() * 0.2;
      double dy = random.nextGaussian() * 0.2;
      double deg = random.nextGaussian() * 15;
      for (int i = 0; i < 2; i++) {
        double[] seen = thrown(part, i, dx, dy, deg, random);
        Overhang o = Overhang.of(part, dx, dy, deg).get(i);
        assertThat(seen[0]).isLessThanOrEqualTo(o.sideMm() + 1e-12);
        assertThat(seen[1]).isLessThanOrEqualTo(o.endMm() + 1e-12);
        // 20,000 points: the corner is reached to a few percent of the shorter side
        assertThat(o.sideMm() - seen[0]).isLessThan(0.03);
        assertThat(o.endMm() - seen[1]).isLessThan(0.03);
        Geometry clip =
            turned(part.terminations().get(i), dx, dy, deg)
                .intersection(turned(part.lands().get(i), 0, 0, 0));
        assertThat(clip.getArea() / 0.24).isCloseTo(seen[2], within(0.015));
        if (o.sideMm() <= 0 && o.endMm() <= 0) {
          assertThat(clip.getEnvelopeInternal().getWidth())
              .isLessThanOrEqualTo(o.overlapMm() + 1e-9);
        }
      }
    }
  }

  /** Largest side and end overhang of thrown points, and the share of them on the land. */
  private static double[] thrown(
      PartType part, int i, double dx, double dy, double deg, Random random) {
    Rect t = part.terminations().get(i);
    Rect land = part.lands().get(i);
    double a = Math.toRadians(deg);
    double side = Double.NEGATIVE_INFINITY;
    double end = Double.NEGATIVE_INFINITY;
    int on = 0;
    int n = 20_000;
    for (int k = 0; k < n; k++) {
      double px = t.xMm() + (random.nextDouble() - 0.5) * t.lengthMm();
      double py = t.yMm() + (random.nextDouble() - 0.5) * t.widthMm();
      double x = px * Math.cos(a) - py * Math.sin(a) + dx - land.xMm();
      double y = px * Math.sin(a) + py * Math.cos(a) + dy - land.yMm();
      side = Math.max(side, Math.abs(y) - land.widthMm() / 2);
      end = Math.max(end, (i == 0 ? -x : x) - land.lengthMm() / 2);
      on += Math.abs(x) <= land.lengthMm() / 2 && Math.abs(y) <= land.widthMm() / 2 ? 1 : 0;
    }
    return new double[] {side, end, on / (double) n};
  }

  @Test
  void leadsOfATwoSidedPackagePointOutAlsoAtItsCorners() {
    assertThat(EndAxis.of(Parts.soic(8)))
        .containsExactly(
            EndAxis.X_MINUS,
            EndAxis.X_MINUS,
            EndAxis.X_MINUS,
            EndAxis.X_MINUS,
            EndAxis.X_PLUS,
            EndAxis.X_PLUS,
            EndAxis.X_PLUS,
            EndAxis.X_PLUS);
  }

  @Test
  void smallTransistorPointsUpAndDown() {
    // two leads below, one above; feet nearly square
    List<Rect> feet =
        List.of(
            new Rect(-0.95, -1, 0.4, 0.45),
            new Rect(0.95, -1, 0.4, 0.45),
            new Rect(0, 1, 0.4, 0.45));
    assertThat(EndAxis.of(Parts.part("SOT", JointKind.GULL_WING, 1, feet, feet, null)))
        .containsExactly(EndAxis.Y_MINUS, EndAxis.Y_MINUS, EndAxis.Y_PLUS);
  }

  @Test
  void wideTabPointsAlongItsShortSide() {
    List<Rect> feet =
        List.of(
            new Rect(-2.3, -3.1, 0.7, 1),
            new Rect(0, -3.1, 0.7, 1),
            new Rect(2.3, -3.1, 0.7, 1),
            new Rect(0, 3.1, 3.0, 1));
    assertThat(EndAxis.of(Parts.part("SOT", JointKind.GULL_WING, 1, feet, feet, null)))
        .containsExactly(EndAxis.Y_MINUS, EndAxis.Y_MINUS, EndAxis.Y_MINUS, EndAxis.Y_PLUS);
  }

  @Test
  void fourSidedNoLeadWithThermalLand() {
    List<Rect> t =
        List.of(
            new Rect(-1.8, 1.0, 0.4, 0.25),
            new Rect(-1.8, -1.0, 0.4, 0.25),
            new Rect(-1.0, -1.8, 0.25, 0.4),
            new Rect(1.0, -1.8, 0.25, 0.4),
            new Rect(1.8, -1.0, 0.4, 0.25),
            new Rect(1.8, 1.0, 0.4, 0.25),
            new Rect(1.0, 1.8, 0.25, 0.4),
            new Rect(-1.0, 1.8, 0.25, 0.4),
            new Rect(0, 0, 2.5, 2.5));
    assertThat(EndAxis.of(Parts.part("QFN", JointKind.NO_LEAD, 4, t, t, null)))
        .containsExactly(
            EndAxis.X_MINUS,
            EndAxis.X_MINUS,
            EndAxis.Y_MINUS,
            EndAxis.Y_MINUS,
            EndAxis.X_PLUS,
            EndAxis.X_PLUS,
            EndAxis.Y_PLUS,
            EndAxis.Y_PLUS,
            EndAxis.NONE);
  }

  @Test
  void chipThatStandsUprightInItsFilePointsUpAndDown() {
    List<Rect> t = List.of(new Rect(0, 0.65, 0.8, 0.3), new Rect(0, -0.65, 0.8, 0.3));
    assertThat(EndAxis.of(Parts.part("C", JointKind.CHIP, 2, t, t, null)))
        .containsExactly(EndAxis.Y_PLUS, EndAxis.Y_MINUS);
  }

  @Test
  void unequalNumbersOfLandsAndTerminationsAreRefused() {
    Rect r = new Rect(0, 0, 1, 1);
    PartType p = Parts.part("X1", JointKind.CHIP, 1, List.of(r, r), List.of(r), null);
    assertThatThrownBy(() -> Overhang.of(p, 0, 0, 0))
        .hasMessage(
            "part type 'X1' has 2 terminations and 1 lands; expected one land for each"
                + " termination");
  }

  private static Rect rect(Random r) {
    return new Rect(
        -1 + 0.2 * r.nextGaussian(),
        0.2 * r.nextGaussian(),
        0.2 + r.nextDouble(),
        0.2 + r.nextDouble());
  }

  private static PartType pair(Rect left, Rect land) {
    Rect right = new Rect(5, left.yMm(), 0.3, 0.3);
    return Parts.part("P", JointKind.CHIP, 1, List.of(left, right), List.of(land, right), null);
  }

  public static Geometry turned(Rect r, double dx, double dy, double deg) {
    double hx = r.lengthMm() / 2;
    double hy = r.widthMm() / 2;
    Coordinate[] c = {
      new Coordinate(r.xMm() - hx, r.yMm() - hy),
      new Coordinate(r.xMm() + hx, r.yMm() - hy),
      new Coordinate(r.xMm() + hx, r.yMm() + hy),
      new Coordinate(r.xMm() - hx, r.yMm() + hy),
      new Coordinate(r.xMm() - hx, r.yMm() - hy)
    };
    AffineTransformation move =
        AffineTransformation.rotationInstance(Math.toRadians(deg)).translate(dx, dy);
    return move.transform(GEOMETRY.createPolygon(c));
  }
}
