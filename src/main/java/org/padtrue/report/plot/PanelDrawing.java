package org.padtrue.report.plot;

import java.awt.geom.Path2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.placement.Axes;
import org.padtrue.panel.Board;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.panel.Side;
import org.padtrue.report.plot.ink.ChartFormat;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.DrawnChart;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Labels;
import org.padtrue.report.plot.ink.MarkPaths;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;

/**
 * The panel as a job was understood: boards with their origins and axes, parts with their bodies
 * and pin 1, fiducials, and how the placement file's axes run in this view. Held beside the board
 * it shows a mirrored or turned side at a glance.
 */
public final class PanelDrawing {
  private static final int WIDTH = 980;
  private static final int LEAST_WIDTH = 560;
  private static final int LEAST_HEIGHT = 420;
  private static final int MOST_HEIGHT = 900;
  private static final int ALL_NAMED = 80;
  private static final double AXIS_PX = 34;
  private static final double KEY_PX = 26;

  private final LoadedJob loaded;
  private final Job job;
  private final Boxes boxes;
  private final Range x;
  private final Range y;
  private final boolean originShown;
  private final List<double[]> taken = new ArrayList<>();

  private PanelDrawing(LoadedJob loaded) {
    this.loaded = loaded;
    this.job = loaded.job();
    this.boxes = Boxes.of(job);
    List<double[]> points = new ArrayList<>();
    for (Fiducial f : job.fiducials()) {
      forEach(f, p -> points.add(new double[] {p.xMm(), p.yMm()}));
    }
    double[] e = boxes.extent(points);
    double size = Math.max(e[2] - e[0], e[3] - e[1]);
    this.originShown =
        e[0] <= size / 3 && e[2] >= -size / 3 && e[1] <= size / 3 && e[3] >= -size / 3;
    if (originShown) {
      points.add(new double[] {0, 0});
      e = boxes.extent(points);
    }
    double margin = 0.06 * size + 1;
    // at the right there is room for the sign of the file's axes
    this.x = new Range(e[0] - margin, e[2] + margin + 0.16 * size);
    this.y = new Range(e[1] - margin, e[3] + margin);
  }

  /** Draws a job that places something, in the formats that are asked for, at least one. */
  public static DrawnChart render(LoadedJob loaded, Set<ChartFormat> formats) {
    boolean bottom = loaded.job().side() == Side.BOTTOM;
    return DrawnChart.of(
        "panel",
        "map",
        "Panel as understood",
        "Seen from the "
            + (bottom ? "bottom" : "top")
            + ", as it lies in the machine: x to the right, y up. Hold it beside the board: if it"
            + " is mirrored or turned, the job's side or axes are not right.",
        new PanelDrawing(loaded).frame(),
        formats);
  }

  private interface Use {
    void of(Pose p);
  }

  private void forEach(Fiducial f, Use use) {
    Pose at = new Pose(f.xMm(), f.yMm(), 0);
    if (f.scope() == Fiducial.Scope.PANEL) {
      use.of(at);
    } else {
      job.array().boards().forEach(b -> use.of(at.seenFrom(b.origin())));
    }
  }

  private ChartFrame frame() {
    int wanted = keyed(WIDTH, LEAST_HEIGHT).heightForEqualScale();
    int height = Math.max(LEAST_HEIGHT, Math.min(MOST_HEIGHT, wanted));
    int width = (int) Math.max(LEAST_WIDTH, Math.min(WIDTH, 1.0 * WIDTH * height / wanted));
    ChartFrame f = keyed(width, height).equalScale();
    f.draw(this::outlines);
    f.draw(this::parts);
    f.draw(this::origins);
    f.draw(this::fiducials);
    f.draw(this::fileAxes);
    f.draw(this::names);
    return f;
  }

  private ChartFrame keyed(int width, int height) {
    String side = job.side() == Side.BOTTOM ? "bottom" : "top";
    ChartFrame f =
        new ChartFrame(
            width,
            height,
            "Panel as understood, seen from the " + side,
            "x (mm), panel frame",
            "y (mm), panel frame",
            x,
            y);
    f.styler().setPlotGridLinesVisible(false);
    f.styler().setChartPadding(18);
    boolean known = job.placements().stream().anyMatch(p -> type(p).body() != null);
    boolean unknown = job.placements().stream().anyMatch(p -> type(p).body() == null);
    if (known) {
      f.key("body, pin 1 dotted", Ink.Mark.SQUARE, Palette.BLUE);
    }
    if (unknown) {
      f.key("part without a body, its own x drawn", Ink.Mark.DOT, Palette.BLUE);
    }
    if (!job.fiducials().isEmpty()) {
      f.key("fiducial", Ink.Mark.RING, Palette.VERMILION);
    }
    f.key("origin and axes", Ink.Mark.CROSS, Palette.GREEN);
    return f;
  }

