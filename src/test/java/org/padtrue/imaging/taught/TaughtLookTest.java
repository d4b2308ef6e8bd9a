package org.padtrue.imaging.taught;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.imaging.DetectionOptions;
import org.padtrue.imaging.DetectionResult;
import org.padtrue.imaging.OddShapes;
import org.padtrue.imaging.PanelRenderer;
import org.padtrue.imaging.PictureDetection;
import org.padtrue.imaging.RenderSettings;
import org.padtrue.imaging.TestPanels;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Parts that no rectangle describes, measured by the look of one sample: bias, spread, stated
 * uncertainty; and what is said of parts that are missing, turned or others. In full many more
 * pictures are looked at.
 */
class TaughtLookTest {
  private static final boolean FULL = Study.FULL;
  private static final String SAMPLE = "U1";

  private static final List<String> ODD_NAMES =
      List.of("missing", "turned by 90", "turned by 180", "another part");

  /** Sites: missing, turned by 90, by 180, another part. */
  private static final List<String> ODD = List.of("U4", "U6", "U9", "U11");

  private static Job job(PartType t) {
    List<Placement> p = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      p.add(
          TestPanels.place(
              "U" + (i + 1), t, 4 + 5.5 * (i % 4), 4 + 5 * (i / 4), 90 * ((i + i / 4) % 4)));
    }
    return TestPanels.job(
        p,
        List.of(
            TestPanels.fiducial("F1", 0, 0),
            TestPanels.fiducial("F2", 25, 0.5),
            TestPanels.fiducial("F3", 0.5, 23)),
        t,
        OddShapes.ANGLE,
        OddShapes.PILL);
  }

  /** The same job, one place filled with another type. */
  private static Job mixedUp(Job job, PartType other) {
    List<Placement> p = new ArrayList<>();
    for (Placement q : job.placements()) {
      boolean wrong = q.ref().equals(ODD.get(3));
      p.add(
          wrong
              ? TestPanels.place(
                  q.ref(), other, q.pose().xMm(), q.pose().yMm(), q.pose().rotationDeg())
              : q);
    }
    return TestPanels.job(p, job.fiducials(), OddShapes.ANGLE, OddShapes.PILL);
  }

  private static DetectionOptions options() {
    return DetectionOptions.withDefaults()
        .cameraDistance(Double.POSITIVE_INFINITY)
        .straightDevice();
  }

  /** Teaches from one picture; the sample's true deviation is given. */
  private static DetectionResult teach(PartType t, RenderSettings s, Map<String, Pose> truth) {
    Job job = job(t);
    Pose n = job.placements().get(0).pose();
    Pose is = truth.get("1/1/" + SAMPLE);
    Pose off = new Pose(is.xMm() - n.xMm(), is.yMm() - n.yMm(), is.rotationDeg() - n.rotationDeg());
    double length = t == OddShapes.ANGLE ? 3.4 : Double.NaN;
    TeachRequest r = new TeachRequest(1, 1, SAMPLE, length, 3.2, off, 0.0005, 0.01);
    try (Picture p = PanelRenderer.render(job, truth, s).picture()) {
      return PictureDetection.single(job, p, options().teach(List.of(r)));
    }
  }

  @Test
  void measuresShapesThatNoRectangleDescribes() {
    List<String> wrong = new ArrayList<>();
    Map<String, Integer> told = new TreeMap<>();
    for (PartType t : List.of(OddShapes.ANGLE, OddShapes.PILL)) {
      Job job = job(t);
      Map<String, Pose> first = TestPanels.scattered(job, 0.04, 1, 11);
      DetectionResult taught = teach(t, RenderSettings.at(20).noise(2).seed(5), first);
      Tally tally = new Tally();
      tally.add(taught, first);
      for (int k = 0; k < (FULL ? 12 : 1); k++) {
        Map<String, Pose> truth = TestPanels.scattered(job, 0.08, 3, 12 + k);
        Map<String, Pose> drawn = upset(truth, t);
        PartType other = t == OddShapes.ANGLE ? OddShapes.PILL : OddShapes.ANGLE;
        RenderSettings s =
            RenderSettings.at(FULL ? 16 + 2 * (k % 4) : 22)
                .noise(3)
                .turn(FULL ? 30 * k + 4 : 4)
                .light(120 + 50 * k, 0.4)
                .blur(0.7 + 0.1 * (k % 4))
                .seed(60 + k);
        try (Picture p = PanelRenderer.render(mixedUp(job, other), drawn, s).picture()) {
          DetectionResult d = PictureDetection.single(job, p, options().taught(taught.taught()));
          for (PlacementReading q : d.readings()) {
            int odd = ODD.indexOf(q.placement().ref());
            if (odd >= 0) {
              told.merge(ODD_NAMES.get(odd) + ": " + q.status().words(), 1, Integer::sum);
              if (odd != 1 && odd != 2 && q.status() == ReadingStatus.FOUND
                  || q.status() == ReadingStatus.FOUND && turnedOff(q, drawn) > 5) {
                wrong.add(k + ": " + q);
              }
            }
          }
          tally.add(without(d, ODD), truth);
        }
      }
      System.out.println(tally.line(t.name()));
      assertTrue(tally.e.size() >= 0.97 * tally.expected, tally.line(t.name()));
      // What the sample's own noise moved is common to all: a few of its standard uncertainties.
      assertTrue(Math.abs(tally.mean(0)) + Math.abs(tally.mean(1)) < 0.005, tally.line(t.name()));
      assertTrue(tally.sd(0) < 0.0025 && tally.sd(1) < 0.0025, "0.05 px: " + tally.line(t.name()));
      assertTrue(tally.within() > 0.68 && tally.withinTurn() > 0.6, tally.line(t.name()));
    }
    System.out.println(told);
    assertEquals(List.of(), wrong, "accepted wrongly");
  }

  private static double turnedOff(PlacementReading q, Map<String, Pose> drawn) {
    int symmetry = q.placement().part().equals("PILL") ? 2 : 1;
    return Math.abs(
        Angles.wrap(q.pose().rotationDeg() - drawn.get(q.id()).rotationDeg(), symmetry));
  }

  private static DetectionResult without(DetectionResult d, List<String> refs) {
    return new DetectionResult(
        d.readings().stream().filter(q -> !refs.contains(q.placement().ref())).toList(),
        d.maps(),
        d.reversal(),
        d.notes(),
        d.taught());
  }

  private static Map<String, Pose> upset(Map<String, Pose> truth, PartType t) {
    Map<String, Pose> out = new java.util.LinkedHashMap<>(truth);
    out.remove("1/1/" + ODD.get(0));
    for (int i = 1; i <= 2; i++) {
      Pose p = out.get("1/1/" + ODD.get(i));
      out.put("1/1/" + ODD.get(i), new Pose(p.xMm(), p.yMm(), p.rotationDeg() + 90 * i));
    }
    return out;
  }

  /** Errors in the part frame, which is where a taught look errs. */
  private static final class Tally {
    final List<double[]> e = new ArrayList<>();
    int expected;

    void add(DetectionResult d, Map<String, Pose> truth) {
      for (PlacementReading q : d.readings()) {
        if (q.placement().ref().equals(SAMPLE)) {
          continue;
        }
        expected++;
        if (q.status() != ReadingStatus.FOUND) {
          continue;
        }
        Pose t = truth.get(q.id());
        double dx = q.pose().xMm() - t.xMm();
        double dy = q.pose().yMm() - t.yMm();
        double a = Math.toRadians(t.rotationDeg());
        int symmetry = q.placement().part().equals("PILL") ? 2 : 1;
        double turn = Angles.wrap(q.pose().rotationDeg() - t.rotationDeg(), symmetry);
        e.add(
            new double[] {
              Math.cos(a) * dx + Math.sin(a) * dy,
              -Math.sin(a) * dx + Math.cos(a) * dy,
              turn,
              q.uMm(),
              q.uRotationDeg()
            });
      }
    }

    double mean(int i) {
      return e.stream().mapToDouble(v -> v[i]).average().orElse(Double.NaN);
    }

    double sd(int i) {
      double m = mean(i);
      return Math.sqrt(e.stream().mapToDouble(v -> Math.pow(v[i] - m, 2)).average().orElse(0));
    }

    double within() {
      return e.stream()
          .mapToDouble(v -> (Math.abs(v[0]) < v[3] ? 0.5 : 0) + (Math.abs(v[1]) < v[3] ? 0.5 : 0))
          .average()
          .orElse(0);
    }

    double withinTurn() {
      return e.stream().mapToDouble(v -> Math.abs(v[2]) < v[4] ? 1 : 0).average().orElse(0);
    }

    double z() {
      return Math.sqrt(
          e.stream()
              .mapToDouble(v -> (v[0] * v[0] + v[1] * v[1]) / 2 / (v[3] * v[3]))
              .average()
              .orElse(0));
    }

    String line(String name) {
      return String.format(
          "%-6s found %d of %d, bias %.1f %.1f um %.3f deg, SD %.1f %.1f um %.3f deg, u %.1f um,"
              + " %.3f deg, within u %.2f, rotation %.2f, z %.2f",
          name,
          e.size(),
          expected,
          1000 * mean(0),
          1000 * mean(1),
          mean(2),
          1000 * sd(0),
          1000 * sd(1),
          sd(2),
          1000 * mean(3),
          mean(4),
          within(),
          withinTurn(),
          z());
    }
  }
}
