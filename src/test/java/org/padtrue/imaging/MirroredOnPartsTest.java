package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;

/** A regular board seen from behind, without fiducials: two thirds of it match the wrong way. */
class MirroredOnPartsTest {
  private static final Job JOB =
      TestPanels.withLandsOf(TestPanels.withoutFiducials(TestPanels.mixed()), Set.of());

  @Test
  void theWayOnWhichMorePartsAgreeIsTheRightOne() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 20);
    RenderSettings from = RenderSettings.at(16).noise(3).fromBehind();
    try (Picture p = PanelRenderer.render(JOB, truth, from).picture()) {
      DetectionResult r = PictureDetection.single(JOB, p, DetectionOptions.withDefaults());
      MapReport map = r.maps().get(0);
      assertEquals(RegisteredOn.PARTS, map.registeredOn());
      assertTrue(map.mirrored(), map.toString());
      assertEquals(16, map.pxPerMm(), 0.02);
      assertTrue(r.count(ReadingStatus.FOUND) > 0.9 * truth.size(), r.maps().toString());
    }
  }
}