  private PartType type(Placement p) {
    return job.partType(p.part());
  }

  private void outlines(Ink ink) {
    taken.clear();
    boxes
        .byBoard()
        .forEach((i, b) -> ink.box(b[0], b[1], b[2], b[3], Palette.OUTLINE, Palette.DASH));
  }

  private void parts(Ink ink) {
    Path2D.Float bodies = new Path2D.Float();
    Path2D.Float directions = new Path2D.Float();
    List<double[]> dots = new ArrayList<>();
    List<double[]> pins = new ArrayList<>();
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose at = p.pose().seenFrom(b.origin());
        PartType t = type(p);
        Rect body = t.body();
        if (body == null) {
          dots.add(new double[] {at.xMm(), at.yMm()});
          Pose tip = new Pose(0.9, 0, 0).seenFrom(at);
          line(directions, ink, at, tip);
        } else {
          outline(bodies, ink, at, body);
          if (t.symmetry() == 1 && !t.terminations().isEmpty()) {
            Rect one = t.terminations().get(0);
            Pose pin = new Pose(one.xMm(), one.yMm(), 0).seenFrom(at);
            pins.add(new double[] {pin.xMm(), pin.yMm()});
          }
        }
      }
    }
    ink.fill(bodies, Palette.faint(Palette.SKY, 70));
    ink.stroke(bodies, Palette.BLUE, Palette.HAIR);
    ink.stroke(directions, Palette.BLUE, Palette.HAIR);
    marks(ink, Ink.Mark.DOT, dots, 2.2);
    marks(ink, Ink.Mark.DOT, pins, 1.6);
  }

  private static void marks(Ink ink, Ink.Mark mark, List<double[]> at, double radius) {
    ink.marks(
        mark,
        at.stream().mapToDouble(p -> p[0]).toArray(),
        at.stream().mapToDouble(p -> p[1]).toArray(),
        radius,
        Palette.BLUE);
  }

  private static void line(Path2D.Float path, Ink ink, Pose from, Pose to) {
    path.moveTo(Ink.tenth(ink.x(from.xMm())), Ink.tenth(ink.y(from.yMm())));
    path.lineTo(Ink.tenth(ink.x(to.xMm())), Ink.tenth(ink.y(to.yMm())));
  }

  private static void outline(Path2D.Float path, Ink ink, Pose at, Rect r) {
    for (int i = 0; i < 4; i++) {
      double sx = i == 0 || i == 3 ? -0.5 : 0.5;
      double sy = i < 2 ? -0.5 : 0.5;
      Pose c = new Pose(r.xMm() + sx * r.lengthMm(), r.yMm() + sy * r.widthMm(), 0).seenFrom(at);
      float px = Ink.tenth(ink.x(c.xMm()));
      float py = Ink.tenth(ink.y(c.yMm()));
      if (i == 0) {
        path.moveTo(px, py);
      } else {
        path.lineTo(px, py);
      }
    }
    path.closePath();
  }

  /** Refs of all parts that have room, else of those nearest to the corners of board 1/1. */
  private void names(Ink ink) {
    List<Board> boards = job.array().boards();
    if (boards.size() > 1) {
      boxes
          .byBoard()
          .forEach(
              (i, box) -> label(ink, "board " + i, ink.x((box[0] + box[2]) / 2), ink.y(box[3])));
    }
    boolean all = boards.size() * job.placements().size() <= ALL_NAMED;
    for (Board b : all ? boards : boards.subList(0, Math.min(1, boards.size()))) {
      corners().forEach(p -> name(ink, p, b));
      if (all) {
        job.placements().forEach(p -> name(ink, p, b));
      }
    }
  }

  private void name(Ink ink, Placement p, Board b) {
    Pose at = p.pose().seenFrom(b.origin());
    label(ink, p.ref(), ink.x(at.xMm()), ink.y(at.yMm()) - 9);
  }

  private List<Placement> corners() {
    List<Placement> found = new ArrayList<>();
    for (double[] way : new double[][] {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
      Placement best = null;
      double most = Double.NEGATIVE_INFINITY;
      for (Placement p : job.placements()) {
        double v = way[0] * p.pose().xMm() + way[1] * p.pose().yMm();
        if (v > most && !found.contains(p)) {
          most = v;
          best = p;
        }
      }
      if (best != null) {
        found.add(best);
      }
    }
    return found;
  }

  /** A text where none stands yet. */
  private void label(Ink ink, String text, double px, double py) {
    String shown = Labels.cut(text, 20);
    double half = Ink.width(shown, Palette.SMALL) / 2 + 1;
    for (double[] t : taken) {
      if (Math.abs(t[0] - px) < t[2] + half && Math.abs(t[1] - py) < 11) {
        return;
      }
    }
    taken.add(new double[] {px, py, half});
    Path2D.Float paper = new Path2D.Float();
    MarkPaths.polygon(
        paper, px - half, py - 6, px + half, py - 6, px + half, py + 6, px - half, py + 6);
    ink.fill(paper, Palette.faint(Palette.PAPER, 190));
    ink.text(shown, px, py, Ink.Anchor.CENTRE, Palette.SMALL, Palette.INK);
  }

  private void fiducials(Ink ink) {
    for (Fiducial f : job.fiducials()) {
      forEach(
          f,
          p -> {
            double[] xs = {p.xMm()};
            double[] ys = {p.yMm()};
            ink.marks(Ink.Mark.RING, xs, ys, 6, Palette.VERMILION);
            ink.marks(Ink.Mark.DOT, xs, ys, 2, Palette.VERMILION);
          });
    }
    if (job.fiducials().size() * job.array().boards().size() <= ALL_NAMED) {
      job.fiducials()
          .forEach(f -> forEach(f, p -> label(ink, f.name(), ink.x(p.xMm()), ink.y(p.yMm()) + 14)));
    }
  }

  /** The panel's origin, and that of every board, with the way its x and y run. */
  private void origins(Ink ink) {
    boolean panel = true;
    for (Board b : job.array().boards()) {
      Pose o = b.origin();
      boolean same = o.xMm() == 0 && o.yMm() == 0 && o.rotationDeg() == 0;
      panel &= !same;
      if (same && !originShown) {
        continue;
      }
      boolean named = job.array().boards().size() <= 12;
      String name = same ? "panel origin" : named ? "origin " + b.index() : "";
      axes(ink, o, same ? AXIS_PX : 0.7 * AXIS_PX, name);
    }
    if (panel && originShown) {
      axes(ink, new Pose(0, 0, 0), AXIS_PX, "panel origin");
    }
    if (!originShown) {
      String where = "the panel origin (0, 0) lies outside this picture";
      double left = ink.area().getMinX() + 8;
      ink.text(
          where, left, ink.area().getMaxY() - 10, Ink.Anchor.LEFT, Palette.SMALL, Palette.GREEN);
    }
  }

  private void axes(Ink ink, Pose origin, double length, String name) {
    double px = ink.x(origin.xMm());
    double py = ink.y(origin.yMm());
    double turn = Math.cos(Math.toRadians(origin.rotationDeg()));
    arrow(ink, px, py, turn * length, 0, "x");
    arrow(ink, px, py, 0, -turn * length, "y");
    if (!name.isEmpty()) {
      label(ink, name, px + turn * 26, py + turn * 11);
    }
  }

  private static void arrow(Ink ink, double px, double py, double dx, double dy, String name) {
    double n = Math.hypot(dx, dy);
    double ux = dx / n;
    double uy = dy / n;
    Path2D.Float p = new Path2D.Float();
    p.moveTo(Ink.tenth(px), Ink.tenth(py));
    p.lineTo(Ink.tenth(px + dx), Ink.tenth(py + dy));
    ink.stroke(p, Palette.GREEN, Palette.LINE);
    Path2D.Float tip = new Path2D.Float();
    double bx = px + dx - 7 * ux;
    double by = py + dy - 7 * uy;
    MarkPaths.polygon(tip, px + dx, py + dy, bx - 3 * uy, by + 3 * ux, bx + 3 * uy, by - 3 * ux);
    ink.fill(tip, Palette.GREEN);
    ink.text(
        name, px + dx + 8 * ux, py + dy + 8 * uy, Ink.Anchor.CENTRE, Palette.SMALL, Palette.GREEN);
  }

  /** In the corner: how the placement file's own x, y and rotation run in this view. */
  private void fileAxes(Ink ink) {
    Axes a = loaded.placements().axes();
    Side side = job.side();
    double px = ink.area().getMaxX() - 58;
    double py = ink.area().getMinY() + 46;
    Path2D.Float paper = new Path2D.Float();
    MarkPaths.polygon(
        paper, px - 56, py - 44, px + 56, py - 44, px + 56, py + 80, px - 56, py + 80);
    ink.fill(paper, Palette.faint(Palette.PAPER, 220));
    ink.stroke(paper, Palette.OUTLINE, Palette.HAIR);
    arrow(ink, px, py, a.signX(side) * KEY_PX, 0, "x");
    arrow(ink, px, py, 0, -a.signY() * KEY_PX, "y");
    boolean left = a.signRotation(side) > 0;
    String[] words = {
      "the file's axes,", "its rotations", left ? "counter-clockwise" : "clockwise"
    };
    for (int i = 0; i < words.length; i++) {
      ink.text(words[i], px, py + 46 + 12 * i, Ink.Anchor.CENTRE, Palette.SMALL, Palette.INK);
    }
  }
}
