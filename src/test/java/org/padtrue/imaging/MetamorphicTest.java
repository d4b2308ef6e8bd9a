package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.bytedeco.opencv.global.opencv_calib3d;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Scalar;
import org.bytedeco.opencv.opencv_core.Size;
import org.junit.jupiter.api.Test;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.NativeLibraries;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureReader;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.OutlineFit;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * A picture moved, turned or lit anew by known amounts moves the measured poses by those amounts.
 * Needs no truth, so it holds on real photos too.
 */
class MetamorphicTest {
  private static final Job JOB = TestPanels.mixed();
  private static final DetectionOptions FAR =
      DetectionOptions.withDefaults().cameraDistance(Double.POSITIVE_INFINITY).straightDevice();

  /** On the whole path fiducials move with the parts: what is measured stays. */
  @Test
  void wholePathStaysWhenThePictureIsTurnedOrLitAnew() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 41);
    try (Picture p =
        PanelRenderer.render(JOB, truth, RenderSettings.at(20).noise(2).seed(4)).picture()) {
      Map<String, PlacementReading> before = found(p);
      try (Picture turned = changed(p, "turned 90")) {
        same(before, found(turned), "turned by 90 degrees");
      }
      try (Picture dim = changed(p, "dim")) {
        same(before, found(dim), "three quarters of the light");
      }
    }
  }

  /**
   * With the map held, a picture moved by sub-pixels and turned moves the poses: within about twice
   * the stated uncertainty of a rotation, as resampling changes noise and texture.
   */
  @Test
  void posesFollowThePicture() {
    PartType type = TestPanels.SOT23;
    Job job = TestPanels.job(List.of(TestPanels.place("U1", type, 0, 0, 0)), List.of(), type);
    RenderSettings s = RenderSettings.at(20).noise(2).margin(3);
    PanelToPicture map = PanelRenderer.truth(job, s);
    try (Picture p =
        PanelRenderer.render(job, Map.of("1/1/U1", new Pose(0.02, 0.01, 1)), s).picture()) {
      Pose a = fit(p, map, type, List.of(), new Pose(0, 0, 0));
      for (double[] m : new double[][] {{3, 0, 0}, {0.4, -0.3, 0}, {-2.7, 1.6, 0}, {1, 1, 4}}) {
        try (Picture q = moved(p, m[0], m[1], m[2])) {
          follows(map, a, fit(q, map, type, List.of(), new Pose(0, 0, 0)), p, m, 0.06, 0.2);
        }
      }
    }
  }

  /**
   * The same on a real photo: a black square of the published chessboard series (OpenCV's sample
   * data, see the SOURCE file there) taken as a part.
   */
  @Test
  void posesFollowARealPhoto() throws Exception {
    NativeLibraries.load();
    byte[] file;
    try (var in = getClass().getResourceAsStream("chessboard/left01.jpg")) {
      file = in.readAllBytes();
    }
    try (Picture p = PictureReader.decode("left01.jpg", file)) {
      double[][] corner = corners(p);
      // Inner corners 3 and 4 of rows 2 and 3 bound one square; black or white does not matter.
      double[][] px = {corner[21], corner[22], corner[31], corner[30]};
      PanelToPicture map = new PanelToPicture(homography(px), null);
      PartType square =
          new PartType(
              "square",
              JointKind.OTHER,
              4,
              false,
              new Rect(0, 0, 2.5, 2.5),
              0,
              List.of(),
              List.of(),
              null,
              null);
      Pose a = fit(p, map, square, List.of(), new Pose(0, 0, 0));
      assertEquals(0, Math.hypot(a.xMm(), a.yMm()), 0.05, "the square lies between its corners");
      for (double[] m : new double[][] {{1, 0, 0}, {0.4, -0.6, 0}, {0, 0, 2}}) {
        try (Picture q = moved(p, m[0], m[1], m[2])) {
          follows(map, a, fit(q, map, square, List.of(), new Pose(0, 0, 0)), p, m, 0.1, 0.3);
        }
      }
      try (Picture dim = changed(p, "dim")) {
        Pose b = fit(dim, map, square, List.of(), new Pose(0, 0, 0));
        follows(map, a, b, p, new double[3], 0.05, 0.1);
      }
    }
  }

  private static double[][] corners(Picture p) {
    try (Mat grey = new Mat();
        Mat found = new Mat()) {
      opencv_imgproc.cvtColor(p.mat(), grey, opencv_imgproc.COLOR_BGR2GRAY);
      assertTrue(opencv_calib3d.findChessboardCorners(grey, new Size(9, 6), found, 3));
      float[] v = new float[108];
      found.<java.nio.FloatBuffer>createBuffer().get(v);
      double[][] out = new double[54][];
      for (int i = 0; i < 54; i++) {
        out[i] = new double[] {v[2 * i], v[2 * i + 1]};
      }
      return out;
    }
  }

  /** From a square of 2.5 mm, y up, to its four corners in the picture. */
  private static double[] homography(double[][] px) {
    double[][] mm = {{-1.25, 1.25}, {1.25, 1.25}, {1.25, -1.25}, {-1.25, -1.25}};
    double[][] a = new double[8][8];
    double[] r = new double[8];
    for (int i = 0; i < 4; i++) {
      double x = mm[i][0];
      double y = mm[i][1];
      a[2 * i] = new double[] {x, y, 1, 0, 0, 0, -px[i][0] * x, -px[i][0] * y};
      a[2 * i + 1] = new double[] {0, 0, 0, x, y, 1, -px[i][1] * x, -px[i][1] * y};
      r[2 * i] = px[i][0];
      r[2 * i + 1] = px[i][1];
    }
    double[] h = new double[9];
    double[] x =
        new org.apache.commons.math3.linear.LUDecomposition(
                org.apache.commons.math3.linear.MatrixUtils.createRealMatrix(a))
            .getSolver()
            .solve(org.apache.commons.math3.linear.MatrixUtils.createRealVector(r))
            .toArray();
    System.arraycopy(x, 0, h, 0, 8);
    h[8] = 1;
    return h;
  }

  private static Pose fit(
      Picture p, PanelToPicture map, PartType type, List<Rect> lands, Pose near) {
    Plane all = p.plane(0, 0, p.width() - 1.0, p.height() - 1.0);
    OutlineFit.Result r = new OutlineFit(all, map, Outline.of(type), lands, near).fit(near, 2.5, 1);
    assertNotNull(r, "nothing seen");
    return r.pose();
  }

  /** Where the picture's content went the pose must have gone too; tolerances px and degrees. */
  private static void follows(
      PanelToPicture map, Pose a, Pose b, Picture p, double[] m, double px, double deg) {
    double[] at = carried(p, m, map.at(a.xMm(), a.yMm()));
    double[] seen = map.at(b.xMm(), b.yMm());
    String what = List.of(m[0], m[1], m[2]) + ": from " + a + " to " + b;
    assertEquals(at[0], seen[0], px, what);
    assertEquals(at[1], seen[1], px, what);
    assertEquals(0, Angles.wrap(b.rotationDeg() - a.rotationDeg() - m[2], 4), deg, what);
  }

  private static double[] carried(Picture p, double[] m, double[] q) {
    double c = Math.cos(Math.toRadians(m[2]));
    double s = Math.sin(Math.toRadians(m[2]));
    double x = q[0] - (p.width() - 1) / 2.0;
    double y = q[1] - (p.height() - 1) / 2.0;
    return new double[] {
      c * x + s * y + (p.width() - 1) / 2.0 + m[0], -s * x + c * y + (p.height() - 1) / 2.0 + m[1]
    };
  }

  /** Moved by px right and down, turned counter-clockwise about the middle. */
  private static Picture moved(Picture p, double dx, double dy, double deg) {
    double[] m = {dx, dy, deg};
    double[] o = carried(p, m, new double[] {0, 0});
    double[] x = carried(p, m, new double[] {1, 0});
    double[] y = carried(p, m, new double[] {0, 1});
    try (Mat t = new Mat(2, 3, opencv_core.CV_64F)) {
      t.<java.nio.DoubleBuffer>createBuffer()
          .put(new double[] {x[0] - o[0], y[0] - o[0], o[0], x[1] - o[1], y[1] - o[1], o[1]});
      Mat out = new Mat();
      opencv_imgproc.warpAffine(
          p.mat(),
          out,
          t,
          new Size(p.width(), p.height()),
          opencv_imgproc.INTER_LANCZOS4,
          opencv_core.BORDER_REPLICATE,
          new Scalar(0, 0, 0, 0));
      return new Picture("moved", out);
    }
  }

  private static Picture changed(Picture p, String how) {
    Mat out = new Mat();
    if (how.equals("dim")) {
      p.mat().convertTo(out, -1, 0.75, 6);
    } else {
      opencv_core.rotate(p.mat(), out, opencv_core.ROTATE_90_CLOCKWISE);
    }
    return new Picture(how, out);
  }

  private static Map<String, PlacementReading> found(Picture p) {
    Map<String, PlacementReading> out = new java.util.TreeMap<>();
    for (PlacementReading r : PictureDetection.single(JOB, p, FAR).readings()) {
      if (r.status() == ReadingStatus.FOUND) {
        out.put(r.id(), r);
      }
    }
    return out;
  }

  private static void same(
      Map<String, PlacementReading> a, Map<String, PlacementReading> b, String what) {
    List<Double> off = new ArrayList<>();
    for (Map.Entry<String, PlacementReading> e : a.entrySet()) {
      PlacementReading o = b.get(e.getKey());
      if (o != null && o.pose() != null && e.getValue().pose() != null) {
        Pose p = e.getValue().pose();
        double u = Math.hypot(e.getValue().uMm(), o.uMm());
        off.add(Math.hypot(p.xMm() - o.pose().xMm(), p.yMm() - o.pose().yMm()) / u);
      }
    }
    off.sort(null);
    System.out.printf(
        "%s: %d of %d found again, median %.2f u, worst %.2f u%n",
        what, off.size(), a.size(), off.get(off.size() / 2), off.get(off.size() - 1));
    assertTrue(off.size() >= 0.95 * a.size(), what);
    assertTrue(off.get(off.size() / 2) < 0.5, what + ": " + off);
    assertTrue(off.get(off.size() - 1) < 4, what + ": " + off);
  }
}
