package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Measurement;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Side;
import org.padtrue.panel.Stage;
import org.padtrue.panel.Unplaced;

/**
 * Invented panels for the picture tests. Body sizes are the nominal ones of IEC 60115-8 (chips),
 * JEDEC MS-012 (SO8), TO-236 (SOT23), MS-026 (QFP) and MO-220 (QFN); lands are invented.
 */
public final class TestPanels {
  static final PartType R0402 = chip("R0402", 1.0, 0.5, 0.25, 0.35);
  static final PartType R0603 = chip("R0603", 1.6, 0.8, 0.3, 0.45);
  static final PartType C0603 = chip("C0603", 1.6, 0.8, 0.35, 0.8);
  static final PartType R0805 = chip("R0805", 2.0, 1.25, 0.4, 0.5);
  static final PartType SO8 = so8();
  static final PartType SOT23 = sot23();
  static final PartType QFP44 = qfp44();
  static final PartType QFN16 = qfn16();

  private TestPanels() {}

  static PartType chip(String name, double l, double w, double end, double height) {
    double x = l / 2 - end / 2;
    List<Rect> terms = List.of(new Rect(-x, 0, end, w), new Rect(x, 0, end, w));
    double land = end + 0.45;
    double lx = l / 2 + 0.3 - land / 2;
    List<Rect> lands = List.of(new Rect(-lx, 0, land, w * 1.1), new Rect(lx, 0, land, w * 1.1));
    return new PartType(
        name, JointKind.CHIP, 2, true, new Rect(0, 0, l, w), height, terms, lands, null, null);
  }

