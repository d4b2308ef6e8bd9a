package org.padtrue.imaging.pose;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Rect;

/**
 * The edges of a part that can be seen from above, in the part frame: where body meets background,
 * termination meets background, termination meets body.
 *
 * @param edges straight visible edges
 * @param rects every rectangle that makes up the part
 * @param halfLengthMm half the extent along the part's x
 * @param halfWidthMm half the extent along the part's y
 * @param symmetry how often the drawn outline looks the same in one turn: 1, 2 or 4
 * @param leads true when leads stand out from a moulded body
 */
public record Outline(
    List<Edge> edges,
    List<Rect> rects,
    double halfLengthMm,
    double halfWidthMm,
    int symmetry,
    boolean leads) {

  public Outline {
    edges = List.copyOf(edges);
    rects = List.copyOf(rects);
  }

  /** What an edge belongs to: edges of one group may stand off nominal together. */
  enum Group {
    BODY_X,
    BODY_Y,
    TIP_X,
    TIP_Y,
    ROOT_X,
    ROOT_Y,
    SIDE_X,
    SIDE_Y
  }

  /**
   * A straight edge.
   *
   * @param xMm middle, part frame
   * @param yMm middle
   * @param nx unit normal, out of its owner
   * @param ny unit normal
   * @param lengthMm length
   * @param group what moves with it when the part is a little larger than nominal
   * @param heightMm above the board
   * @param innerGapMm distance to the next edge on the inside
   * @param outerGapMm distance to the next edge on the outside
   * @param body true when the body itself meets the ground here
   */
  public record Edge(
      double xMm,
      double yMm,
      int nx,
      int ny,
      double lengthMm,
      Group group,
      double heightMm,
      double innerGapMm,
      double outerGapMm,
      boolean body) {}

  /**
   * A rectangle of the part with the groups of its sides.
   *
   * @param body false for a termination
   * @param sides left, right, lower, upper
   */
  record Sided(Rect rect, boolean body, List<Group> sides) {
    Sided {
      sides = List.copyOf(sides);
    }
  }

  private static final double EPS = 1e-4;

  /** Lead feet stand about this high, mm. */
  private static final double LEAD_HEIGHT = 0.15;

  /** True when the type carries enough geometry to be looked for. */
  public static boolean known(PartType t) {
    return t.body() != null || !t.terminations().isEmpty();
  }

  /** The outline of a part type; {@link #known} must hold. */
  public static Outline of(PartType t) {
    List<Rect> terms = visibleTerminations(t);
    double bodyHeight = bodyHeight(t);
    boolean leads = t.kind() == JointKind.GULL_WING || t.kind() == JointKind.J_LEAD;
    List<Edge> edges = new ArrayList<>();
    for (int i = 0; i < terms.size(); i++) {
      addEdges(t, terms, i, leads ? Math.min(LEAD_HEIGHT, bodyHeight) : bodyHeight, edges);
    }
    if (t.body() != null) {
      addEdges(t, terms, terms.size(), bodyHeight, edges);
    }
    List<Rect> rects = new ArrayList<>(terms);
    if (t.body() != null) {
      rects.add(t.body());
    }
    return new Outline(
        edges, rects, reach(rects, true), reach(rects, false), symmetry(rects), leads);
  }

  /** The visible rectangles of a part type, terminations first. */
  static List<Sided> sided(PartType t) {
    List<Sided> out = new ArrayList<>();
    List<Rect> all = visibleTerminations(t);
    int terms = all.size();
    if (t.body() != null) {
      all.add(t.body());
    }
    for (int i = 0; i < all.size(); i++) {
      Rect r = all.get(i);
      boolean body = i == terms;
      out.add(
          new Sided(
              r,
              body,
              List.of(
                  group(t, r, body, -1, 0),
                  group(t, r, body, 1, 0),
                  group(t, r, body, 0, -1),
                  group(t, r, body, 0, 1))));
    }
    return out;
  }

  /** The outline of bare rectangles, such as lands, each on its own, at board height. */
  public static Outline ofRects(List<Rect> rects) {
    PartType t = new PartType("", JointKind.OTHER, 1, false, null, 0, rects, List.of(), null, null);
    return of(t);
  }

  public static double bodyHeight(PartType t) {
    if (!Double.isNaN(t.bodyHeightMm())) {
      return t.bodyHeightMm();
    }
    return t.envelope() != null ? t.envelope().zMaxMm() : 0.5;
  }

  private static List<Rect> visibleTerminations(PartType t) {
    Rect b = t.body();
    List<Rect> seen = new ArrayList<>();
    boolean below = t.kind() == JointKind.BALL || t.kind() == JointKind.NO_LEAD;
    for (Rect r : t.terminations()) {
      if (b != null && below && within(r, b)) {
        continue;
      }
      seen.add(r);
    }
    return seen;
  }

  private static boolean within(Rect r, Rect b) {
    double tol = 0.06;
    return Math.abs(r.xMm() - b.xMm()) + r.lengthMm() / 2 <= b.lengthMm() / 2 + tol
        && Math.abs(r.yMm() - b.yMm()) + r.widthMm() / 2 <= b.widthMm() / 2 + tol;
  }

  private static double reach(List<Rect> rects, boolean x) {
    double m = 0;
    for (Rect r : rects) {
      m =
          Math.max(
              m, x ? Math.abs(r.xMm()) + r.lengthMm() / 2 : Math.abs(r.yMm()) + r.widthMm() / 2);
    }
    return m;
  }

  /** Which rectangle is on top at a point: index of termination, terms.size() for body, -1 none. */
  private static int region(PartType t, List<Rect> terms, double x, double y) {
    for (int i = 0; i < terms.size(); i++) {
      if (inside(terms.get(i), x, y)) {
        return i;
      }
    }
    return t.body() != null && inside(t.body(), x, y) ? terms.size() : -1;
  }

  private static boolean inside(Rect r, double x, double y) {
    return Math.abs(x - r.xMm()) <= r.lengthMm() / 2 && Math.abs(y - r.yMm()) <= r.widthMm() / 2;
  }

  private static void addEdges(
      PartType t, List<Rect> terms, int owner, double height, List<Edge> out) {
    Rect r = owner == terms.size() ? java.util.Objects.requireNonNull(t.body()) : terms.get(owner);
    for (int side = 0; side < 4; side++) {
      int nx = side == 0 ? 1 : side == 1 ? -1 : 0;
      int ny = side == 2 ? 1 : side == 3 ? -1 : 0;
      Group group = group(t, r, owner == terms.size(), nx, ny);
      boolean hiddenRoot =
          (t.kind() == JointKind.GULL_WING || t.kind() == JointKind.J_LEAD)
              && (group == Group.ROOT_X || group == Group.ROOT_Y);
      if (!hiddenRoot) {
        addVisible(t, terms, owner, r, nx, ny, group, height, out);
      }
    }
  }

  private static Group group(PartType t, Rect r, boolean body, int nx, int ny) {
    if (body) {
      return nx != 0 ? Group.BODY_X : Group.BODY_Y;
    }
    double bx = t.body() == null ? 1 : t.body().lengthMm();
    double by = t.body() == null ? 1 : t.body().widthMm();
    boolean leadAlongX = Math.abs(r.xMm()) / bx >= Math.abs(r.yMm()) / by;
    if (leadAlongX != (nx != 0)) {
      // Plating makes a chip's ends a little wider than its body, even where the drawing does not.
      return nx != 0 ? Group.SIDE_X : Group.SIDE_Y;
    }
    if (t.body() != null && flush(t.body(), r, nx, ny)) {
      // A chip ends where its body does: one size, not two.
      return nx != 0 ? Group.BODY_X : Group.BODY_Y;
    }
    boolean away = nx * r.xMm() + ny * r.yMm() >= 0;
    if (nx != 0) {
      return away ? Group.TIP_X : Group.ROOT_X;
    }
    return away ? Group.TIP_Y : Group.ROOT_Y;
  }

  private static boolean flush(Rect b, Rect r, int nx, int ny) {
    double body = nx != 0 ? nx * b.xMm() + b.lengthMm() / 2 : ny * b.yMm() + b.widthMm() / 2;
    double own = nx != 0 ? nx * r.xMm() + r.lengthMm() / 2 : ny * r.yMm() + r.widthMm() / 2;
    return Math.abs(body - own) < 0.03;
  }

  /** Walks along one side and keeps the stretches where something else lies beyond it. */
  private static void addVisible(
      PartType t,
      List<Rect> terms,
      int owner,
      Rect r,
      int nx,
      int ny,
      Group group,
      double height,
      List<Edge> out) {
    double cx = r.xMm() + nx * r.lengthMm() / 2;
    double cy = r.yMm() + ny * r.widthMm() / 2;
    double half = (nx != 0 ? r.widthMm() : r.lengthMm()) / 2;
    List<Double> cuts = cuts(t, terms, nx != 0, nx != 0 ? cy : cx, half);
    double start = Double.NaN;
    for (int i = 0; i + 1 < cuts.size(); i++) {
      double mid = (cuts.get(i) + cuts.get(i + 1)) / 2;
      double px = nx != 0 ? cx : mid;
      double py = nx != 0 ? mid : cy;
      int in = region(t, terms, px - nx * EPS, py - ny * EPS);
      int beyond = region(t, terms, px + nx * EPS, py + ny * EPS);
      // Two terminations that touch are one shape.
      boolean joined = owner < terms.size() && beyond >= 0 && beyond < terms.size();
      boolean seen = in == owner && beyond != owner && !joined;
      if (seen && Double.isNaN(start)) {
        start = cuts.get(i);
      }
      boolean last = i + 2 == cuts.size();
      if (!Double.isNaN(start) && (!seen || last)) {
        double end = seen ? cuts.get(i + 1) : cuts.get(i);
        add(t, terms, cx, cy, nx, ny, start, end, group, height, out);
        start = Double.NaN;
      }
    }
  }

  private static void add(
      PartType t,
      List<Rect> terms,
      double cx,
      double cy,
      int nx,
      int ny,
      double start,
      double end,
      Group group,
      double height,
      List<Edge> out) {
    double x = nx != 0 ? cx : (start + end) / 2;
    double y = nx != 0 ? (start + end) / 2 : cy;
    double length = end - start;
    if (length < 0.02) {
      return;
    }
    double inner = gap(t, terms, x, y, -nx, -ny);
    double outer = gap(t, terms, x, y, nx, ny);
    boolean body =
        region(t, terms, x - nx * EPS, y - ny * EPS) == terms.size()
            && region(t, terms, x + nx * EPS, y + ny * EPS) < 0;
    out.add(new Edge(x, y, nx, ny, length, group, height, inner, outer, body));
  }

  private static double gap(PartType t, List<Rect> terms, double x, double y, int nx, int ny) {
    int here = region(t, terms, x + nx * EPS, y + ny * EPS);
    for (double d = 0.02; d < 1.5; d += 0.02) {
      if (region(t, terms, x + nx * d, y + ny * d) != here) {
        return d;
      }
    }
    return 1.5;
  }

  /** Places along a side where the rectangle beyond it can change, ends included. */
  private static List<Double> cuts(
      PartType t, List<Rect> terms, boolean alongY, double middle, double half) {
    List<Double> c = new ArrayList<>();
    c.add(middle - half);
    c.add(middle + half);
    List<Rect> all = new ArrayList<>(terms);
    if (t.body() != null) {
      all.add(t.body());
    }
    for (Rect r : all) {
      double m = alongY ? r.yMm() : r.xMm();
      double h = (alongY ? r.widthMm() : r.lengthMm()) / 2;
      for (double v : new double[] {m - h, m + h}) {
        if (v > middle - half + EPS && v < middle + half - EPS) {
          c.add(v);
        }
      }
    }
    Collections.sort(c);
    return c;
  }

  private static int symmetry(List<Rect> rects) {
    if (sameTurned(rects, 1)) {
      return 4;
    }
    return sameTurned(rects, 2) ? 2 : 1;
  }

  private static boolean sameTurned(List<Rect> rects, int quarters) {
    for (Rect r : rects) {
      double x = quarters == 1 ? -r.yMm() : -r.xMm();
      double y = quarters == 1 ? r.xMm() : -r.yMm();
      double l = quarters == 1 ? r.widthMm() : r.lengthMm();
      double w = quarters == 1 ? r.lengthMm() : r.widthMm();
      boolean found = false;
      for (Rect o : rects) {
        double d =
            Math.max(
                Math.max(Math.abs(o.xMm() - x), Math.abs(o.yMm() - y)),
                Math.max(Math.abs(o.lengthMm() - l), Math.abs(o.widthMm() - w)));
        found |= d < 0.08;
      }
      if (!found) {
        return false;
      }
    }
    return true;
  }
}
