package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.bytedeco.opencv.opencv_core.Mat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.padtrue.Study;
import org.padtrue.imaging.map.MapFamily;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.MarkReport;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureReader;
import org.padtrue.imaging.picture.PictureSampleMaker;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.load.job.JobLoader;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.quantity.Angles;

/** Overview pictures, rendered, measured from end to end against the renderer's truth. */
class PictureDetectionTest {
  private static final Job JOB = TestPanels.mixed();
  private static final DetectionOptions FAR =
      DetectionOptions.withDefaults().cameraDistance(Double.POSITIVE_INFINITY);

  /** A picture as an engineer would take it: noise, shadow, texture, JPEG, a little turned. */
  @Test
  void measuresAnOrdinaryPicture() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 5);
    DetectionResult r = detect(truth, RenderSettings.at(20).noise(3).jpeg(90).turn(3.3));
    Measured m = Measured.of(r, truth);
    System.out.println(m.line("20 px/mm, JPEG 90, turned 3"));
    MapReport map = r.maps().get(0);
    assertEquals(RegisteredOn.FIDUCIALS, map.registeredOn());
    assertEquals(20, map.pxPerMm(), 0.02);
    assertEquals(3.3, map.rotationDeg(), 0.02);
    assertTrue(m.errors.size() >= 0.9 * truth.size(), "found " + m.errors.size());
    // What all readings share is the map's error: it must be what the map says of itself.
    double share = 3 * map.uncertaintyMm();
    assertTrue(Math.abs(m.meanX()) < share && Math.abs(m.meanY()) < share, m.line("bias"));
    assertTrue(m.mostRms() < 0.006, m.line("spread"));
    assertTrue(m.within(2) > 0.8, m.line("coverage"));
  }

  /** A picture taken upside down is a map turned by 180 degrees, nothing else. */
  @Test
  void findsAPictureThatIsUpsideDown() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 6);
    DetectionResult r = detect(truth, RenderSettings.at(16).noise(2).turn(180));
    assertEquals(180, Math.abs(r.maps().get(0).rotationDeg()), 0.05);
    Measured m = Measured.of(r, truth);
    System.out.println(m.line("16 px/mm, turned 180"));
    assertTrue(m.errors.size() >= 0.85 * truth.size(), "found " + m.errors.size());
    assertTrue(m.mostRms() < 0.008, m.line("spread"));
  }

  @Test
  void measuresAMirroredPictureAndSaysSo() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 7);
    DetectionResult r = detect(truth, RenderSettings.at(16).noise(2).fromBehind());
    assertTrue(r.maps().get(0).mirrored());
    assertTrue(
        r.notes()
            .contains(
                "the picture is mirrored; it was measured as seen from the placed side"
                    + " (if it was not taken so, check 'side' and 'axes' in the job)"),
        r.notes().toString());
    Measured m = Measured.of(r, truth);
    System.out.println(m.line("16 px/mm, mirrored"));
    assertTrue(m.errors.size() >= 0.85 * truth.size(), "found " + m.errors.size());
    assertTrue(m.mostRms() < 0.008, m.line("spread"));
  }

  /** Missing and quarter-turned parts are told, not measured as if they were there. */
  @Test
  void tellsMissingAndTurnedParts() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 8);
    List<String> gone = List.of("1/1/R7", "1/1/R20", "1/1/R33", "1/1/U1");
    List<String> turned = List.of("1/1/R2", "1/1/R17", "1/1/R30");
    gone.forEach(truth::remove);
    for (String id : turned) {
      Pose p = truth.get(id);
      truth.put(id, new Pose(p.xMm(), p.yMm(), p.rotationDeg() + 90));
    }
    DetectionResult r = detect(truth, RenderSettings.at(20).noise(3));
    for (PlacementReading p : r.readings()) {
      if (gone.contains(p.id())) {
        assertFalse(p.status() == ReadingStatus.FOUND, p.id() + " is not there: " + p);
      } else if (turned.contains(p.id()) && p.status() == ReadingStatus.FOUND) {
        double d = Angles.wrap(p.pose().rotationDeg() - truth.get(p.id()).rotationDeg(), 2);
        assertEquals(0, d, 3, p.id() + " is turned by 90: " + p);
      }
    }
    long missing =
        r.readings().stream()
            .filter(p -> gone.contains(p.id()) && p.status() == ReadingStatus.MISSING)
            .count();
    System.out.println("bare lands recognised: " + missing + " of 4");
    assertEquals(4, missing, "bare lands recognised");
  }

  /** Parallax: tall parts lean outwards unless the camera's distance is given. */
  @Test
  void takesParallaxOutWhereTheCameraDistanceIsKnown() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0, 0, 9);
    try (Picture p =
        PanelRenderer.render(JOB, truth, RenderSettings.at(20).noise(2).distance(150)).picture()) {
      Measured without = Measured.of(PictureDetection.single(JOB, p, FAR), truth);
      Measured with = Measured.of(PictureDetection.single(JOB, p, FAR.cameraDistance(150)), truth);
      Measured unknown =
          Measured.of(PictureDetection.single(JOB, p, DetectionOptions.withDefaults()), truth);
      System.out.println(without.line("parallax ignored"));
      System.out.println(with.line("parallax taken out"));
      System.out.println(unknown.line("parallax in uncertainty"));
      assertTrue(with.mostRms() < 0.5 * without.mostRms(), with.line("with"));
      assertTrue(unknown.within(2) > 0.9, unknown.line("uncertainty admits it"));
    }
  }

  /**
   * Errors over stated uncertainties, other lamps and colours than the one the uncertainty of lit
   * sides was set by. A device known to be straight, so that only fit and map are in it.
   */
  @Test
  void statedUncertaintiesAreHonest() {
    List<RenderSettings> lights =
        List.of(
            RenderSettings.at(20).noise(3).light(200, 0.6).turn(3.3),
            RenderSettings.at(20).noise(3).light(35, 0),
            RenderSettings.at(20).noise(3).mask(RenderSettings.RED).seed(3));
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 5);
    double z = 0;
    double turn = 0;
    int n = 0;
    for (RenderSettings s : lights) {
      try (Picture p = PanelRenderer.render(JOB, truth, s).picture()) {
        DetectionResult r = PictureDetection.single(JOB, p, FAR.straightDevice());
        Measured m = Measured.of(r, truth);
        System.out.println(m.line("stated uncertainty"));
        for (Measured.Error e : m.errors) {
          z += (e.x() * e.x() + e.y() * e.y()) / (2 * e.u() * e.u());
          turn += e.turn() * e.turn() / (e.uTurn() * e.uTurn());
          n++;
        }
      }
    }
    System.out.printf(
        "z of poses: RMS %.2f, of rotations %.2f, %d poses%n",
        Math.sqrt(z / n), Math.sqrt(turn / n), n);
    // Careful rather than bold: up to 1.2 too small or half as large again is what light does.
    assertTrue(Math.sqrt(z / n) > 0.5 && Math.sqrt(z / n) < 1.2, "z " + Math.sqrt(z / n));
    assertTrue(Math.sqrt(turn / n) > 0.5 && Math.sqrt(turn / n) < 1.2, "z " + Math.sqrt(turn / n));
  }

  /** Where nobody described the lands, two bare ones look like a chip: never accepted. */
  @Test
  void bareLandsThatNobodyDescribedAreNoParts() {
    Job known = TestPanels.withLandsOf(JOB, Set.of());
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 14);
    List<String> gone = List.of("1/1/R1", "1/1/R5", "1/1/R12", "1/1/R20", "1/1/R33", "1/1/R41");
    gone.forEach(truth::remove);
    try (Picture p =
        PanelRenderer.render(JOB, truth, RenderSettings.at(20).noise(2).turn(2)).picture()) {
      DetectionResult r = PictureDetection.single(known, p, FAR);
      for (PlacementReading q : r.readings()) {
        if (gone.contains(q.id())) {
          System.out.println("bare, not described: " + q.placement().part() + " " + q.status());
          assertTrue(q.status() != ReadingStatus.FOUND, q.toString());
        }
      }
      assertTrue(r.count(ReadingStatus.FOUND) > 0.9 * truth.size(), r.maps().toString());
    }
  }

  /** Without fiducials and lands the parts themselves hold the map: what it cannot know is said. */
  @ParameterizedTest
  @ValueSource(doubles = -118)
  void registersOnThePartsWhereFiducialsAreMissing(double turn) {
    Job bare = TestPanels.withLandsOf(TestPanels.withoutFiducials(JOB), Set.of());
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 12);
    try (Picture p =
        PanelRenderer.render(JOB, truth, RenderSettings.at(16).noise(2).turn(turn)).picture()) {
      DetectionResult r = PictureDetection.single(bare, p, FAR);
      assertTrue(r.partsRegistered(), r.maps().toString());
      assertEquals(turn, r.maps().get(0).rotationDeg(), 0.2);
      assertTrue(r.count(ReadingStatus.FOUND) > 0.8 * truth.size(), r.maps().toString());
    }
  }

  /**
   * One fiducial fixes the place and the parts the turn: shift can then be known, and the parts'
   * mean offset, that would be lost on parts alone, comes back.
   */
  @Test
  void aSingleFiducialHoldsThePlace() {
    Job one =
        TestPanels.withLandsOf(
            TestPanels.withFiducials(JOB, JOB.fiducials().subList(0, 1)), Set.of());
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.02, 0.5, 12);
    truth.replaceAll((id, p) -> new Pose(p.xMm() + 0.12, p.yMm() - 0.07, p.rotationDeg()));
    try (Picture p =
        PanelRenderer.render(JOB, truth, RenderSettings.at(16).noise(2).turn(2)).picture()) {
      DetectionResult r = PictureDetection.single(one, p, FAR);
      MapReport map = r.maps().get(0);
      assertTrue(r.partsRegistered(), map.toString());
      assertEquals(1, map.marks().stream().filter(MarkReport::used).count(), map.toString());
      Measured m = Measured.of(r, truth);
      System.out.println(m.line("one fiducial"));
      assertTrue(m.errors.size() > 0.8 * truth.size(), m.line("found"));
      // Turn and scale come from parts that scatter by 20 um: the mean suffers by less than half.
      assertEquals(0, m.meanX(), 0.01, m.line("x"));
      assertEquals(0, m.meanY(), 0.01, m.line("y"));
    }
  }

  /**
   * A camera near the panel, tilted: whichever way the picture is laid on, it is refused and never
   * measured as if square on. The tilt that is said is right within a third.
   */
  @ParameterizedTest
  @MethodSource("tilts")
  void neverMeasuresATiltedPictureAsSquare(double tilt) {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 10);
    try (Picture p =
        PanelRenderer.render(JOB, truth, RenderSettings.at(16).noise(2).distance(200).tilt(tilt))
            .picture()) {
      InputException e =
          assertThrows(
              InputException.class,
              () -> PictureDetection.single(JOB, p, DetectionOptions.withDefaults()));
      String s = e.problems().get(0).sentence();
      System.out.println("tilt " + tilt + ": " + s);
      Matcher said = Pattern.compile("taken (?:about )?(\\d+) degrees off the vertical").matcher(s);
      assertTrue(said.find(), s);
      assertEquals(tilt, Double.parseDouble(said.group(1)), tilt / 3, s);
    }
  }

  @Test
  void refusesAnObliquePictureWithItsTilt() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.03, 0.5, 10);
    InputException e =
        assertThrows(
            InputException.class,
            () -> detect(truth, RenderSettings.at(16).noise(2).distance(200).tilt(25)));
    String s = e.problems().get(0).sentence();
    assertTrue(
        s.matches(
            "rendered.png: the picture was taken 2[3-7] degrees off the vertical; at most 10 can be"
                + " measured; take it from straight above"),
        s);
  }

  /**
   * Three fiducials take a tilt for unequal scales; how much larger the near side looks is in the
   * uncertainty. The camera's distance is known, so that nothing else fills it.
   */
  @Test
  void threeFiducialsAdmitThePerspectiveTheyHide() {
    Map<String, Pose> truth = TestPanels.scattered(JOB, 0.02, 0.5, 5);
    RenderSettings s = RenderSettings.at(16).noise(2).distance(200).tilt(4);
    try (Picture p = PanelRenderer.render(JOB, truth, s).picture()) {
      DetectionOptions near = DetectionOptions.withDefaults().cameraDistance(200);
      DetectionResult r = PictureDetection.single(JOB, p, near.straightDevice());
      assertEquals(MapFamily.AFFINE, r.maps().get(0).family());
      Measured m = Measured.of(r, truth);
      System.out.println(m.line("tilt 4, three fiducials"));
      assertTrue(m.rms() > 0.04, "no perspective to hide: " + m.line(""));
      assertTrue(m.within(2) > 0.9, m.line("coverage"));
    }
  }

  private static Job withFourth(double x, double y) {
    List<Fiducial> marks = new ArrayList<>(JOB.fiducials());
    marks.add(TestPanels.fiducial("F4", x, y));
    return TestPanels.job(
        JOB.placements(), marks, JOB.array(), JOB.parts().values().toArray(new PartType[0]));
  }

  /** With four fiducials a view from the side is measured in perspective. */
  @Test
  void fourFiducialsShowThePerspective() {
    Job four = withFourth(39, 30);
    Map<String, Pose> truth = TestPanels.scattered(four, 0.02, 0.5, 8);
    RenderSettings s = RenderSettings.at(16).noise(2).distance(200).tilt(8);
    try (Picture p = PanelRenderer.render(four, truth, s).picture()) {
      DetectionOptions near = DetectionOptions.withDefaults().cameraDistance(200);
      DetectionResult r = PictureDetection.single(four, p, near.straightDevice());
      assertEquals(MapFamily.HOMOGRAPHY, r.maps().get(0).family());
      assertEquals(8, r.maps().get(0).tiltDeg(), 0.3);
      Measured m = Measured.of(r, truth);
      System.out.println(m.line("tilt 8, four fiducials"));
      assertTrue(m.rms() < 0.012, m.line("spread"));
    }
  }

  /** The fourth lies under a part, whose corner is read for it: three agree without it. */
  @Test
  void aWrongFourthFiducialIsNoPerspective() {
    Job four = withFourth(37, 27);
    Map<String, Pose> truth = TestPanels.scattered(four, 0.02, 0.5, 8);
    try (Picture p = PanelRenderer.render(four, truth, RenderSettings.at(16).noise(2)).picture()) {
      DetectionResult r = PictureDetection.single(four, p, DetectionOptions.withDefaults());
      MapReport map = r.maps().get(0);
      Measured m = Measured.of(r, truth);
      System.out.println(m.line("a wrong fourth fiducial, " + map.family()));
      assertEquals(MapFamily.SIMILARITY, map.family());
      assertTrue(map.marks().stream().noneMatch(k -> k.name().equals("F4") && k.used()));
      assertTrue(m.rms() < 0.012, m.line("spread"));
    }
  }

  /**
   * The sample's picture, half as bright: black bodies are still no dark ground, and the bare lands
   * of the one part that was not placed are still bare.
   */
  @Test
  void aDarkPictureShowsTheSameParts() throws Exception {
    Path folder = PictureSampleMaker.FOLDER;
    Job sample = JobLoader.load(folder.resolve("job.json")).orThrow();
    Mat half = new Mat();
    try (Picture bright = PictureReader.read(folder.resolve("panel.jpg"))) {
      bright.mat().convertTo(half, -1, 0.5, 0);
    }
    try (Picture p = new Picture("dark.png", half)) {
      DetectionResult r = PictureDetection.single(sample, p, FAR.straightDevice());
      assertTrue(r.count(ReadingStatus.FOUND) >= 65, "found " + r.count(ReadingStatus.FOUND));
      assertEquals(1, r.count(ReadingStatus.MISSING));
    }
  }

  /**
   * The sample's picture out of focus: silk beside a chip, its dark middle between, is no chip that
   * lies across. All parts of the sample lie as they should.
   */
  @ParameterizedTest
  @MethodSource("blurs")
  void silkBesideAChipIsNotTakenForItsEnds(double blurPx) throws Exception {
    Path folder = PictureSampleMaker.FOLDER;
    Job sample = JobLoader.load(folder.resolve("job.json")).orThrow();
    try (Picture sharp = PictureReader.read(folder.resolve("panel.jpg"));
        Picture p = sharp.softened(blurPx)) {
      DetectionResult r = PictureDetection.single(sample, p, FAR.straightDevice());
      List<String> across =
          r.readings().stream()
              .filter(q -> q.status() == ReadingStatus.FOUND)
              .filter(q -> Math.abs(turn(q)) > 20)
              .map(PlacementReading::id)
              .toList();
      System.out.println("blur " + blurPx + " px: found " + r.count(ReadingStatus.FOUND));
      assertEquals(List.of(), across);
      assertTrue(r.count(ReadingStatus.FOUND) > 50, "found " + r.count(ReadingStatus.FOUND));
    }
  }

  private static Stream<Double> tilts() {
    return Study.cases(1, 12.0, 20.0);
  }

  private static Stream<Double> blurs() {
    return Study.cases(1, 2.0, 1.3, 2.5);
  }

  private static double turn(PlacementReading q) {
    return Angles.wrap(q.pose().rotationDeg() - q.nominal().rotationDeg(), 2);
  }

  private static DetectionResult detect(Map<String, Pose> truth, RenderSettings s) {
    try (Picture p = PanelRenderer.render(JOB, truth, s).picture()) {
      return PictureDetection.single(JOB, p, FAR);
    }
  }
}
