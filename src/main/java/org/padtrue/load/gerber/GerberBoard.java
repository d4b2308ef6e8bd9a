package org.padtrue.load.gerber;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.standard.StandardBox;
import org.padtrue.load.standard.StandardData;
import org.padtrue.load.standard.StandardMark;
import org.padtrue.load.standard.StandardRow;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Side;
import org.padtrue.quantity.Angles;
import org.padtrue.quantity.LengthUnit;

/**
 * Poses of the parts of a component layer, and the geometry of their types.
 *
 * <p>Rotation 0 of a bottom part is that of the top mirrored about the x axis, counter-clockwise
 * positive as seen from the top (specification 5.6); {@link StandardRow} counts from the mirror
 * about the y axis, half a turn further. Where parts of one footprint have pins, the pins rule:
 * most of the parts say how pins lie at rotation 0, and a part whose pins lie otherwise is turned,
 * and moved, as its pins show.
 */
final class GerberBoard {
  private static final double SAME_MM = 0.02;
  private static final double SAME_DEG = 0.5;
  // with so many arrangements no rotation of the footprint means anything
  private static final int MOST_SHAPES = 64;

  private final String file;
  private final Side side;
  private final LengthUnit unit;
  private final List<GerberPart> parts;
  private final List<Pose> boards;
  private final List<double[]> marks;
  private final StandardBox profile;
  private final Map<String, Integer> passedOver;
  private final ProblemList problems;
  private final List<String> notes = new ArrayList<>();
  private final List<String> turned = new ArrayList<>();
  private final List<String> moved = new ArrayList<>();
  private final List<String> byPins = new ArrayList<>();
  private final Map<String, Map<String, double[]>> templates = new LinkedHashMap<>();

  GerberBoard(
      String file,
      Side side,
      LengthUnit unit,
      List<GerberPart> parts,
      List<Pose> boards,
      List<double[]> marks,
      StandardBox profile,
      Map<String, Integer> passedOver) {
    this.file = file;
    this.side = side;
    this.unit = unit;
    this.parts = parts;
    this.boards = boards;
    this.marks = marks;
    this.profile = profile;
    this.passedOver = passedOver;
    this.problems = new ProblemList(file);
  }

  StandardData data() {
    templates();
    zero();
    List<StandardRow> rows = new ArrayList<>();
    Map<String, PartType> types = new LinkedHashMap<>();
    for (GerberPart p : parts) {
      if (p.type().isEmpty()) {
        problems.add(
            p.line,
            "the part " + TextPieces.quoted(p.ref) + " has neither footprint, package nor value",
            "export it with .CFtp, .CPgN or .CVal");
        continue;
      }
      Pose pose = pose(p);
      if (pose != null) {
        rows.add(new StandardRow(p.ref, p.type(), p.value, side, pose, true, p.line));
        PartType t = type(p, pose);
        if (t != null) {
          types.putIfAbsent(p.type(), t);
        }
      }
    }
    note(turned, "pins and .CRot disagree, the pins are taken for ");
    note(moved, "pins and the reference point disagree, the pins are taken for ");
    note(byPins, "without .CRot, turned as their pins show, ");
    List<String> skipped = new ArrayList<>();
    passedOver.forEach((what, n) -> skipped.add(n + " " + what));
    return new StandardData(
        file,
        "Gerber X3 component layer, " + side.name().toLowerCase(Locale.ROOT),
        unit,
        rows,
        boards,
        marks(rows),
        types,
        profile.isEmpty() ? null : profile,
        List.of(TextPieces.count(templates.size(), "footprint") + " with pins"),
        skipped,
        notes,
        problems.all());
  }

  private void note(List<String> refs, String words) {
    if (!refs.isEmpty()) {
      notes.add(file + ": " + words + TextPieces.list(refs, 6) + ".");
    }
  }

  /** The pins of a part relative to it, turned back (and mirrored back) by a rotation. */
  private Map<String, double[]> turnedBack(GerberPart p, double rotation) {
    double c = Angles.cosDeg(rotation);
    double s = Angles.sinDeg(rotation);
    Map<String, double[]> m = new LinkedHashMap<>();
    p.pins.forEach(
        (name, at) -> {
          double dx = at[0] - p.x;
          double dy = at[1] - p.y;
          double v = -s * dx + c * dy;
          m.put(name, new double[] {c * dx + s * dy, side == Side.BOTTOM ? -v : v});
        });
    return m;
  }

