package org.padtrue.land.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.util.AffineTransformation;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.Independent;
import org.padtrue.land.LandFit;
import org.padtrue.land.OverhangTest;
import org.padtrue.land.Parts;
import org.padtrue.numeric.Probability;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Tolerance;

class ClearanceTest {
  private static final double EXACT_MM = 1e-12;
  private static final PartType BOX = Parts.box("BOX", 2, 1, 0, 0.5);

  private static ClearanceItem at(String id, PartType part, double x, double y, double deg) {
    Pose p = new Pose(x, y, deg);
    return new ClearanceItem(id, part, p, p, p);
  }

  private static List<PairClearance> pairs(double near, ClearanceItem... items) {
    return new Clearance(List.of(items), near).pairs();
  }

  @Test
  void gapBetweenSides() {
    List<PairClearance> p = pairs(0.3, at("A", BOX, 0, 0, 0), at("B", BOX, 2.05, 0.2, 0));
    assertThat(p).hasSize(1);
    assertThat(p.get(0).gapNominal()).isCloseTo(0.05, within(EXACT_MM));
    assertThat(p.get(0).a().id()).isEqualTo("A");
  }

  /** Overlap is minus the shortest shift that frees: 0.1 along x, not 0.8 along y. */
  @Test
  void overlapIsTheShortestWayOut() {
    PairClearance p = pairs(0.3, at("A", BOX, 0, 0, 0), at("B", BOX, 1.9, 0.2, 0)).get(0);
    assertThat(p.gapNominal()).isCloseTo(-0.1, within(EXACT_MM));
  }

  /** Corner to corner: 3-4-5 triangle. Turned by 90 the box is 1 x 2. */
  @Test
  void gapBetweenCornersAndTurnedParts() {
    PairClearance corner = pairs(0.6, at("A", BOX, 0, 0, 0), at("B", BOX, 2.3, 1.4, 0)).get(0);
    assertThat(corner.gap()).isCloseTo(0.5, within(EXACT_MM));
    PairClearance turned = pairs(0.6, at("A", BOX, 0, 0, 90), at("B", BOX, 1.7, 0, 0)).get(0);
    assertThat(turned.gap()).isCloseTo(0.2, within(EXACT_MM));
  }

  @Test
  void capOverALowPartIsFineTwoCapsSideBySideAreNot() {
    PartType cap = Parts.box("CAP", 4, 4, 1.5, 5);
    PartType low = Parts.box("LOW", 1, 0.5, 0, 0.5);
    assertThat(pairs(0.3, at("J1", cap, 0, 0, 0), at("C3", low, 1.5, 0, 0))).isEmpty();
    List<PairClearance> caps = pairs(0.3, at("J1", cap, 0, 0, 0), at("J2", cap, 4.05, 0, 0));
    assertThat(caps).hasSize(1);
    assertThat(caps.get(0).gap()).isCloseTo(0.05, within(EXACT_MM));
    // heights that only touch do not meet
    PartType flush = Parts.box("FLUSH", 1, 1, 0, 1.5);
    assertThat(pairs(0.3, at("J1", cap, 0, 0, 0), at("C3", flush, 1.5, 0, 0))).isEmpty();
  }

  @Test
  void threePosesAreToldApartAndUnknownOnesAreNaN() {
    Pose unknown = new Pose(Double.NaN, Double.NaN, Double.NaN);
    ClearanceItem a =
        new ClearanceItem("A", BOX, new Pose(0, 0, 0), new Pose(0.1, 0, 0), new Pose(0.02, 0, 0));
    ClearanceItem b =
        new ClearanceItem("B", BOX, new Pose(2.1, 0, 0), unknown, new Pose(2.1, 0, 0));
    ClearanceItem c =
        new ClearanceItem(
            "C", BOX, new Pose(-2.1, 0, 0), new Pose(-2.05, 0, Double.NaN), new Pose(-2.1, 0, 0));
    List<PairClearance> p = new Clearance(List.of(a, b, c), 0.15).pairs();
    assertThat(p).hasSize(2);
    PairClearance ab = p.get(0);
    assertThat(ab.gapNominal()).isCloseTo(0.1, within(EXACT_MM));
    assertThat(ab.gap()).isNaN();
    assertThat(ab.gapAfterTrim()).isCloseTo(0.08, within(EXACT_MM));
    assertThat(p.get(1).gap()).isCloseTo(0.15, within(EXACT_MM));
  }

