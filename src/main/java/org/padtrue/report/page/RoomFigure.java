package org.padtrue.report.page;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.padtrue.land.clearance.StandingOutline;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;
import org.padtrue.room.RoomGroup;
import org.padtrue.room.RoomItem;
import org.padtrue.room.RoomMove;
import org.padtrue.room.RoomPair;

/** A group of placements before and after its moves: lands, outlines with their heights. */
public final class RoomFigure {
  private static final double PANE = 400;
  private static final double GUTTER = 24;
  private static final double HEAD = 26;
  private static final double MOST_HEIGHT = 360;
  private static final double AROUND_MM = 0.8;

  private final List<RoomItem> shown = new ArrayList<>();
  private final Map<String, RoomMove> moves = new HashMap<>();
  private final Set<String> tight = new TreeSet<>();
  private double x0 = Double.POSITIVE_INFINITY;
  private double x1 = Double.NEGATIVE_INFINITY;
  private double y0 = Double.POSITIVE_INFINITY;
  private double y1 = Double.NEGATIVE_INFINITY;
  private double scale;

  private RoomFigure(RoomGroup g, List<RoomItem> items) {
    g.moves().forEach(m -> moves.put(m.key(), m));
    if (g.pairs().isEmpty()) {
      return;
    }
    RoomPair worst = g.pairs().get(0);
    String boardA = board(worst.a());
    String boardB = board(worst.b());
    Set<String> ids = new TreeSet<>();
    for (RoomPair p : g.pairs()) {
      if (board(p.a()).equals(boardA) && board(p.b()).equals(boardB)) {
        ids.add(p.a());
        ids.add(p.b());
      }
    }
    tight.addAll(ids);
    for (RoomItem i : items) {
      if (ids.contains(i.id())) {
        shown.add(i);
        StandingOutline.of(i.part(), i.pose()).ifPresent(this::include);
        StandingOutline.of(i.part(), moved(i)).ifPresent(this::include);
      }
    }
    for (RoomItem i : items) {
      if (!ids.contains(i.id()) && near(i)) {
        shown.add(i);
      }
    }
    x0 -= AROUND_MM;
    x1 += AROUND_MM;
    y0 -= AROUND_MM;
    y1 += AROUND_MM;
    scale = Math.min(PANE / (x1 - x0), MOST_HEIGHT / (y1 - y0));
  }

  /** The drawing alone, as markup; empty where the group has no pair. */
  public static String svg(RoomGroup g, List<RoomItem> items) {
    Html h = new Html();
    into(h, g, items);
    return h.toString();
  }

  /** Draws a group; nothing where it has no pair. */
  public static void into(Html h, RoomGroup g, List<RoomItem> items) {
    RoomFigure f = new RoomFigure(g, items);
    if (!f.shown.isEmpty()) {
      f.draw(h, g);
    }
  }

  private static String board(String id) {
    return id.substring(0, id.indexOf('/', id.indexOf('/') + 1));
  }

  private void include(StandingOutline o) {
    for (double[] c : o.corners()) {
      x0 = Math.min(x0, c[0]);
      x1 = Math.max(x1, c[0]);
      y0 = Math.min(y0, c[1]);
      y1 = Math.max(y1, c[1]);
    }
  }

  private boolean near(RoomItem i) {
    return i.pose().xMm() > x0 - AROUND_MM
        && i.pose().xMm() < x1 + AROUND_MM
        && i.pose().yMm() > y0 - AROUND_MM
        && i.pose().yMm() < y1 + AROUND_MM;
  }

  private Pose moved(RoomItem i) {
    RoomMove m = moves.get(i.key());
    if (m == null) {
      return i.pose();
    }
    double c = Angles.cosDeg(i.boardDeg());
    double s = Angles.sinDeg(i.boardDeg());
    return new Pose(
        i.pose().xMm() + c * m.x() - s * m.y(),
        i.pose().yMm() + s * m.x() + c * m.y(),
        Angles.wrap(i.pose().rotationDeg() + m.rotation()));
  }

  private void draw(Html h, RoomGroup g) {
    double paneWidth = (x1 - x0) * scale;
    double height = (y1 - y0) * scale;
    double width = 2 * paneWidth + GUTTER;
    h.open("figure", "class", "room");
    h.open(
        "svg",
        "viewBox",
        number(0, 0, width, height + HEAD + 18),
        "role",
        "img",
        "width",
        f(width),
        "height",
        f(height + HEAD + 18),
        "aria-label",
        "The group before and after its moves");
    pane(h, 0, "before", i -> i.pose());
    pane(h, paneWidth + GUTTER, g.moves().isEmpty() ? "no move" : "after", this::moved);
    scaleBar(h, height);
    h.close("svg");
    h.element(
        "figcaption",
        "Outlines during assembly with their heights above the board, mm; lands grey, filled. The"
            + " panel as seen from the side being placed. The pair's board: "
            + board(g.pairs().get(0).a())
            + ".");
    h.close("figure");
  }

