package org.padtrue.report.plot;

import java.awt.Color;
import java.awt.geom.Path2D;
import java.util.List;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.plan.MeasuringPlan.PlanLine;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.MarkPaths;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;

/** Panel with every placement as a faint dot and the chosen ones numbered along the walk. */
final class WalkMap {
  private static final int WIDTH = 980;
  private static final int LEAST_WIDTH = 560;
  private static final int LEAST_HEIGHT = 420;
  private static final int MOST_HEIGHT = 800;

  /** Beyond this many, numbers would cover each other: every tenth is written. */
  private static final int ALL_NUMBERED = 120;

  /** A number at the end of an axis stands half outside it. */
  private static final int PADDING = 18;

  private static final double RADIUS = 4.5;

  private final MeasuringPlan plan;
  private final Boxes boxes;
  private final double[][] all;
  private final Range x;
  private final Range y;

  WalkMap(Job job, MeasuringPlan plan) {
    this.plan = plan;
    this.boxes = Boxes.of(job);
    this.all = placements(job);
    double[] e = boxes.extent(List.of());
    double margin = 0.04 * Math.max(e[2] - e[0], e[3] - e[1]) + 0.5;
    this.x = new Range(e[0] - margin, e[2] + margin);
    this.y = new Range(e[1] - margin, e[3] + margin);
  }

  private static double[][] placements(Job job) {
    List<Board> boards = job.array().boards();
    int n = boards.size() * job.placements().size();
    double[][] xy = new double[2][n];
    int i = 0;
    for (Board b : boards) {
      for (Placement p : job.placements()) {
        Pose at = p.pose().seenFrom(b.origin());
        xy[0][i] = at.xMm();
        xy[1][i++] = at.yMm();
      }
    }
    return xy;
  }

  ChartFrame frame() {
    int wanted = keyed(WIDTH, LEAST_HEIGHT).heightForEqualScale();
    int height = Math.max(LEAST_HEIGHT, Math.min(MOST_HEIGHT, wanted));
    int width = (int) Math.max(LEAST_WIDTH, Math.min(WIDTH, 1.0 * WIDTH * height / wanted));
    ChartFrame f = keyed(width, height).equalScale();
    f.draw(this::outlines);
    f.draw(this::walk);
    f.draw(this::boards);
    return f;
  }

  private ChartFrame keyed(int width, int height) {
    ChartFrame f =
        new ChartFrame(
            width,
            height,
            plan.lines().size() + " placements to measure, in this order",
            "x (mm)",
            "y (mm)",
            x,
            y);
    f.styler().setPlotGridLinesVisible(false);
    f.styler().setChartPadding(PADDING);
    f.key("measure", Ink.Mark.DOT, Palette.AFTER);
    f.key("start", Ink.Mark.SQUARE, Palette.GREEN);
    if (plan.lines().size() < all[0].length) {
      f.key("not needed", Ink.Mark.DOT, Palette.OUTLINE);
    }
    return f;
  }

  private void outlines(Ink ink) {
    boxes
        .byBoard()
        .forEach((index, b) -> ink.box(b[0], b[1], b[2], b[3], Palette.OUTLINE, Palette.DASH));
    ink.marks(Ink.Mark.DOT, all[0], all[1], 1.8, Palette.OUTLINE);
  }

  /** Names of the boards on the middle of their upper edges, where no placement is. */
  private void boards(Ink ink) {
    if (boxes.byBoard().size() > 1) {
      boxes
          .byBoard()
          .forEach(
              (index, b) ->
                  halo(
                      ink, index.toString(), ink.x((b[0] + b[2]) / 2), ink.y(b[3]), Palette.QUIET));
    }
  }

  private void walk(Ink ink) {
    List<PlanLine> lines = plan.lines();
    Path2D.Float way = new Path2D.Float();
    for (PlanLine l : lines) {
      float px = Ink.tenth(ink.x(l.x()));
      float py = Ink.tenth(ink.y(l.y()));
      if (way.getCurrentPoint() == null) {
        way.moveTo(px, py);
      } else {
        way.lineTo(px, py);
      }
    }
    ink.stroke(way, Palette.faint(Palette.SKY, 200), Palette.LINE);
    ink.marks(
        Ink.Mark.DOT,
        lines.stream().mapToDouble(PlanLine::x).toArray(),
        lines.stream().mapToDouble(PlanLine::y).toArray(),
        RADIUS,
        Palette.AFTER);
    PlanLine first = lines.get(0);
    double[] startX = {first.x()};
    double[] startY = {first.y()};
    ink.marks(Ink.Mark.SQUARE, startX, startY, RADIUS + 1, Palette.GREEN);
    numbers(ink, lines);
  }

  private static void numbers(Ink ink, List<PlanLine> lines) {
    boolean every = lines.size() <= ALL_NUMBERED;
    for (PlanLine l : lines) {
      if (every || l.order() == 1 || l.order() % 10 == 0) {
        halo(ink, Integer.toString(l.order()), ink.x(l.x()), ink.y(l.y()) - 11, Palette.INK);
      }
    }
  }

  /** Text on a white halo: it may lie over the walk. */
  private static void halo(Ink ink, String text, double px, double py, Color color) {
    double half = Ink.width(text, Palette.SMALL) / 2 + 1;
    Path2D.Float paper = new Path2D.Float();
    MarkPaths.polygon(
        paper, px - half, py - 6, px + half, py - 6, px + half, py + 6, px - half, py + 6);
    ink.fill(paper, Palette.faint(Palette.PAPER, 200));
    ink.text(text, px, py, Ink.Anchor.CENTRE, Palette.SMALL, color);
  }
}