  /** An arrangement of pins, and how many parts have it. */
  private static final class Shape {
    final Map<String, double[]> pins;
    int parts;

    Shape(Map<String, double[]> pins) {
      this.pins = pins;
    }

    boolean same(Map<String, double[]> other) {
      return pins.keySet().equals(other.keySet())
          && pins.entrySet().stream()
              .allMatch(e -> near(e.getValue(), other.getOrDefault(e.getKey(), e.getValue())));
    }

    private static boolean near(double[] a, double[] b) {
      return Math.hypot(a[0] - b[0], a[1] - b[1]) < 2 * SAME_MM;
    }
  }

  /** For each footprint the arrangement of pins at rotation 0 that most of its parts agree on. */
  private void templates() {
    Map<String, List<Shape>> found = new LinkedHashMap<>();
    for (GerberPart p : parts) {
      if (!p.pins.isEmpty() && !Double.isNaN(p.rotation)) {
        vote(found.computeIfAbsent(p.type(), t -> new ArrayList<>()), turnedBack(p, p.rotation));
      }
    }
    found.forEach(
        (type, shapes) -> {
          int all = shapes.stream().mapToInt(s -> s.parts).sum();
          shapes.stream()
              .filter(s -> s.parts * 2 > all)
              .findFirst()
              .ifPresent(s -> templates.put(type, s.pins));
        });
  }

  private static void vote(List<Shape> shapes, Map<String, double[]> pins) {
    for (Shape s : shapes) {
      if (s.same(pins)) {
        s.parts++;
        return;
      }
    }
    if (shapes.size() < MOST_SHAPES) {
      Shape s = new Shape(pins);
      s.parts = 1;
      shapes.add(s);
    }
  }

  /**
   * Writers differ in which mirror they count a bottom part's rotation from, and both put the same
   * pins elsewhere by half a turn. Rotation 0 is that of IPC-7351, where pin 1 lies left or, of a
   * single row, on top; where most footprints would have it the other way round, half a turn is
   * added to all.
   */
  private void zero() {
    int[] n = new int[2];
    if (side == Side.BOTTOM) {
      templates.values().forEach(t -> first(t, n));
    }
    if (n[1] > 2 * n[0]) {
      parts.forEach(p -> p.rotation += 180);
      templates.clear();
      templates();
      notes.add(
          file
              + ": rotations of the bottom are taken as counted from the mirror about the y axis;"
              + " pin 1 of "
              + n[1]
              + " of "
              + TextPieces.count(n[0] + n[1], "footprint")
              + " then lies left or on top at rotation 0.");
    }
  }

  /** Counts a footprint as one with pin 1 where it belongs, or where half a turn puts it. */
  private static void first(Map<String, double[]> pins, int[] n) {
    double[] one = pins.getOrDefault("1", pins.get("A1"));
    if (one == null || pins.size() < 2) {
      return;
    }
    double x = one[0] - pins.values().stream().mapToDouble(p -> p[0]).average().orElse(0);
    double y = one[1] - pins.values().stream().mapToDouble(p -> p[1]).average().orElse(0);
    boolean row = Math.abs(x) < 0.1 * Math.abs(y);
    double off = row ? y : -x;
    if (Math.abs(off) > SAME_MM) {
      n[off > 0 ? 0 : 1]++;
    }
  }

  private @Nullable Pose pose(GerberPart p) {
    Pose found = fit(p, templates.get(p.type()));
    if (Double.isNaN(p.rotation)) {
      if (found == null) {
        problems.add(
            p.line,
            "the part "
                + TextPieces.quoted(p.ref)
                + " has no rotation (.CRot), and no part of its footprint shows it",
            "export it with .CRot");
        return null;
      }
      byPins.add(p.ref);
      return canonical(found);
    }
    if (found == null) {
      return canonical(new Pose(p.x, p.y, p.rotation));
    }
    boolean otherTurn = Math.abs(Angles.wrap(found.rotationDeg() - p.rotation)) > SAME_DEG;
    boolean elsewhere = Math.hypot(found.xMm() - p.x, found.yMm() - p.y) > 2 * SAME_MM;
    if (otherTurn) {
      turned.add(p.ref);
    }
    if (elsewhere) {
      moved.add(p.ref);
    }
    return canonical(
        new Pose(
            elsewhere ? found.xMm() : p.x,
            elsewhere ? found.yMm() : p.y,
            otherTurn ? found.rotationDeg() : p.rotation));
  }

