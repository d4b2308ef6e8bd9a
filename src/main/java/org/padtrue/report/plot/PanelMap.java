package org.padtrue.report.plot;

import java.awt.Color;
import java.awt.geom.Path2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Board;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Pose;
import org.padtrue.report.plot.ink.Arrows;
import org.padtrue.report.plot.ink.ChartFrame;
import org.padtrue.report.plot.ink.Ink;
import org.padtrue.report.plot.ink.Labels;
import org.padtrue.report.plot.ink.MarkPaths;
import org.padtrue.report.plot.ink.Palette;
import org.padtrue.report.plot.ink.Range;

/** Panel with an arrow at every placement, outlines of the boards and the fiducials. */
final class PanelMap {
  private static final int WIDTH = 980;
  private static final int LEAST_WIDTH = 700;
  private static final int LEAST_HEIGHT = 420;
  private static final int MOST_HEIGHT = 760;

  /** Room above the panel for the scale arrow, share of the panel's height. */
  private static final double HEAD_ROOM = 0.06;

  private static final double SCALE_PIXELS = 90;
  private static final int NAMED_MOST = 12;

  /** Room that the name of a board takes above its outline; with less it stands inside. */
  private static final double NAME_PIXELS = 18;

  /** What the arrows are. */
  enum Kind {
    BEFORE("Deviation as measured"),
    AFTER("With the trims entered, same scale"),
    RESIDUAL("What the fit leaves, at its own scale");

    private final String title;

    Kind(String title) {
      this.title = title;
    }

    Xyr vector(Point p) {
      return switch (this) {
        case BEFORE -> p.result().deviation();
        case AFTER -> p.result().afterTrim();
        case RESIDUAL -> p.result().residual();
      };
    }

    Color color() {
      return this == BEFORE ? Palette.BEFORE : Palette.AFTER;
    }
  }

  private final PlotData data;
  private final Kind kind;
  private final String suffix;
  private final Boxes boxes;
  private final Range x;
  private final Range y;

  /**
   * A map of one panel.
   *
   * @param data placements of that panel
   * @param kind what to draw
   * @param suffix said behind the title, e.g. ", panel P2"; may be empty
   */
  PanelMap(PlotData data, Kind kind, String suffix) {
    this.data = data;
    this.kind = kind;
    this.suffix = suffix;
    this.boxes = Boxes.of(data);
    double[] all = boxes.extent(fiducials(data));
    double margin = 0.025 * Math.max(all[2] - all[0], all[3] - all[1]) + 0.5;
    double head = HEAD_ROOM * Math.max(all[3] - all[1], 0.6 * (all[2] - all[0]));
    this.x = new Range(all[0] - margin, all[2] + margin);
    this.y = new Range(all[1] - margin, all[3] + margin + head);
  }

  ChartFrame frame() {
    ArrowField field = field(kind);
    int wanted = keyed(WIDTH, LEAST_HEIGHT, field).heightForEqualScale();
    int height = Math.max(LEAST_HEIGHT, Math.min(MOST_HEIGHT, wanted));
    int width = (int) Math.max(LEAST_WIDTH, Math.min(WIDTH, 1.0 * WIDTH * height / wanted));
    ChartFrame f = keyed(width, height, field).equalScale();
    f.draw(this::outlines);
    f.draw(ink -> arrows(ink, field));
    f.draw(this::leftOut);
    return f;
  }

  private ChartFrame keyed(int width, int height, ArrowField field) {
    ChartFrame f = new ChartFrame(width, height, kind.title + suffix, "x (mm)", "y (mm)", x, y);
    f.styler().setPlotGridLinesVisible(false);
    String one = field.cellMm() > 0 ? cellWords(field.cellMm()) : "placement";
    f.key(one, Ink.Mark.ARROW, kind.color());
    if (!data.excluded().isEmpty()) {
      f.key("placement left out of the fit", Ink.Mark.CROSS, Palette.LIMIT);
    }
    if (!data.result().job().fiducials().isEmpty()) {
      f.key("fiducial (nominal)", Ink.Mark.RING, Palette.INK);
    }
    return f;
  }

  private static String cellWords(double cellMm) {
    String c = Labels.number(cellMm);
    return "mean of the placements in a cell of " + c + " x " + c + " mm";
  }

  private ArrowField field(Kind k) {
    return ArrowField.of(data.used(), k::vector, boxes);
  }

