package org.padtrue.imaging.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.imaging.PanelRenderer;
import org.padtrue.imaging.RenderSettings;
import org.padtrue.imaging.TestPanels;
import org.padtrue.imaging.picture.Matrices;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;

/** Views from the side, made by a pinhole camera with a known rotation and focal length. */
class LineTiltTest {
  private static final Job JOB = TestPanels.mixed();

  /** Turned about any axis; the camera being known, the lines give the tilt back. */
  @ParameterizedTest
  @CsvSource({"20, 0, 1.0", "35, 30, 1.0", "45, 80, 1.3", "30, 135, 0.8"})
  void linesGiveTheTiltOfAKnownCamera(double tilt, double axis, double focal) {
    try (Picture square = square();
        Picture p = slanted(square, tilt, axis, focal)) {
      LineTilt.View v = LineTilt.of(p).turned(focal * Math.hypot(p.width(), p.height()));
      System.out.printf("tilt %.0f: %.1f by lines%n", tilt, v.tiltDeg());
      assertEquals(tilt, v.tiltDeg(), 2);
      assertTrue(v.square() > v.asTaken(), v.toString());
    }
  }

  /** The camera not being known, the parts tell which focal length is right. */
  @Test
  void partsTellWhichCamera() {
    try (Picture square = square();
        Picture p = slanted(square, 36, 20, 0.95)) {
      OptionalDouble tilt = new SlantSearch(Features.of(p), Sites.of(JOB)).degrees();
      System.out.println("tilt 36: " + tilt + " by lines and parts");
      assertEquals(36, tilt.orElse(0), 4);
    }
  }

  @Test
  void aSquareViewIsNotCalledSlanted() {
    try (Picture p = square()) {
      assertEquals(0, new SlantSearch(Features.of(p), Sites.of(JOB)).linesDeg());
    }
  }

  private static Picture square() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 10);
    return PanelRenderer.render(JOB, truth, RenderSettings.at(16).noise(2)).picture();
  }

  /**
   * The picture as a plane held before a pinhole camera whose view is tilted about an axis in the
   * picture (Rodrigues' rotation), at the distance that keeps the scale in the middle.
   */
  private static Picture slanted(Picture p, double tiltDeg, double axisDeg, double focal) {
    double f = focal * Math.hypot(p.width(), p.height());
    double cx = (p.width() - 1) / 2.0;
    double cy = (p.height() - 1) / 2.0;
    double c = Math.cos(Math.toRadians(tiltDeg));
    double s = Math.sin(Math.toRadians(tiltDeg));
    double ax = Math.cos(Math.toRadians(axisDeg));
    double ay = Math.sin(Math.toRadians(axisDeg));
    // First two columns of the rotation, then the plane's middle straight ahead at distance f.
    double[] plane = {
      c + ax * ax * (1 - c),
      ax * ay * (1 - c),
      0,
      ax * ay * (1 - c),
      c + ay * ay * (1 - c),
      0,
      -ay * s,
      ax * s,
      f
    };
    double[] toPx = {f, 0, cx, 0, f, cy, 0, 0, 1};
    double[] fromPx = {1, 0, -cx, 0, 1, -cy, 0, 0, 1};
    return p.seenBy(Matrices.product3(toPx, Matrices.product3(plane, fromPx)));
  }
}
