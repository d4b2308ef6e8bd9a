package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/** A picture without fiducials, of parts beside which their lands show. */
class LandsRegistrationTest {
  /** All parts stand off by the same: on the parts themselves that would be lost. */
  @Test
  void landsHoldTheShiftThatPartsCannot() {
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
    Map<String, Pose> truth = TestPanels.scattered(job, 0.02, 0.5, 13);
    truth.replaceAll((id, p) -> new Pose(p.xMm() + 0.12, p.yMm() - 0.07, p.rotationDeg()));
    DetectionOptions far =
        DetectionOptions.withDefaults().cameraDistance(Double.POSITIVE_INFINITY).straightDevice();
    try (Picture p =
        PanelRenderer.render(job, truth, RenderSettings.at(24).noise(2).turn(2)).picture()) {
      DetectionResult r = PictureDetection.single(job, p, far);
      Measured m = Measured.of(r, truth);
      System.out.println(m.line("on lands"));
      assertEquals(RegisteredOn.LANDS, r.maps().get(0).registeredOn());
      assertFalse(r.partsRegistered());
      assertEquals(0, m.meanX(), 0.02, m.line("x"));
      assertEquals(0, m.meanY(), 0.02, m.line("y"));
      assertTrue(m.within(2) > 0.9, m.line("coverage"));
    }
  }
}