  private void arrows(Ink ink, ArrowField field) {
    // before and after share the scale of 'before', so that the gain is seen at a glance
    double longUm = (kind == Kind.RESIDUAL ? field : field(Kind.BEFORE)).longUm();
    double spacing =
        Math.sqrt(ink.area().getWidth() * ink.area().getHeight() / Math.max(1, data.used().size()));
    double room = field.cellMm() > 0 ? ink.x(field.cellMm()) - ink.x(0) : spacing;
    double wanted = Math.max(13, Math.min(46, 0.9 * room));
    double pixelsPerUm = wanted / longUm;
    Arrows arrows = new Arrows(ink, pixelsPerUm, 4 * wanted);
    field.arrows().forEach(a -> arrows.add(a.xMm(), a.yMm(), a.dxUm(), a.dyUm()));
    int n = field.arrows().size();
    arrows.paint(Palette.faint(kind.color(), n > 400 ? 215 : 245), n > 400 ? 1.1f : 1.5f);
    scale(ink, pixelsPerUm);
  }

  private void scale(Ink ink, double pixelsPerUm) {
    double um = Range.roundDown125(SCALE_PIXELS / pixelsPerUm);
    double left = ink.area().getMinX() + 16;
    double top = ink.area().getMinY() + 16;
    Arrows reference = new Arrows(ink, pixelsPerUm, Double.MAX_VALUE);
    reference.addPixels(left, top, um * pixelsPerUm, 0);
    reference.paint(Palette.INK, 1.6f);
    ink.text(
        Labels.number(um) + " \u00b5m",
        left + um * pixelsPerUm + 8,
        top,
        Ink.Anchor.LEFT,
        Palette.TICK,
        Palette.INK);
    String count = String.format(Locale.ROOT, "%,d placements", data.used().size());
    ink.text(count, ink.area().getMaxX() - 12, top, Ink.Anchor.RIGHT, Palette.TICK, Palette.QUIET);
  }

  private void outlines(Ink ink) {
    boxes
        .byBoard()
        .forEach(
            (index, b) -> {
              ink.box(b[0], b[1], b[2], b[3], Palette.OUTLINE, Palette.DASH);
              if (boxes.byBoard().size() > 1) {
                double up = boxes.gapAbove(index) * pixelsPerMm(ink) >= NAME_PIXELS ? -8 : 9;
                ink.text(
                    index.toString(),
                    ink.x(b[0]) + 3,
                    ink.y(b[3]) + up,
                    Ink.Anchor.LEFT,
                    Palette.SMALL,
                    Palette.QUIET);
              }
            });
    for (double[] f : fiducials(data)) {
      ink.marks(Ink.Mark.RING, new double[] {f[0]}, new double[] {f[1]}, 6, Palette.INK);
      ink.marks(Ink.Mark.DOT, new double[] {f[0]}, new double[] {f[1]}, 1.6, Palette.INK);
    }
  }

  private static double pixelsPerMm(Ink ink) {
    return ink.y(0) - ink.y(1);
  }

  private void leftOut(Ink ink) {
    List<Point> out = data.excluded();
    double[] xs = out.stream().mapToDouble(Point::x).toArray();
    double[] ys = out.stream().mapToDouble(Point::y).toArray();
    ink.marks(Ink.Mark.CROSS, xs, ys, 5, Palette.LIMIT);
    if (out.size() <= NAMED_MOST) {
      for (Point p : out) {
        label(ink, p.result().ref(), ink.x(p.x()), ink.y(p.y()) - 13);
      }
    }
  }

  /** A name on a white halo: it may lie over arrows. */
  private static void label(Ink ink, String text, double px, double py) {
    double half = Ink.width(text, Palette.SMALL) / 2 + 2;
    double cx =
        Math.max(ink.area().getMinX() + half + 2, Math.min(ink.area().getMaxX() - half - 2, px));
    Path2D.Float paper = new Path2D.Float();
    MarkPaths.polygon(
        paper, cx - half, py - 7, cx + half, py - 7, cx + half, py + 7, cx - half, py + 7);
    ink.fill(paper, Palette.faint(Palette.PAPER, 215));
    ink.text(text, cx, py, Ink.Anchor.CENTRE, Palette.SMALL, Palette.LIMIT);
  }

  /** Panel fiducials as they are, board fiducials on every board; panel frame. */
  private static List<double[]> fiducials(PlotData data) {
    List<double[]> list = new ArrayList<>();
    for (Fiducial f : data.result().job().fiducials()) {
      if (f.scope() == Fiducial.Scope.PANEL) {
        list.add(new double[] {f.xMm(), f.yMm()});
      } else {
        for (Board b : data.result().job().array().boards()) {
          Pose p = new Pose(f.xMm(), f.yMm(), 0).seenFrom(b.origin());
          list.add(new double[] {p.xMm(), p.yMm()});
        }
      }
    }
    return list;
  }
}
