package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.imaging.camera.CameraCalibration;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.picture.NativeLibraries;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;

/** From rendered circle grids to a lens, and with that lens through a bent picture of a panel. */
class LensTest {
  private static final Job JOB = TestPanels.mixed();
  private static final int COLUMNS = 9;
  private static final int ROWS = 7;
  private static final double PITCH = 5;

  @TempDir Path folder;

  @Test
  void circleGridsGiveTheLensThatStraightensAPanel() throws Exception {
    RenderSettings s = RenderSettings.at(16).noise(2);
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 21);
    int w;
    int h;
    try (Picture p = PanelRenderer.render(JOB, truth, s.plain().fine(1)).picture()) {
      w = p.width();
      h = p.height();
    }
    CameraModel lens =
        new CameraModel(w, h, 950, 950, w / 2.0 + 6, h / 2.0 - 4, -0.15, 0.04, 0, 0, 0, 0, 0, 0);
    CameraCalibration.Result r = CameraCalibration.calibrate(grids(lens), COLUMNS, ROWS, PITCH);
    CameraModel m = r.model();
    System.out.printf(
        "circle grid: f %.1f (950), c %.1f %.1f (%.1f, %.1f), k1 %.4f (-0.15), RMS %.3f px%n",
        m.fxPx(), m.cxPx(), m.cyPx(), lens.cxPx(), lens.cyPx(), m.k1(), r.rmsPx());
    assertEquals(10, r.views().stream().filter(CameraCalibration.View::found).count());
    assertEquals(950, m.fxPx(), 9.5);
    assertTrue(r.rmsPx() < 0.2, "RMS " + r.rmsPx());
    try (Picture p = PanelRenderer.render(JOB, truth, s.lens(lens)).picture()) {
      DetectionOptions far =
          DetectionOptions.withDefaults().cameraDistance(Double.POSITIVE_INFINITY);
      Measured bent = Measured.of(PictureDetection.single(JOB, p, far), truth);
      Measured straight = Measured.of(PictureDetection.single(JOB, p, far.camera(m)), truth);
      System.out.println(bent.line("lens ignored"));
      System.out.println(straight.line("lens of the circle grids"));
      assertTrue(straight.errors.size() >= 0.85 * truth.size(), "found");
      assertTrue(straight.mostRms() < 0.25 * bent.mostRms(), straight.line("with the lens"));
      assertTrue(straight.within(2) > 0.8, straight.line("coverage"));
    }
  }

  /** Dark circles on white, seen from ten sides. */
  private List<Path> grids(CameraModel lens) throws Exception {
    NativeLibraries.load();
    List<Path> out = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      double about = 2 * Math.PI * i / 10;
      double tilt = Math.toRadians(12 + 2 * (i % 4));
      byte[] file = grid(lens, tilt * Math.cos(about), tilt * Math.sin(about), 82 + 2 * (i % 3));
      out.add(Files.write(folder.resolve("grid" + i + ".png"), file));
    }
    return out;
  }

  private static byte[] grid(CameraModel lens, double ax, double ay, double distance) {
    int w = lens.width();
    int h = lens.height();
    float[] v = new float[w * h];
    java.util.Arrays.fill(v, 220);
    for (int k = 0; k < COLUMNS * ROWS; k++) {
      double[][] ring = new double[64][];
      for (int j = 0; j < ring.length; j++) {
        double a = 2 * Math.PI * j / ring.length;
        double x = (k % COLUMNS - (COLUMNS - 1) / 2.0) * PITCH + 1.4 * Math.cos(a);
        double y = (k / COLUMNS - (ROWS - 1) / 2.0) * PITCH + 1.4 * Math.sin(a);
        double x1 = x * Math.cos(ay);
        double z1 = -x * Math.sin(ay);
        double y1 = y * Math.cos(ax) - z1 * Math.sin(ax);
        double z = distance + y * Math.sin(ax) + z1 * Math.cos(ax);
        ring[j] =
            lens.distort(lens.fxPx() * x1 / z + lens.cxPx(), lens.fyPx() * y1 / z + lens.cyPx());
      }
      Coverage c = Coverage.around(ring, w, h);
      if (c == null) {
        continue;
      }
      float[] share = c.add(ring).shares();
      for (int y = 0; y < c.height; y++) {
        for (int x = 0; x < c.width; x++) {
          v[(c.y0 + y) * w + c.x0 + x] -= 190 * share[y * c.width + x];
        }
      }
    }
    byte[] bgr = new byte[3 * w * h];
    for (int i = 0; i < bgr.length; i++) {
      bgr[i] = (byte) Math.round(v[i / 3]);
    }
    try (Mat m = new Mat(h, w, opencv_core.CV_8UC3, new BytePointer(bgr))) {
      opencv_imgproc.GaussianBlur(m, m, new Size(7, 7), 0.9);
      return PanelRenderer.encode(m, 0);
    }
  }
}
