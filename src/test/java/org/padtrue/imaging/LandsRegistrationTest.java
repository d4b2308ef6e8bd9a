package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.padtrue.Study;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Unplaced;

/**
 * Pictures without fiducials, laid on lands: all parts stand off by the same, which would be lost
 * if the picture were laid on the parts themselves.
 */
class LandsRegistrationTest {
  private static final Job MIXED = TestPanels.withoutFiducials(TestPanels.mixed());
  private static final DetectionOptions FAR =
      DetectionOptions.withDefaults().cameraDistance(Double.POSITIVE_INFINITY).straightDevice();

  private static Stream<Arguments> offsets() {
    return Study.cases(1, arguments(0.4, -0.2), arguments(0.12, -0.07));
  }

  private static Stream<Arguments> without() {
    return Study.cases(1, arguments(0.05, 16), arguments(0.2, 24));
  }

  /** Placed, and measured against lands of a job. */
  private static Measured measured(
      Job there, Job known, double pxPerMm, double dxMm, double dyMm, long seed) {
    Map<String, Pose> truth = TestPanels.scattered(there, 0.02, 0.5, seed);
    truth.replaceAll((id, p) -> new Pose(p.xMm() + dxMm, p.yMm() + dyMm, p.rotationDeg()));
    return measured(there, known, truth, pxPerMm, "off by " + dxMm);
  }

  private static Measured measured(
      Job there, Job known, Map<String, Pose> truth, double pxPerMm, String name) {
    RenderSettings s = RenderSettings.at(pxPerMm).noise(2).turn(2).margin(5);
    try (Picture p = PanelRenderer.render(there, truth, s).picture()) {
      DetectionResult r = PictureDetection.single(known, p, FAR);
      Measured m = Measured.of(r, truth);
      System.out.println(m.line("on lands, " + name) + " " + r.maps().get(0).notes());
      assertEquals(RegisteredOn.LANDS, r.maps().get(0).registeredOn());
      assertTrue(m.errors.size() > 0.7 * truth.size(), m.line("found"));
      return m;
    }
  }

  private static void shiftKnown(Measured m, double mm) {
    assertEquals(0, m.meanX(), mm, m.line("x"));
    assertEquals(0, m.meanY(), mm, m.line("y"));
    assertTrue(m.within(2) > 0.85, m.line("coverage"));
  }

  @Test
  void partsWithLeads() {
    PartType[] types = {TestPanels.SO8, TestPanels.QFN16, TestPanels.SOT23};
    List<Placement> placed = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      int row = i / 5;
      int column = i % 5;
      placed.add(
          TestPanels.place(
              "U" + (i + 1), types[i % 3], 4 + column * 8, 4 + row * 8, 90 * ((row + column) % 4)));
    }
    Job job = TestPanels.job(placed, List.of(), types);
    shiftKnown(measured(job, job, 24, 0.12, -0.07, 13), 0.01);
  }

  /** Chips, whose lands show a strip at the ends only; up to half a millimetre off. */
  @ParameterizedTest
  @MethodSource("offsets")
  void chipsAndOthers(double dxMm, double dyMm) {
    shiftKnown(measured(MIXED, MIXED, 20, dxMm, dyMm, 3), 0.01);
  }

  /** All placed turned against the copper: at the ends they are off by 0.1 to 0.2 mm more. */
  @Test
  void placedTurned() {
    double turnDeg = 0.6;
    Map<String, Pose> truth = TestPanels.scattered(MIXED, 0.02, 0.5, 6);
    double c = Math.cos(Math.toRadians(turnDeg));
    double s = Math.sin(Math.toRadians(turnDeg));
    truth.replaceAll(
        (id, p) ->
            new Pose(
                c * (p.xMm() - 17) - s * (p.yMm() - 15) + 17.08,
                s * (p.xMm() - 17) + c * (p.yMm() - 15) + 14.95,
                p.rotationDeg() + turnDeg));
    shiftKnown(measured(MIXED, MIXED, truth, 20, "turned by " + turnDeg), 0.01);
  }

  /** One land of each type longer than it is on the board: half of the patterns lie elsewhere. */
  @Test
  void wrongLandsAreNotBelieved() {
    Map<String, PartType> parts = new HashMap<>();
    MIXED.parts().forEach((name, t) -> parts.put(name, TestPanels.withFirstLandLonger(t, 0.15)));
    Job wrong = MIXED;
    for (PartType t : parts.values()) {
      wrong = TestPanels.withPart(wrong, t);
    }
    Map<String, Pose> truth = TestPanels.scattered(MIXED, 0.02, 0.5, 9);
    RenderSettings s = RenderSettings.at(20).noise(2).turn(2).margin(5);
    try (Picture p = PanelRenderer.render(MIXED, truth, s).picture()) {
      DetectionResult r = PictureDetection.single(wrong, p, FAR);
      Measured m = Measured.of(r, truth);
      System.out.println(m.line("wrong lands") + " " + r.maps().get(0).notes());
      assertTrue(r.partsRegistered() || m.within(2) > 0.85, m.line("coverage"));
    }
  }

  /** Five known land patterns, of parts at both ends of the board. */
  @Test
  void fewLandPatternsKnown() {
    Job few =
        TestPanels.withLandsOf(MIXED, Set.of(TestPanels.SO8, TestPanels.SOT23, TestPanels.QFP44));
    shiftKnown(measured(MIXED, few, 20, 0.12, -0.07, 6), 0.01);
  }

  /** Four land patterns of parts that are not fitted; no other lands are known. */
  @Test
  void bareLandsOfPartsThatAreNotFitted() {
    PartType diode = TestPanels.chip("D0805", 2.0, 1.25, 0.4, 0.5);
    List<Unplaced> bare = new ArrayList<>();
    double[][] at = {{0.4, 4}, {0.4, 29}, {34.6, 4}, {34.6, 13}};
    for (double[] q : at) {
      bare.add(
          new Unplaced(
              "D" + bare.size(), "D0805", Unplaced.Reason.NOT_FITTED, 2, new Pose(q[0], q[1], 90)));
    }
    Job there = TestPanels.notFitted(TestPanels.withPart(MIXED, diode), bare);
    Job known = TestPanels.withLandsOf(there, Set.of(diode));
    shiftKnown(measured(there, known, 20, 0.12, -0.07, 6), 0.01);
  }

  /** Where no land shows, nothing is taken for one. */
  @ParameterizedTest
  @MethodSource("without")
  void noLands(double offMm, double pxPerMm) {
    Map<String, Pose> truth = TestPanels.scattered(MIXED, 0.02, 0.5, 7);
    truth.replaceAll((id, p) -> new Pose(p.xMm() + offMm, p.yMm(), p.rotationDeg()));
    RenderSettings s = RenderSettings.at(pxPerMm).noise(2).plain();
    try (Picture p = PanelRenderer.render(MIXED, truth, s).picture()) {
      DetectionResult r = PictureDetection.single(MIXED, p, FAR);
      assertEquals(RegisteredOn.PARTS, r.maps().get(0).registeredOn());
      assertTrue(r.partsRegistered());
    }
  }
}