  private static PartType so8() {
    List<Rect> terms = new ArrayList<>();
    List<Rect> lands = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      double side = i < 4 ? -1 : 1;
      double y = (i % 4 - 1.5) * 1.27;
      terms.add(new Rect(side * 2.7, y, 0.6, 0.41));
      lands.add(new Rect(side * 2.6, y, 1.5, 0.6));
    }
    return new PartType(
        "SO8",
        JointKind.GULL_WING,
        1,
        false,
        new Rect(0, 0, 3.9, 4.9),
        1.5,
        terms,
        lands,
        null,
        null);
  }

  private static PartType sot23() {
    List<Rect> terms =
        List.of(
            new Rect(-1.0, 0.95, 0.4, 0.4),
            new Rect(-1.0, -0.95, 0.4, 0.4),
            new Rect(1.0, 0, 0.4, 0.4));
    List<Rect> lands =
        List.of(
            new Rect(-1.0, 0.95, 0.9, 0.8),
            new Rect(-1.0, -0.95, 0.9, 0.8),
            new Rect(1.0, 0, 0.9, 0.8));
    return new PartType(
        "SOT23",
        JointKind.GULL_WING,
        1,
        true,
        new Rect(0, 0, 1.3, 2.9),
        1.0,
        terms,
        lands,
        null,
        null);
  }

  private static PartType qfp44() {
    List<Rect> terms = new ArrayList<>();
    List<Rect> lands = new ArrayList<>();
    for (int i = 0; i < 11; i++) {
      double t = (i - 5) * 0.8;
      for (int s = -1; s <= 1; s += 2) {
        terms.add(new Rect(s * 5.7, t, 0.6, 0.37));
        terms.add(new Rect(t, s * 5.7, 0.37, 0.6));
        lands.add(new Rect(s * 5.7, t, 1.5, 0.5));
        lands.add(new Rect(t, s * 5.7, 0.5, 1.5));
      }
    }
    return new PartType(
        "QFP44",
        JointKind.GULL_WING,
        1,
        false,
        new Rect(0, 0, 10, 10),
        1.4,
        terms,
        lands,
        null,
        null);
  }

  private static PartType qfn16() {
    List<Rect> terms = new ArrayList<>();
    List<Rect> lands = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      double t = (i - 1.5) * 0.5;
      for (int s = -1; s <= 1; s += 2) {
        terms.add(new Rect(s * 1.3, t, 0.4, 0.25));
        terms.add(new Rect(t, s * 1.3, 0.25, 0.4));
        lands.add(new Rect(s * 1.5, t, 0.8, 0.28));
        lands.add(new Rect(t, s * 1.5, 0.28, 0.8));
      }
    }
    return new PartType(
        "QFN16", JointKind.NO_LEAD, 4, false, new Rect(0, 0, 3, 3), 0.85, terms, lands, null, null);
  }

  public static Job job(List<Placement> placements, List<Fiducial> fiducials, PartType... types) {
    return job(placements, fiducials, BoardArray.single(), types);
  }

  public static Job job(
      List<Placement> placements, List<Fiducial> fiducials, BoardArray array, PartType... types) {
    Map<String, PartType> parts = new HashMap<>();
    for (PartType t : types) {
      parts.put(t.name(), t);
    }
    return new Job(
        "picture test",
        Side.TOP,
        Stage.PASTE,
        placements,
        List.of(),
        parts,
        array,
        fiducials,
        2,
        Machine.withDefaults(),
        Measurement.withDefaults(),
        List.of());
  }

  public static Placement place(String ref, PartType t, double x, double y, double rotation) {
    return new Placement(ref, t.name(), new Pose(x, y, rotation), Levels.NONE, Double.NaN, 0);
  }

  public static Fiducial fiducial(String name, double x, double y) {
    return new Fiducial(name, x, y, 1.0, Fiducial.Scope.PANEL);
  }

  /** A grid of one type at all four quarter turns. */
  static Job grid(PartType t, int columns, int rows, double pitchMm) {
    List<Placement> p = new ArrayList<>();
    for (int i = 0; i < columns * rows; i++) {
      p.add(
          place("U" + (i + 1), t, (i % columns) * pitchMm, (i / columns) * pitchMm, 90 * (i % 4)));
    }
    return job(p, List.of(), t);
  }

  /** A small mixed board, 40 x 30 mm, three fiducials not in line. */
  public static Job mixed() {
    List<Placement> p = new ArrayList<>();
    Random r = new Random(11);
    PartType[] chips = {R0402, R0603, C0603, R0805};
    int n = 1;
    for (int row = 0; row < 5; row++) {
      for (int col = 0; col < 9; col++) {
        PartType t = chips[r.nextInt(4)];
        p.add(place("R" + n++, t, 3 + col * 3.6, 3 + row * 2.8, 90 * r.nextInt(4)));
      }
    }
    p.add(place("U1", SO8, 6, 23, 0));
    p.add(place("U2", SO8, 14, 23, 90));
    p.add(place("U3", QFN16, 21, 21.9, 0));
    p.add(place("U4", SOT23, 21, 25.5, 90));
    p.add(place("U5", SOT23, 3, 27.6, 0));
    p.add(place("U6", QFP44, 32, 22.5, 0));
    p.add(place("U7", QFN16, 21, 17.4, 90));
    List<Fiducial> f =
        List.of(fiducial("F1", 0, 0), fiducial("F2", 38.5, 0.5), fiducial("F3", 0.5, 28));
    return job(p, f, R0402, R0603, C0603, R0805, SO8, QFN16, SOT23, QFP44);
  }

  /** True poses: nominal plus normal deviations. */
  public static Map<String, Pose> scattered(Job job, double sdMm, double sdDeg, long seed) {
    Random r = new Random(seed);
    Map<String, Pose> out = new LinkedHashMap<>();
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose q = p.pose().seenFrom(b.origin());
        out.put(
            b.index() + "/" + p.ref(),
            new Pose(
                q.xMm() + sdMm * r.nextGaussian(),
                q.yMm() + sdMm * r.nextGaussian(),
                q.rotationDeg() + sdDeg * r.nextGaussian()));
      }
    }
    return out;
  }

  /** The same job, its fiducials not known. */
  static Job withoutFiducials(Job j) {
    return withFiducials(j, List.of());
  }

  /** The same job with these fiducials only. */
  static Job withFiducials(Job j, List<Fiducial> fiducials) {
    return copy(j, j.unplaced(), j.parts(), fiducials);
  }

  /** The same job with rows that are not fitted: their lands lie bare. */
  static Job notFitted(Job j, List<Unplaced> bare) {
    return copy(j, bare, j.parts(), j.fiducials());
  }

  /** The same job, the lands of all types but some not known. */
  static Job withLandsOf(Job j, Set<PartType> known) {
    Map<String, PartType> parts = new HashMap<>();
    j.parts()
        .forEach((name, t) -> parts.put(name, known.contains(t) ? t : withLands(t, List.of())));
    return copy(j, j.unplaced(), parts, j.fiducials());
  }

  /** The same job with one part type more, or another one of that name. */
  static Job withPart(Job j, PartType more) {
    Map<String, PartType> parts = new HashMap<>(j.parts());
    parts.put(more.name(), more);
    return copy(j, j.unplaced(), parts, j.fiducials());
  }

  private static Job copy(
      Job j, List<Unplaced> unplaced, Map<String, PartType> parts, List<Fiducial> fiducials) {
    return new Job(
        j.name(),
        j.side(),
        j.stage(),
        j.placements(),
        unplaced,
        parts,
        j.array(),
        fiducials,
        j.acceptanceClass(),
        j.machine(),
        j.measurement(),
        j.notes());
  }

  /** The type with its first land longer towards the outside. */
  static PartType withFirstLandLonger(PartType t, double mm) {
    List<Rect> lands = new ArrayList<>(t.lands());
    Rect r = lands.get(0);
    double out = Math.signum(r.xMm()) * mm / 2;
    lands.set(0, new Rect(r.xMm() + out, r.yMm(), r.lengthMm() + mm, r.widthMm()));
    return withLands(t, lands);
  }

  private static PartType withLands(PartType t, List<Rect> lands) {
    return new PartType(
        t.name(),
        t.kind(),
        t.symmetry(),
        t.selfCentres(),
        t.body(),
        t.bodyHeightMm(),
        t.terminations(),
        lands,
        t.envelope(),
        t.tolerance());
  }
}
