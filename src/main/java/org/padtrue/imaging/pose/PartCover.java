package org.padtrue.imaging.pose;

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
  private final BlurredRect look = new BlurredRect();

  private double cos = 1;
  private double sin;
  private double x0;
  private double y0;
  private double sigma = 1;
  private final double[] sides;

  /** Shares of the point last looked at. */
  final double[] share = new double[KINDS];

  /** Derivatives of body's and metal's shares by parameter. */
  final double[] body;

  final double[] metal;

  /** Whether any derivative of the point last looked at is worth its sums. */
  boolean bodySteep;

  boolean metalSteep;

  PartCover(Outline outline, List<Outline.Sided> sided, List<Outline.Group> groups) {
    for (int i = 0; i < groups.size(); i++) {
      column.put(groups.get(i), POSE + i);
    }
    count = POSE + groups.size() + 1;
    body = new double[count];
    metal = new double[count];
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
    sides = new double[4 * terms.size()];
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

  /** Sets the parameters that points are looked at by from now on. */
  void set(double[] p) {
    cos = Math.cos(p[2]);
    sin = Math.sin(p[2]);
    x0 = p[0];
    y0 = p[1];
    sigma = Math.exp(p[count - 1]);
    for (int t = 0; t < terms.size(); t++) {
      for (int i = 0; i < 4; i++) {
        sides[4 * t + i] = side(terms.get(t).a, i, p);
      }
    }
  }

  /** Boxes that may show between two corners, within so much, mm: what to look at there. */
  int[] near(double uMin, double vMin, double uMax, double vMax, double within) {
    return java.util.stream.IntStream.range(0, terms.size())
        .filter(
            t -> {
              double[] s = terms.get(t).a.side;
              return s[0] < uMax + within
                  && s[1] > uMin - within
                  && s[2] < vMax + within
                  && s[3] > vMin - within;
            })
        .toArray();
  }

  /**
   * Looks at a point.
   *
   * @param u part frame of the pose the parameters start from
   * @param v likewise
   * @param near boxes that may show there
   */
  void look(double u, double v, int[] near) {
    double x = cos * (u - x0) + sin * (v - y0);
    double y = -sin * (u - x0) + cos * (v - y0);
    double far = 6 * sigma;
    if (bodySteep) {
      java.util.Arrays.fill(body, 0);
    }
    if (metalSteep) {
      java.util.Arrays.fill(metal, 0);
    }
    bodySteep = false;
    metalSteep = false;
    double b = 0;
    double m = 0;
    for (int t : near) {
      int k = 4 * t;
      double left = sides[k];
      double right = sides[k + 1];
      double low = sides[k + 2];
      double high = sides[k + 3];
      if (right <= left
          || high <= low
          || x < left - far
          || x > right + far
          || y < low - far
          || y > high + far) {
        continue;
      }
      Term term = terms.get(t);
      if (look.look(x, y, left, right, low, high, sigma)) {
        add(term, x, y);
      }
      b += term.body * look.cover;
      m += term.metal * look.cover;
    }
    share[BODY] = b;
    share[METAL] = m;
    share[GROUND] = 1 - b - m;
    if (bodySteep) {
      turn(body, cos, sin);
    }
    if (metalSteep) {
      turn(metal, cos, sin);
    }
  }

  /** Derivatives so far are along the turned part's axes. */
  private static void turn(double[] d, double c, double s) {
    double du = c * d[0] - s * d[1];
    d[1] = s * d[0] + c * d[1];
    d[0] = du;
  }

  private void add(Term t, double x, double y) {
    double[] d = t.metal != 0 ? metal : body;
    bodySteep |= t.metal == 0;
    metalSteep |= t.metal != 0;
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
