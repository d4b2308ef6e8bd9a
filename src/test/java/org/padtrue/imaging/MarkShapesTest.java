package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Point;
import org.bytedeco.opencv.opencv_core.Scalar;
import org.bytedeco.opencv.opencv_core.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.padtrue.Study;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.MarkReport;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;

/** Fiducials of every usual shape, and lands named in their place, against the renderer's truth. */
class MarkShapesTest {
  private static final List<Fiducial> CORNERS =
      List.of(
          new Fiducial("A", 0, 0, 1.2, Fiducial.Scope.PANEL),
          new Fiducial("B", 38.5, 0.5, 1.2, Fiducial.Scope.PANEL),
          new Fiducial("C", 0.5, 30, 1.2, Fiducial.Scope.PANEL),
          new Fiducial("D", 38, 30.5, 1.2, Fiducial.Scope.PANEL));
  private static final Job JOB = TestPanels.withFiducials(TestPanels.mixed(), CORNERS);
  private static final Map<String, Pose> TRUTH = TestPanels.scattered(JOB, 0.03, 0.5, 8);

  private static Stream<Arguments> shapes() {
    return Study.cases(
        3,
        arguments(MarkShape.ROUND, 2),
        arguments(MarkShape.SQUARE, 94),
        arguments(MarkShape.CROSS, 2),
        arguments(MarkShape.SQUARE, 2));
  }

  /** Pixels below the middle. */
  private static Stream<Integer> glares() {
    return Study.cases(1, 20, 24);
  }

  /** The map is held by so many fiducials, all of them where they are. */
  private static void heldBy(int fewest, DetectionResult r, RenderSettings s) {
    MapReport map = r.maps().get(0);
    assertEquals(RegisteredOn.FIDUCIALS, map.registeredOn());
    PanelToPicture truth = PanelRenderer.truth(JOB, s);
    List<MarkReport> used = map.marks().stream().filter(MarkReport::used).toList();
    assertTrue(used.size() >= fewest, map.toString());
    used.forEach(m -> assertEquals(0, m.residualMm(), 0.005, map.toString()));
    assertEquals(truth.scaleAt(0, 0), map.pxPerMm(), 0.01);
    Measured m = Measured.of(r, TRUTH);
    double share = 3 * map.uncertaintyMm();
    assertTrue(Math.abs(m.meanX()) < share && Math.abs(m.meanY()) < share, m.line("bias") + map);
  }

  /** Four known land centres are named as fiducials are: test points, round or square. */
  @ParameterizedTest
  @MethodSource("shapes")
  void everyShapeHoldsTheMap(MarkShape shape, double turn) {
    RenderSettings s = RenderSettings.at(20).noise(2).turn(turn).marks(shape);
    try (Picture p = PanelRenderer.render(JOB, TRUTH, s).picture()) {
      DetectionResult r =
          PictureDetection.single(JOB, p, DetectionOptions.withDefaults().straightDevice());
      r.maps().get(0).marks().forEach(m -> System.out.println(shape + " " + m));
      heldBy(4, r, s);
    }
  }

  /** A lamp's reflection over the lower part of each fiducial drowns what is below it. */
  @ParameterizedTest
  @MethodSource("glares")
  void glareOverPartOfEach(int below) {
    RenderSettings s = RenderSettings.at(20).noise(2).turn(2);
    try (Picture p = PanelRenderer.render(JOB, TRUTH, s).picture()) {
      shine(p, PanelRenderer.truth(JOB, s), below);
      DetectionResult r =
          PictureDetection.single(JOB, p, DetectionOptions.withDefaults().straightDevice());
      r.maps().get(0).marks().forEach(m -> System.out.println("glare " + m));
      heldBy(3, r, s);
    }
  }

  /** Where it drowns half of each the lands hold the map: nothing is read that is not there. */
  @Test
  void glareOverHalfOfEach() {
    RenderSettings s = RenderSettings.at(20).noise(2).turn(2);
    try (Picture p = PanelRenderer.render(JOB, TRUTH, s).picture()) {
      shine(p, PanelRenderer.truth(JOB, s), 18);
      DetectionResult r =
          PictureDetection.single(JOB, p, DetectionOptions.withDefaults().straightDevice());
      assertEquals(RegisteredOn.LANDS, r.maps().get(0).registeredOn());
      Measured m = Measured.of(r, TRUTH);
      assertEquals(0, m.meanX(), 0.004, m.line("x"));
      assertEquals(0, m.meanY(), 0.004, m.line("y"));
    }
  }

  /** Adds a spot of light of 1.4 mm so many pixels below each fiducial, its rim 10 px wide. */
  private static void shine(Picture p, PanelToPicture map, int below) {
    try (Mat glare = Mat.zeros(p.mat().size(), p.mat().type()).asMat();
        Scalar white = new Scalar(255, 255, 255, 0);
        Size any = new Size(0, 0)) {
      for (Fiducial f : CORNERS) {
        double[] q = map.at(f.xMm(), f.yMm());
        try (Point at = new Point((int) q[0], (int) q[1] + below)) {
          opencv_imgproc.circle(glare, at, 14, white, -1, opencv_imgproc.LINE_8, 0);
        }
      }
      opencv_imgproc.GaussianBlur(glare, glare, any, 5);
      opencv_core.add(p.mat(), glare, p.mat());
    }
  }
}
