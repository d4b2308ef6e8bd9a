package org.padtrue.imaging.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.padtrue.imaging.PanelRenderer;
import org.padtrue.imaging.RenderSettings;
import org.padtrue.imaging.TestPanels;
import org.padtrue.imaging.map.KnownMark;
import org.padtrue.imaging.picture.Blobs;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.panel.Job;

class FeaturesTest {
  private static final Job JOB = TestPanels.mixed();

  /** Rendered, turned by 3.3 degrees: every fiducial is among the likely spots, both ways round. */
  @Test
  void fiducialsAreLikelySpotsInThePictureAndInItsMirrorImage() {
    PanelRenderer.Rendered made =
        PanelRenderer.render(
            JOB, TestPanels.scattered(JOB, 0.03, 0.5, 5), RenderSettings.at(12).noise(3).turn(3.3));
    try (Picture p = made.picture();
        Picture flipped = p.mirrored()) {
      Features as = Features.of(p);
      Features mirrored = as.mirrored(flipped);
      // Drawings are held against the picture in turns of 2 degrees: half of one is near enough.
      assertEquals(LineTilt.of(flipped).directionDeg(), mirrored.lines().directionDeg(), 1);
      for (KnownMark m : KnownMark.of(JOB)) {
        double[] q = made.truth().at(m.xMm(), m.yMm());
        assertTrue(holds(as.likelySpots(), q[0], q[1]), m.name());
        double x = p.width() - 1.0 - q[0];
        assertTrue(holds(mirrored.likelySpots(), x, q[1]), m.name());
        assertTrue(holds(Blobs.find(flipped), x, q[1]), m.name());
      }
    }
  }

  private static boolean holds(List<Blobs.Spot> spots, double x, double y) {
    return spots.stream().anyMatch(s -> Math.hypot(s.x() - x, s.y() - y) < 1.5);
  }
}