  private void pane(
      Html h, double left, String title, java.util.function.Function<RoomItem, Pose> at) {
    double w = (x1 - x0) * scale;
    double height = (y1 - y0) * scale;
    String clip = "room" + System.identityHashCode(this) + title.replace(' ', '-');
    h.element(
        "text",
        title,
        "x",
        f(left),
        "y",
        "16",
        "font-size",
        "14",
        "font-weight",
        "600",
        "fill",
        "currentColor");
    h.open("clipPath", "id", clip);
    h.open("rect", "x", f(left), "y", f(HEAD), "width", f(w), "height", f(height)).close("rect");
    h.close("clipPath");
    h.open("g", "clip-path", "url(#" + clip + ")");
    for (RoomItem i : shown) {
      for (Rect land : i.part().lands()) {
        polygon(h, left, corners(land, i.nominal()), "rgba(128,134,140,.35)", "none", "");
      }
    }
    for (RoomItem i : shown) {
      Pose p = at.apply(i);
      StandingOutline o = StandingOutline.of(i.part(), p).orElse(null);
      if (o != null) {
        boolean one = tight.contains(i.id());
        boolean moves = this.moves.containsKey(i.key());
        polygon(
            h,
            left,
            o.corners(),
            one ? "rgba(0,114,178,.10)" : "none",
            moves ? "#0072B2" : one ? "#B27A00" : "#80868C",
            o.zMinMm() > 0 ? "6 4" : "");
        label(h, left, p, i, o);
      }
    }
    h.close("g");
    h.open(
            "rect",
            "x",
            f(left),
            "y",
            f(HEAD),
            "width",
            f(w),
            "height",
            f(height),
            "fill",
            "none",
            "stroke",
            "currentColor",
            "stroke-width",
            ".6",
            "opacity",
            ".5")
        .close("rect");
  }

  private void label(Html h, double left, Pose p, RoomItem i, StandingOutline o) {
    String ref = i.id().substring(board(i.id()).length() + 1);
    double x = left + (p.xMm() - x0) * scale;
    double y = HEAD + (y1 - p.yMm()) * scale;
    h.element(
        "text",
        ref,
        "x",
        f(x),
        "y",
        f(y),
        "text-anchor",
        "middle",
        "font-size",
        "13",
        "fill",
        "currentColor");
    if (tight.contains(i.id())) {
      String z =
          Double.isInfinite(o.zMaxMm())
              ? "height not known"
              : String.format(Locale.ROOT, "%.2f to %.2f", o.zMinMm(), o.zMaxMm());
      h.element(
          "text",
          z,
          "x",
          f(x),
          "y",
          f(y + 15),
          "text-anchor",
          "middle",
          "font-size",
          "11",
          "fill",
          "currentColor",
          "opacity",
          ".8");
    }
  }

  private void scaleBar(Html h, double height) {
    double y = HEAD + height + 12;
    h.open(
            "path",
            "d",
            "M0 " + f(y) + "H" + f(scale),
            "stroke",
            "currentColor",
            "stroke-width",
            "2")
        .close("path");
    h.element(
        "text",
        "1 mm",
        "x",
        f(scale + 6),
        "y",
        f(y + 4),
        "font-size",
        "11",
        "fill",
        "currentColor");
  }

  private static List<double[]> corners(Rect r, Pose p) {
    double c = Angles.cosDeg(p.rotationDeg());
    double s = Angles.sinDeg(p.rotationDeg());
    List<double[]> out = new ArrayList<>();
    int[][] signs = {{1, 1}, {-1, 1}, {-1, -1}, {1, -1}};
    for (int[] k : signs) {
      double x = r.xMm() + k[0] * r.lengthMm() / 2;
      double y = r.yMm() + k[1] * r.widthMm() / 2;
      out.add(new double[] {p.xMm() + c * x - s * y, p.yMm() + s * x + c * y});
    }
    return out;
  }

  private void polygon(
      Html h, double left, List<double[]> corners, String fill, String stroke, String dash) {
    StringBuilder points = new StringBuilder();
    for (double[] c : corners) {
      points
          .append(f(left + (c[0] - x0) * scale))
          .append(',')
          .append(f(HEAD + (y1 - c[1]) * scale))
          .append(' ');
    }
    h.open(
            "polygon",
            "points",
            points.toString().strip(),
            "fill",
            fill,
            "stroke",
            stroke,
            "stroke-width",
            "1.4",
            "stroke-dasharray",
            dash.isEmpty() ? "none" : dash)
        .close("polygon");
  }

  private static String f(double v) {
    return String.format(Locale.ROOT, "%.1f", v);
  }

  private static String number(double... v) {
    StringBuilder b = new StringBuilder();
    for (double d : v) {
      b.append(b.isEmpty() ? "" : " ").append(f(d));
    }
    return b.toString();
  }
}
