package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.quantity.Angles;

/** One picture per placement, the camera above the nominal position. */
class CloseUpDetectionTest {
  private static final List<PartType> TYPES =
      List.of(TestPanels.R0402, TestPanels.R0603, TestPanels.R0805, TestPanels.SOT23);

  @TempDir Path folder;

  @Test
  void measuresEachPlacementInItsOwnPicture() throws Exception {
    List<Placement> placements = new ArrayList<>();
    List<CloseUp> pictures = new ArrayList<>();
    for (int i = 0; i < TYPES.size(); i++) {
      Placement p = TestPanels.place("U" + (i + 1), TYPES.get(i), 10 + 5 * i, 20, 90 * i);
      placements.add(p);
      Path file = folder.resolve("1_1_" + p.ref() + ".png");
      Files.write(file, picture(p, TYPES.get(i), i));
      pictures.add(CloseUp.named(file).orElseThrow());
    }
    Job job = TestPanels.job(placements, List.of(), TYPES.toArray(PartType[]::new));
    DetectionResult r =
        CloseUpDetection.measure(
            job,
            pictures,
            new CloseUpDetection.Known(40, 0, 0),
            DetectionOptions.withDefaults().cameraDistance(Double.POSITIVE_INFINITY));
    assertEquals(TYPES.size(), r.count(ReadingStatus.FOUND), r.readings().toString());
    assertFalse(r.partsRegistered());
    for (PlacementReading q : r.readings()) {
      Pose t = truth(q.placement());
      assertEquals(t.xMm(), q.pose().xMm(), 0.01, q.id());
      assertEquals(t.yMm(), q.pose().yMm(), 0.01, q.id());
      assertEquals(0, Angles.wrap(q.pose().rotationDeg() - t.rotationDeg(), 2), 0.6, q.id());
    }
  }

  @Test
  void fileNamesSayPanelBoardAndRef() {
    Path file = Path.of("P3_2_1_R7.png");
    assertEquals(
        new CloseUp(file, "P3", 2, 1, "R7", Double.NaN, Double.NaN),
        CloseUp.named(file).orElseThrow());
    CloseUp plain = CloseUp.named(Path.of("2_1_R7.jpg")).orElseThrow();
    assertEquals("P1 2 1", plain.panel() + " " + plain.column() + " " + plain.row());
    assertEquals("P12", CloseUp.named(Path.of("p12_R7.tif")).orElseThrow().panel());
    assertTrue(CloseUp.named(Path.of("P2_1_R7.png")).isEmpty());
  }

  /** The analysis takes a placement once. */
  @Test
  void aPlacementIsShownOnce() {
    Job job =
        TestPanels.job(
            List.of(TestPanels.place("R1", TestPanels.R0603, 0, 0, 0)),
            List.of(),
            TestPanels.R0603);
    CloseUp first = CloseUp.named(folder.resolve("R1.png")).orElseThrow();
    CloseUp again = CloseUp.named(folder.resolve("1_1_R1.png")).orElseThrow();
    InputException e =
        assertThrows(
            InputException.class,
            () ->
                CloseUpDetection.measure(
                    job,
                    List.of(first, again),
                    new CloseUpDetection.Known(40, 0, 0),
                    DetectionOptions.withDefaults()));
    assertEquals(
        again.picture()
            + ": P1 1/1/R1 is shown by "
            + first.picture()
            + " already; give one picture of each placement, or name another panel",
        e.problems().get(0).sentence());
  }

  @Test
  void saysWhichPlacementTheJobLacks() {
    Job job =
        TestPanels.job(
            List.of(TestPanels.place("R1", TestPanels.R0603, 0, 0, 0)),
            List.of(),
            TestPanels.R0603);
    Path file = folder.resolve("R9.png");
    InputException e =
        assertThrows(
            InputException.class,
            () ->
                CloseUpDetection.measure(
                    job,
                    List.of(CloseUp.named(file).orElseThrow()),
                    new CloseUpDetection.Known(40, 0, 0),
                    DetectionOptions.withDefaults()));
    assertEquals(
        file + ": the job has no placement 1/1/R9; check column, row and ref",
        e.problems().get(0).sentence());
  }

  private static Pose truth(Placement p) {
    return new Pose(p.pose().xMm() + 0.08, p.pose().yMm() - 0.05, p.pose().rotationDeg() + 1.5);
  }

  /** A picture of one placement is centred on its nominal position. */
  private static byte[] picture(Placement p, PartType type, int seed) {
    Job one = TestPanels.job(List.of(p), List.of(), type);
    PanelRenderer.Rendered r =
        PanelRenderer.render(
            one, Map.of("1/1/" + p.ref(), truth(p)), RenderSettings.at(40).noise(2).seed(seed + 1));
    r.picture().close();
    return r.png();
  }
}