  @Test
  void nominalOverlapsAreFoundFromDrawingAlone() {
    List<ClearanceItem> items =
        List.of(
            ClearanceItem.nominalOnly("A", BOX, new Pose(0, 0, 0)),
            ClearanceItem.nominalOnly("B", BOX, new Pose(1.95, 0, 0)),
            ClearanceItem.nominalOnly("C", BOX, new Pose(4.0, 0, 0)));
    List<PairClearance> p = new Clearance(items, 0.3).nominalOverlaps();
    assertThat(p).hasSize(1);
    assertThat(p.get(0).gapNominal()).isCloseTo(-0.05, within(EXACT_MM));
    assertThat(p.get(0).gap()).isNaN();
  }

  @Test
  void bodyStandsInForAMissingEnvelopeAndNothingForNothing() {
    Rect body = new Rect(0, 0, 1, 0.5);
    List<Rect> ends = List.of(new Rect(-0.6, 0, 0.2, 0.5), new Rect(0.6, 0, 0.2, 0.5));
    PartType bare =
        new PartType("BARE", JointKind.CHIP, 2, false, body, Double.NaN, ends, ends, null, null);
    // 0.7 to either side, endlessly tall: meets the cap that starts at 1.5
    PartType cap = Parts.box("CAP", 4, 4, 1.5, 5);
    PairClearance p = pairs(0.3, at("J1", cap, 0, 0, 0), at("C3", bare, 2.75, 0, 0)).get(0);
    assertThat(p.gap()).isCloseTo(0.05, within(EXACT_MM));
    Clearance c =
        new Clearance(
            List.of(at("A", PartType.unknown("X9"), 0, 0, 0), at("B", BOX, 0.1, 0, 0)), 1);
    assertThat(c.pairs()).isEmpty();
  }

  /** Reference: all pairs by the library's polygon distance; overlaps by sliding until free. */
  @Test
  void agreesWithAllPairsByTheLibrary() {
    Random random = new Random(12);
    List<ClearanceItem> items = new ArrayList<>();
    for (int i = 0; i < 250; i++) {
      PartType part =
          Parts.box("P" + i, 0.5 + 3 * random.nextDouble(), 0.5 + 2 * random.nextDouble(), 0, 1);
      items.add(
          at(
              "U" + i,
              part,
              60 * random.nextDouble(),
              60 * random.nextDouble(),
              360 * random.nextDouble()));
    }
    double near = 0.4;
    List<PairClearance> pairs = new Clearance(items, near).pairs();
    Set<String> found = new TreeSet<>();
    int overlaps = 0;
    for (PairClearance p : pairs) {
      found.add(p.a().id() + " " + p.b().id());
      Geometry ga = polygon(p.a());
      Geometry gb = polygon(p.b());
      assertThat(Math.max(0, p.gap())).isCloseTo(ga.distance(gb), within(1e-9));
      if (p.gap() < 0) {
        overlaps++;
        assertThat(ga.intersection(gb).getArea()).isPositive();
        assertShortestWayOut(p, ga, gb);
      }
    }
    assertThat(overlaps).isGreaterThan(10);
    assertThat(found).hasSizeGreaterThan(overlaps + 10);
    for (int i = 0; i < items.size(); i++) {
      for (int j = i + 1; j < items.size(); j++) {
        boolean close = polygon(items.get(i)).distance(polygon(items.get(j))) <= near;
        assertThat(found.contains(items.get(i).id() + " " + items.get(j).id())).isEqualTo(close);
      }
    }
    assertThat(pairs).isSortedAccordingTo((a, b) -> Double.compare(a.least(), b.least()));
  }

  /** A shift just shorter than the depth frees in no direction; one just longer in some. */
  private static void assertShortestWayOut(PairClearance p, Geometry a, Geometry b) {
    double depth = -p.gap();
    boolean free = false;
    for (double deg = 0; deg < 360; deg += 0.5) {
      double ux = Math.cos(Math.toRadians(deg));
      double uy = Math.sin(Math.toRadians(deg));
      Geometry shorter = moved(b, ux * depth * 0.999, uy * depth * 0.999);
      assertThat(a.distance(shorter)).isZero();
      free |= a.distance(moved(b, ux * (depth * 1.001 + 1e-4), uy * (depth * 1.001 + 1e-4))) > 0;
    }
    assertThat(free).isTrue();
  }

  private static Geometry moved(Geometry g, double dx, double dy) {
    return AffineTransformation.translationInstance(dx, dy).transform(g);
  }

  private static Geometry polygon(ClearanceItem i) {
    Envelope e = i.part().envelope();
    Pose p = i.actual();
    return OverhangTest.turned(
        new Rect(0, 0, e.lengthMm(), e.widthMm()), p.xMm(), p.yMm(), p.rotationDeg());
  }