  private Pose canonical(Pose p) {
    double turn = side == Side.BOTTOM ? p.rotationDeg() + 180 : p.rotationDeg();
    return new Pose(p.xMm(), p.yMm(), Angles.wrap(turn));
  }

  /**
   * Lays the footprint's pins onto those of a part, by least squares; null when they do not fit.
   */
  private @Nullable Pose fit(GerberPart p, @Nullable Map<String, double[]> template) {
    if (template == null || p.pins.size() < 2 || !p.pins.keySet().equals(template.keySet())) {
      return null;
    }
    double flip = side == Side.BOTTOM ? -1 : 1;
    int n = p.pins.size();
    double mx = 0;
    double my = 0;
    double tx = 0;
    double ty = 0;
    for (Map.Entry<String, double[]> e : p.pins.entrySet()) {
      double[] t = template.getOrDefault(e.getKey(), e.getValue());
      mx += e.getValue()[0] / n;
      my += e.getValue()[1] / n;
      tx += t[0] / n;
      ty += flip * t[1] / n;
    }
    double along = 0;
    double across = 0;
    double before = 0;
    double after = 0;
    for (Map.Entry<String, double[]> e : p.pins.entrySet()) {
      double[] t = template.getOrDefault(e.getKey(), e.getValue());
      double ax = t[0] - tx;
      double ay = flip * t[1] - ty;
      double bx = e.getValue()[0] - mx;
      double by = e.getValue()[1] - my;
      along += ax * bx + ay * by;
      across += ax * by - ay * bx;
      before += ax * ax + ay * ay;
      after += bx * bx + by * by;
    }
    double misfit = before + after - 2 * Math.hypot(along, across);
    if (before < SAME_MM || misfit > n * 4 * SAME_MM * SAME_MM) {
      return null;
    }
    double turn = Math.toDegrees(Math.atan2(across, along));
    double c = Angles.cosDeg(turn);
    double s = Angles.sinDeg(turn);
    return new Pose(mx - (c * tx - s * ty), my - (s * tx + c * ty), Angles.wrap(turn));
  }

  private @Nullable PartType type(GerberPart p, Pose pose) {
    StandardBox body = box(p.body, pose);
    StandardBox wide = box(p.widest.isEmpty() ? p.body : p.widest, pose);
    if (body.isEmpty() || Math.hypot(body.midX(), body.midY()) > SAME_MM) {
      return null;
    }
    boolean hole = p.mount.equals("TH") || p.mount.equals("PRESSFIT");
    return new PartType(
        p.type(),
        hole ? JointKind.THROUGH_HOLE : JointKind.OTHER,
        1,
        false,
        new Rect(0, 0, nanometres(body.length()), nanometres(body.width())),
        p.height,
        List.of(),
        List.of(),
        p.height > 0
            ? new Envelope(nanometres(wide.length()), nanometres(wide.width()), 0, p.height)
            : null,
        null);
  }

  private static double nanometres(double mm) {
    return Math.rint(mm * 1e6) / 1e6;
  }

  private StandardBox box(List<double[]> points, Pose pose) {
    double c = Angles.cosDeg(pose.rotationDeg());
    double s = Angles.sinDeg(pose.rotationDeg());
    StandardBox box = new StandardBox();
    for (double[] at : points) {
      double dx = at[0] - pose.xMm();
      double dy = at[1] - pose.yMm();
      double u = c * dx + s * dy;
      box.add(side == Side.BOTTOM ? -u : u, -s * dx + c * dy);
    }
    return box;
  }

  private List<StandardMark> marks(List<StandardRow> rows) {
    List<StandardMark> all = new ArrayList<>();
    for (GerberPart p : parts) {
      if (p.pins.size() <= 1 && Fiducial.isLike(p.ref, p.type())) {
        all.add(new StandardMark(side, new Fiducial(p.ref, p.x, p.y, Double.NaN, scope())));
      }
    }
    for (double[] m : marks) {
      String name = "F" + (all.size() + 1);
      for (StandardRow r : rows) {
        boolean same = Math.hypot(r.pose().xMm() - m[0], r.pose().yMm() - m[1]) < SAME_MM / 2;
        name = same ? r.ref() : name;
      }
      all.add(
          new StandardMark(side, new Fiducial(name, m[0], m[1], Double.NaN, Fiducial.Scope.PANEL)));
    }
    return all;
  }

  private Fiducial.Scope scope() {
    return boards.isEmpty() ? Fiducial.Scope.PANEL : Fiducial.Scope.BOARD;
  }
}
