package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.imaging.camera.ReversalResult;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.map.DeviceBend;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.report.json.CameraFile;

/**
 * A device that bends by about 0.3 mm over 40 mm, far more than is assumed of one that was never
 * checked; pictures of one panel turned by 180 degrees: the even bend is found, stored and taken
 * out of the next picture. Decentring (tangential) lens terms are such a bend: x by 2 p1 x y + p2
 * (r^2 + 2 x^2), Brown 1966, from memory.
 */
class RenderedReversalTest {
  private static final Job JOB = TestPanels.mixed();

  @TempDir Path folder;

  @Test
  void turnedBy180TheEvenBendComesOut() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 31);
    RenderSettings s = RenderSettings.at(16).noise(2).seed(7);
    int w;
    int h;
    try (Picture p = PanelRenderer.render(JOB, truth, s.plain().fine(1)).picture()) {
      w = p.width();
      h = p.height();
    }
    CameraModel bend =
        new CameraModel(
            w, h, 950, 950, (w - 1) / 2.0, (h - 1) / 2.0, 0, 0, -0.004, 0.008, 0, 0, 0, 0);
    DetectionOptions far = DetectionOptions.withDefaults().cameraDistance(Double.POSITIVE_INFINITY);
    try (Picture p = PanelRenderer.render(JOB, truth, s.lens(bend)).picture();
        Picture q = PanelRenderer.render(JOB, truth, s.lens(bend).turn(180).seed(8)).picture()) {
      Measured one = Measured.of(PictureDetection.single(JOB, p, far), truth);
      DetectionResult both = PictureDetection.several(JOB, List.of(p, q), far);
      Measured two = Measured.of(both, truth);
      System.out.println(one.line("one picture of a bent device"));
      System.out.println(two.line("0 and 180"));
      assertTrue(two.mostRms() < 0.35 * one.mostRms(), two.line("0 and 180"));
      DeviceBend found = both.reversal().orElseThrow().bend();
      assertNotNull(found);
      CameraFile file = new CameraFile(null, found);
      Path stored = folder.resolve("scanner.json");
      file.write(stored);
      DeviceBend again = CameraFile.read(stored).device();
      assertNotNull(again);
      assertEquals(found.scaleMm(), again.scaleMm(), 1e-6);
      Measured next = Measured.of(PictureDetection.single(JOB, p, far.device(again)), truth);
      System.out.println(next.line("one picture, stored bend"));
      assertTrue(next.mostRms() < 0.35 * one.mostRms(), next.line("stored"));
    }
  }

  /**
   * Turned by quarters the difference of the scales and the squareness of the device come out too,
   * each within three of its stated uncertainties and of use; the common scale never does.
   */
  @Test
  void fourTurnsAlsoGiveScaleDifferenceAndSquareness() {
    BentDevice device = new BentDevice();
    DetectionOptions far = DetectionOptions.withDefaults().cameraDistance(Double.POSITIVE_INFINITY);
    List<Picture> pictures = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      pictures.add(device.picture(90 * i, 20 + i));
    }
    DetectionResult all = PictureDetection.several(device.job(), pictures, far);
    Measured one =
        Measured.of(PictureDetection.single(device.job(), pictures.get(0), far), device.truth());
    pictures.forEach(Picture::close);
    Measured four = Measured.of(all, device.truth());
    System.out.println(one.line("one picture"));
    System.out.println(four.line("0, 90, 180, 270"));
    ReversalResult r = all.reversal().orElseThrow();
    double length = r.bend().scaleMm();
    checkTerm(r, "scale difference", BentDevice.SCALE_DIFFERENCE * length);
    checkTerm(r, "squareness", BentDevice.SQUARENESS * length);
    assertTrue(Double.isNaN(term(r, "common scale").valueMm()), r.terms().toString());
    assertTrue(four.mostRms() < 0.2 * one.mostRms(), four.line("four"));
  }

  private static void checkTerm(ReversalResult r, String name, double planted) {
    ReversalResult.Term t = term(r, name);
    System.out.printf(
        "%s: planted %.1f um, found %.1f +- %.1f um%n",
        name, 1000 * planted, 1000 * t.valueMm(), 1000 * t.uMm());
    assertTrue(t.uMm() < 0.4 * Math.abs(planted), t.toString());
    assertEquals(planted, t.valueMm(), 3 * t.uMm(), t.toString());
  }

  private static ReversalResult.Term term(ReversalResult r, String name) {
    return r.terms().stream().filter(t -> t.name().equals(name)).findFirst().orElseThrow();
  }
}