  // ---- probability of touching

  /** Side by side, no turning, far from the ends: one normal tail. */
  @ParameterizedTest
  @ValueSource(doubles = {1, 2, 3, 4.5, 5})
  void touchingSideBySideIsOneTail(double k) {
    PartType longBox = Parts.box("L", 1, 50, 0, 1);
    double gap = 0.1;
    PairClearance p = pairs(0.3, at("A", longBox, 0, 0, 0), at("B", longBox, 1 + gap, 0, 0)).get(0);
    double sd = gap / k;
    Probability t = TouchRisk.of(p, new PairSpread(sd * sd, sd * sd, 0.5 * sd * sd, 0, 0));
    double expected = new NormalDistribution().cumulativeProbability(-k);
    assertThat(t.value()).isCloseTo(expected, within(0.15 * expected));
    assertThat(Math.abs(t.value() - expected)).isLessThan(5 * t.standardError() + 2e-3 * expected);
  }

  /** Plain Monte Carlo with the library's polygons: corners, turned parts, rotations too. */
  @Test
  void touchingAgreesWithPlainMonteCarlo() {
    double[][] cases = {
      {2.1, 0.3, 20, -10}, {2.05, 1.02, 0, 0}, {1.9, 0.9, 0, 0}, {1.3, 1.5, 45, 30}
    };
    Random random = new Random(31);
    int n = 10_000;
    for (double[] c : cases) {
      PairClearance p = pairs(1, at("A", BOX, 0, 0, c[2]), at("B", BOX, c[0], c[1], c[3])).get(0);
      PairSpread s = new PairSpread(0.01, 0.006, 0.003, 4, 9);
      double slope = 0.003 / 0.1;
      double rest = Math.sqrt(0.006 - slope * slope);
      int touching = 0;
      for (int i = 0; i < n; i++) {
        double g = random.nextGaussian();
        double dx = 0.1 * g;
        double dy = slope * g + rest * random.nextGaussian();
        Geometry a =
            OverhangTest.turned(new Rect(0, 0, 2, 1), 0, 0, c[2] + 2 * random.nextGaussian());
        Geometry b =
            OverhangTest.turned(
                new Rect(0, 0, 2, 1), c[0] + dx, c[1] + dy, c[3] + 3 * random.nextGaussian());
        touching += a.intersects(b) ? 1 : 0;
      }
      double share = touching / (double) n;
      assertThat(share).isBetween(0.003, 0.98);
      Probability t = TouchRisk.of(p, s);
      double noise = Math.sqrt(share * (1 - share) / n);
      assertThat(t.value()).isCloseTo(share, within(4 * noise + 4 * t.standardError()));
    }
  }

  @Test
  void farNeighboursAreNegligibleAndUnknownPosesUnknown() {
    PairClearance p = pairs(1, at("A", BOX, 0, 0, 0), at("B", BOX, 2.5, 0, 0)).get(0);
    Probability t = TouchRisk.of(p, Independent.pair(0.02, 0.02, 0.1, 0.1));
    assertThat(t.value()).isZero();
    assertThat(t.points()).isZero();
    assertThat(TouchRisk.of(p, Independent.pair(0, 0, 0, 0)).value()).isZero();
    Pose unknown = new Pose(Double.NaN, Double.NaN, Double.NaN);
    ClearanceItem gone =
        new ClearanceItem("B", BOX, new Pose(2.2, 0, 0), new Pose(2.2, 0, 0), unknown);
    PairClearance q = pairs(1, at("A", BOX, 0, 0, 0), gone).get(0);
    assertThat(TouchRisk.of(q, Independent.pair(0.02, 0.02, 0, 0)).value()).isNaN();
  }

  @Test
  void overlappingWithoutSpreadTouchesForSure() {
    PairClearance p = pairs(1, at("A", BOX, 0, 0, 0), at("B", BOX, 1.9, 0, 0)).get(0);
    assertThat(TouchRisk.of(p, Independent.pair(0, 0, 0, 0)).value()).isEqualTo(1);
  }

  // ---- the smallest shift that clears

  private static PartType judged(String name, double tolX, double tolY) {
    return new PartType(
        name,
        JointKind.OTHER,
        1,
        false,
        null,
        Double.NaN,
        List.of(),
        List.of(),
        new Envelope(2, 1, 0, 1),
        new Tolerance(tolX, tolY, 5));
  }

  private static LandFit fit(PartType p) {
    return LandFit.of(p, AcceptanceLimits.published(), 2);
  }

