package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.padtrue.panel.Rect;

/**
 * What a blurred point of a part shows: shares of ground, body and metal, and how they change with
 * the pose, with the groups' size differences and with the blur. Part frame, mm; parameters are x,
 * y, rotation (radians), one size for each group, logarithm of the blur.
 */
final class PartCover {
  static final int GROUND = 0;
  static final int BODY = 1;
  static final int METAL = 2;
  static final int KINDS = 3;
  private static final int POSE = 3;

  /** A rectangle whose sides belong to groups; fixed sides have none (-1). */
  private record Box(double[] side, int[] group) {}

  /** A cover of one box, or of two that overlap, counted with a sign for body and metal. */
  private record Term(Box a, int metal, int body) {}

  private final List<Term> terms = new ArrayList<>();
  private final Map<Outline.Group, Integer> column = new EnumMap<>(Outline.Group.class);
  private final int count;
  private final double halfX;
  private final double halfY;
  private final BlurredRect look = new BlurredRect();

  /** Shares of the point last looked at. */
  final double[] share = new double[KINDS];

  /** Derivatives of body's and metal's shares by parameter. */
  final double[] body;

  final double[] metal;

  PartCover(Outline outline, List<Outline.Sided> sided, List<Outline.Group> groups) {
    for (int i = 0; i < groups.size(); i++) {
      column.put(groups.get(i), POSE + i);
    }
    count = POSE + groups.size() + 1;
    body = new double[count];
    metal = new double[count];
    halfX = outline.halfLengthMm();
    halfY = outline.halfWidthMm();
    Outline.Sided whole = null;
    for (Outline.Sided s : sided) {
      whole = s.body() ? s : whole;
    }
    for (Outline.Sided s : sided) {
      if (s.body()) {
        continue;
      }
      Box b = box(s);
      if (outline.leads() && whole != null) {
        terms.add(new Term(towardsBody(b, s.rect(), whole.rect()), 1, 0));
        continue;
      }
      terms.add(new Term(b, 1, 0));
      if (whole != null) {
        terms.add(new Term(common(b, box(whole)), 0, -1));
      }
    }
    if (whole != null && !outline.leads()) {
      terms.add(new Term(box(whole), 0, 1));
    }
  }

  int count() {
    return count;
  }

  private Box box(Outline.Sided s) {
    Rect r = s.rect();
    int[] g = new int[4];
    for (int i = 0; i < 4; i++) {
      Integer c = column.get(s.sides().get(i));
      g[i] = c == null ? -1 : c;
    }
    return new Box(
        new double[] {
          r.xMm() - r.lengthMm() / 2,
          r.xMm() + r.lengthMm() / 2,
          r.yMm() - r.widthMm() / 2,
          r.yMm() + r.widthMm() / 2
        },
        g);
  }

  /** A lead's foot goes on to the body. */
  private static Box towardsBody(Box foot, Rect r, Rect body) {
    double[] side = foot.side.clone();
    int[] group = foot.group.clone();
    boolean alongX = Math.abs(r.xMm()) / body.lengthMm() >= Math.abs(r.yMm()) / body.widthMm();
    int inner = alongX ? (r.xMm() > 0 ? 0 : 1) : r.yMm() > 0 ? 2 : 3;
    double end =
        switch (inner) {
          case 0 -> Math.min(side[0], body.xMm() + body.lengthMm() / 2);
          case 1 -> Math.max(side[1], body.xMm() - body.lengthMm() / 2);
          case 2 -> Math.min(side[2], body.yMm() + body.widthMm() / 2);
          default -> Math.max(side[3], body.yMm() - body.widthMm() / 2);
        };
    side[inner] = end;
    group[inner] = -1;
    return new Box(side, group);
  }

  /** What two boxes share; a side they have in common is the first one's. */
  private static Box common(Box a, Box b) {
    double[] side = new double[4];
    int[] group = new int[4];
    for (int i = 0; i < 4; i++) {
      double inwards = (b.side[i] - a.side[i]) * (i % 2 == 0 ? 1 : -1);
      boolean first = inwards < 0.03;
      side[i] = first ? a.side[i] : b.side[i];
      group[i] = first ? a.group[i] : b.group[i];
    }
    return new Box(side, group);
  }

  /**
   * Looks at a point.
   *
   * @param u part frame of the pose the parameters start from
   * @param v likewise
   * @param p parameters
   */
  void look(double u, double v, double[] p) {
    double c = Math.cos(p[2]);
    double s = Math.sin(p[2]);
    double x = c * (u - p[0]) + s * (v - p[1]);
    double y = -s * (u - p[0]) + c * (v - p[1]);
    double sigma = Math.exp(p[count - 1]);
    double far = 6 * sigma;
    java.util.Arrays.fill(body, 0);
    java.util.Arrays.fill(metal, 0);
    double b = 0;
    double m = 0;
    if (Math.abs(x) > halfX + far || Math.abs(y) > halfY + far) {
      share[GROUND] = 1;
      share[BODY] = 0;
      share[METAL] = 0;
      return;
    }
    for (Term t : terms) {
      double x0 = side(t.a, 0, p);
      double x1 = side(t.a, 1, p);
      double y0 = side(t.a, 2, p);
      double y1 = side(t.a, 3, p);
      if (x1 <= x0 || y1 <= y0 || x < x0 - far || x > x1 + far || y < y0 - far || y > y1 + far) {
        continue;
      }
      look.look(x, y, x0, x1, y0, y1, sigma);
      b += t.body * look.cover;
      m += t.metal * look.cover;
      add(t, x, y);
    }
    share[BODY] = b;
    share[METAL] = m;
    share[GROUND] = 1 - b - m;
    turn(body, c, s);
    turn(metal, c, s);
  }

  /** Derivatives so far are along the turned part's axes. */
  private static void turn(double[] d, double c, double s) {
    double du = c * d[0] - s * d[1];
    d[1] = s * d[0] + c * d[1];
    d[0] = du;
  }

  private void add(Term t, double x, double y) {
    double[] d = t.metal != 0 ? metal : body;
    int sign = t.metal != 0 ? t.metal : t.body;
    double dx = look.bySide[0] + look.bySide[1];
    double dy = look.bySide[2] + look.bySide[3];
    d[0] += sign * dx;
    d[1] += sign * dy;
    // The part turned by dRad: x gains y dRad, y loses x dRad; moving a point is moving sides back.
    d[2] += sign * (x * dy - y * dx);
    for (int i = 0; i < 4; i++) {
      if (t.a.group[i] >= 0) {
        d[t.a.group[i]] += sign * (i % 2 == 0 ? -1 : 1) * look.bySide[i];
      }
    }
    d[count - 1] += sign * look.byBlur;
  }

  /** Place of a side; a ROOT grows inwards as it grows out of its own rectangle. */
  private static double side(Box b, int i, double[] p) {
    int g = b.group[i];
    return b.side[i] + (g < 0 ? 0 : (i % 2 == 0 ? -1 : 1) * p[g]);
  }
}
