package org.padtrue.report.plot;

import java.awt.Color;
import java.awt.geom.Path2D;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.padtrue.analysis.Xyr;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Pose;

/** Panel with an arrow at every placement, outlines of the boards and the fiducials. */
final class PanelMap {
  private static final int WIDTH = 980;
  private static final int LEAST_HEIGHT = 420;
  private static final int MOST_HEIGHT = 900;
  private static final int FRAME_WIDTH = 90;
  private static final int FRAME_HEIGHT = 130;

  /** Room above the panel for the scale arrow, share of the panel's height. */
  private static final double HEAD_ROOM = 0.09;

  private static final double SCALE_PIXELS = 90;
  private static final int NAMED_MOST = 12;

  /** What the arrows are. */
  enum Kind {
    BEFORE("Deviation as measured"),
    AFTER("With the trims entered, same scale"),
    RESIDUAL("What the fit leaves, larger scale");

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
  private final Map<BoardIndex, double[]> boxes;
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
    this.boxes = boxes(data);
    double[] all = extent(data, boxes);
    double margin = 0.03 * Math.max(all[2] - all[0], all[3] - all[1]) + 1;
    double head = HEAD_ROOM * (all[3] - all[1]) + margin;
    this.x = new Range(all[0] - margin, all[2] + margin);
    this.y = new Range(all[1] - margin, all[3] + margin + head);
  }

  Frame frame() {
    double aspect = y.length() / x.length();
    int height =
        (int)
            Math.max(
                LEAST_HEIGHT, Math.min(MOST_HEIGHT, (WIDTH - FRAME_WIDTH) * aspect + FRAME_HEIGHT));
    Frame f = new Frame(WIDTH, height, kind.title + suffix, "x (mm)", "y (mm)", x, y).equalScale();
    f.styler().setPlotGridLinesVisible(false);
    ArrowField field = field(kind);
    String one = field.cellMm() > 0 ? cellWords(field.cellMm()) : "placement";
    f.key(one, Ink.Mark.TRIANGLE, kind.color());
    if (!data.excluded().isEmpty()) {
      f.key("left out of the fit", Ink.Mark.CROSS, Palette.LIMIT);
    }
    if (!data.result().job().fiducials().isEmpty()) {
      f.key("fiducial", Ink.Mark.RING, Palette.INK);
    }
    f.draw(this::outlines);
    f.draw(ink -> arrows(ink, field));
    f.draw(this::leftOut);
    return f;
  }

  private static String cellWords(double cellMm) {
    String c = Labels.number(cellMm);
    return "mean of the placements in a cell of " + c + " x " + c + " mm";
  }

  private ArrowField field(Kind k) {
    return ArrowField.of(data.used(), k::vector, x, y);
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
    boxes.forEach(
        (index, b) -> {
          ink.box(b[0], b[1], b[2], b[3], Palette.OUTLINE, Palette.DASH);
          if (boxes.size() > 1) {
            ink.text(
                index.toString(),
                ink.x(b[0]) + 3,
                ink.y(b[3]) - 8,
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
    Marks.polygon(
        paper, cx - half, py - 7, cx + half, py - 7, cx + half, py + 7, cx - half, py + 7);
    ink.fill(paper, Palette.faint(Palette.PAPER, 215));
    ink.text(text, cx, py, Ink.Anchor.CENTRE, Palette.SMALL, Palette.LIMIT);
  }

  /** Box around the placements of each board, with a little air. */
  private static Map<BoardIndex, double[]> boxes(PlotData data) {
    Map<BoardIndex, double[]> boxes = new TreeMap<>();
    for (List<Point> points : List.of(data.used(), data.excluded())) {
      for (Point p : points) {
        double[] b =
            boxes.computeIfAbsent(
                p.result().board(), k -> new double[] {p.x(), p.y(), p.x(), p.y()});
        extend(b, p.x(), p.y());
      }
    }
    for (double[] b : boxes.values()) {
      double air = 0.03 * Math.max(b[2] - b[0], b[3] - b[1]) + 0.5;
      b[0] -= air;
      b[1] -= air;
      b[2] += air;
      b[3] += air;
    }
    return boxes;
  }

  private static double[] extent(PlotData data, Map<BoardIndex, double[]> boxes) {
    double[] all = null;
    for (double[] b : boxes.values()) {
      if (all == null) {
        all = b.clone();
      }
      extend(all, b[0], b[1]);
      extend(all, b[2], b[3]);
    }
    if (all == null) {
      all = new double[] {0, 0, 10, 10};
    }
    for (double[] f : fiducials(data)) {
      extend(all, f[0], f[1]);
    }
    return all;
  }

  private static void extend(double[] b, double x, double y) {
    b[0] = Math.min(b[0], x);
    b[1] = Math.min(b[1], y);
    b[2] = Math.max(b[2], x);
    b[3] = Math.max(b[3], y);
  }

  /** Panel fiducials as they are, board fiducials on every board; panel frame. */
  private static List<double[]> fiducials(PlotData data) {
    List<double[]> list = new java.util.ArrayList<>();
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