  /** Gap 0.05, wanted 0.15: 0.1 along x, with 0.2 of tolerance 0.1 is left. */
  @Test
  void smallestShiftAlongTheGap() {
    PartType t = judged("T", 0.2, 0.2);
    Clearance c = new Clearance(List.of(at("A", t, 0, 0, 0), at("B", t, 2.05, 0, 0)), 0.3);
    ClearingShift s = c.suggest(c.pairs().get(0), 0.15, ClearanceTest::fit).orElseThrow();
    assertThat(s.id()).isEqualTo("A");
    assertThat(s.dxMm()).isCloseTo(-0.1, within(1e-6));
    assertThat(s.dyMm()).isCloseTo(0, within(1e-6));
    assertThat(s.gapAfter()).isCloseTo(0.15, within(1e-6));
    assertThat(s.marginBefore()).isCloseTo(0.2, within(1e-9));
    assertThat(s.marginAfter()).isCloseTo(0.1, within(1e-6));
  }

  /** x is too tight (0.05), y is not: the way out is the longer one along y, 0.6 + 0.15. */
  @Test
  void landsForbidTheShortWay() {
    PartType tight = judged("T", 0.05, 1.0);
    PartType fixed = BOX;
    Clearance c =
        new Clearance(List.of(at("A", tight, 0, 0, 0), at("B", fixed, 2.05, 0.4, 0)), 0.3);
    ClearingShift s = c.suggest(c.pairs().get(0), 0.15, ClearanceTest::fit).orElseThrow();
    assertThat(s.id()).isEqualTo("A");
    assertThat(s.gapAfter()).isCloseTo(0.15, within(1e-5));
    assertThat(s.marginAfter()).isGreaterThanOrEqualTo(0);
    assertThat(Math.abs(s.dxMm())).isLessThanOrEqualTo(0.05 + 1e-9);
    // corner rounded at distance 0.15; x used up at -0.05, gap in x 0.1: dy = 0.6 + sqrt(0.15^2 -
    // 0.1^2)
    assertThat(s.dyMm()).isCloseTo(-(0.6 + Math.sqrt(0.0225 - 0.01)), within(2e-3));
  }

  @Test
  void noShiftWhereLandsLeaveNoneOrNothingIsToBeDone() {
    PartType tight = judged("T", 0.01, 0.01);
    Clearance c = new Clearance(List.of(at("A", tight, 0, 0, 0), at("B", BOX, 2.05, 0, 0)), 0.3);
    PairClearance p = c.pairs().get(0);
    assertThat(c.suggest(p, 0.15, ClearanceTest::fit)).isEmpty();
    assertThat(c.suggest(p, 0.05 - 1e-6, ClearanceTest::fit)).isEmpty();
    assertThatThrownBy(() -> c.suggest(p, -1, ClearanceTest::fit))
        .hasMessage("wantedGapMm = -1.0; expected 0 or more");
  }

  /** A third part stands where A would go: B has to move instead. */
  @Test
  void otherNeighboursAreRespected() {
    PartType t = judged("T", 0.2, 0.2);
    Clearance c =
        new Clearance(
            List.of(at("A", t, 0, 0, 0), at("B", t, 2.05, 0, 0), at("C", BOX, -2.15, 0, 0)), 0.3);
    PairClearance ab =
        c.pairs().stream().filter(p -> p.b().id().equals("B")).findFirst().orElseThrow();
    ClearingShift s = c.suggest(ab, 0.15, ClearanceTest::fit).orElseThrow();
    assertThat(s.id()).isEqualTo("B");
    assertThat(s.dxMm()).isCloseTo(0.1, within(1e-6));
  }

  /** The part's lands are judged in its own frame: a part at 90 degrees, tight along its own y. */
  @Test
  void landsAreJudgedInThePartFrame() {
    PartType t = judged("T", 0.3, 0.01);
    // at 90 degrees the part's own x is panel y, so panel x is the tight one
    Clearance c = new Clearance(List.of(at("A", t, 0, 0, 90), at("B", BOX, 1.55, 0, 0)), 0.3);
    assertThat(c.suggest(c.pairs().get(0), 0.15, ClearanceTest::fit)).isEmpty();
    Clearance d = new Clearance(List.of(at("A", t, 0, 0, 90), at("B", BOX, 0, 1.55, 0)), 0.3);
    ClearingShift s = d.suggest(d.pairs().get(0), 0.15, ClearanceTest::fit).orElseThrow();
    assertThat(s.dyMm()).isCloseTo(-0.1, within(1e-6));
    assertThat(s.dxMm()).isCloseTo(0, within(1e-6));
  }
}
