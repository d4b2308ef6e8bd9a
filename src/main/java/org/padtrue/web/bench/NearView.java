package org.padtrue.web.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * A placement and its neighbours as a scope shows them: bodies, lands, terminations, the first
 * termination marked (pin 1, or the end by which the type counts). Drawn in mm about the placement,
 * y down as drawings have it, turned and mirrored as the panel lies under the scope.
 *
 * @param name the placement, with its board where there are several
 * @param box the drawing's view box
 * @param parts the placement itself last, so that it is drawn on top
 * @param text size of a letter, mm
 * @param axisX end of the panel's x axis, an arrow of length 1 in the picture's frame
 * @param axisY end of its y axis
 */
public record NearView(
    String name, String box, List<Part> parts, String text, Tip axisX, Tip axisY) {
  private static final double LEAST_HALF = 4;
  private static final double BODIES = 2.2;

  public NearView {
    parts = List.copyOf(parts);
  }

  /** End of an arrow, and where its letter stands. */
  public record Tip(String x, String y) {
    public String letterX() {
      return MapView.number(1.4 * Double.parseDouble(x));
    }

    public String letterY() {
      return MapView.number(1.4 * Double.parseDouble(y));
    }
  }

  /** A rectangle turned about its centre. */
  public record Box(String x, String y, String length, String width, String transform) {}

  /**
   * One placement of the picture.
   *
   * @param ref its name
   * @param here true for the placement that is looked for
   * @param x of its name
   * @param y of its name
   * @param body outline; a cross stands for it where no body is known
   * @param lands copper
   * @param ends terminations
   * @param first middle of the first termination; empty where none is known
   */
  public record Part(
      String ref,
      boolean here,
      String x,
      String y,
      List<Box> body,
      List<Box> lands,
      List<Box> ends,
      List<Tip> first) {
    public Part {
      body = List.copyOf(body);
      lands = List.copyOf(lands);
      ends = List.copyOf(ends);
      first = List.copyOf(first);
    }
  }

  /**
   * How the panel lies under the scope.
   *
   * @param turnDeg degrees, counter-clockwise as seen
   * @param mirrored true where the scope shows it mirrored, left for right
   */
  public record Scope(int turnDeg, boolean mirrored) {
    Pose seen(Pose p, Pose about) {
      double dx = p.xMm() - about.xMm();
      double dy = p.yMm() - about.yMm();
      double c = Angles.cosDeg(turnDeg);
      double s = Angles.sinDeg(turnDeg);
      double x = c * dx - s * dy;
      double y = s * dx + c * dy;
      double r = p.rotationDeg() + turnDeg;
      return mirrored ? new Pose(-x, y, -r) : new Pose(x, y, r);
    }
  }

  /**
   * The surroundings of a placement, panel/column/row/ref; empty when there is none of that key.
   */
  static Optional<NearView> of(Job job, String key, Scope scope) {
    return Places.of(job).find(key).map(p -> of(job, p, scope));
  }

  private static NearView of(Job job, Places.Place at, Scope scope) {
    double half = half(job.partType(at.placement().part()));
    List<Part> parts = new ArrayList<>();
    Part own = null;
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose nominal = p.pose().seenFrom(b.origin());
        PartType type = job.partType(p.part());
        boolean here = b.index().equals(at.board()) && p.ref().equals(at.placement().ref());
        double reach = half * Math.sqrt(2) + half(type) / BODIES;
        if (Math.hypot(nominal.xMm() - at.nominal().xMm(), nominal.yMm() - at.nominal().yMm())
            > reach) {
          continue;
        }
        Part drawn = part(p.ref(), here, type, nominal, at.nominal(), scope);
        if (here) {
          own = drawn;
        } else {
          parts.add(drawn);
        }
      }
    }
    if (own != null) {
      parts.add(own);
    }
    Pose origin = new Pose(0, 0, 0);
    boolean array = job.array().boards().size() > 1;
    return new NearView(
        (array ? at.board() + "/" : "") + at.placement().ref(),
        String.join(
            " ",
            MapView.number(-half),
            MapView.number(-half),
            MapView.number(2 * half),
            MapView.number(2 * half)),
        parts,
        MapView.number(half / 11),
        tip(scope.seen(new Pose(1, 0, 0), origin)),
        tip(scope.seen(new Pose(0, 1, 0), origin)));
  }

  private static double half(PartType t) {
    Rect body = t.body();
    double size = body == null ? 0 : Math.max(body.lengthMm(), body.widthMm());
    for (Rect r : t.lands()) {
      size = Math.max(size, 2 * Math.abs(r.xMm()) + r.lengthMm());
      size = Math.max(size, 2 * Math.abs(r.yMm()) + r.widthMm());
    }
    return Math.max(LEAST_HALF, BODIES * size / 2);
  }

  private static Part part(
      String ref, boolean here, PartType type, Pose nominal, Pose about, Scope scope) {
    Pose at = scope.seen(nominal, about);
    Rect body = type.body();
    List<Tip> first =
        type.terminations().isEmpty()
            ? List.of()
            : List.of(tip(middle(type.terminations().get(0), nominal, about, scope)));
    return new Part(
        ref,
        here,
        MapView.number(at.xMm()),
        MapView.number(-at.yMm()),
        body == null ? List.of() : List.of(box(body, nominal, about, scope)),
        type.lands().stream().map(r -> box(r, nominal, about, scope)).toList(),
        type.terminations().stream().map(r -> box(r, nominal, about, scope)).toList(),
        first);
  }

  private static Pose middle(Rect r, Pose nominal, Pose about, Scope scope) {
    return scope.seen(new Pose(r.xMm(), r.yMm(), 0).seenFrom(nominal), about);
  }

  private static Box box(Rect r, Pose nominal, Pose about, Scope scope) {
    Pose m = middle(r, nominal, about, scope);
    return new Box(
        MapView.number(-r.lengthMm() / 2),
        MapView.number(-r.widthMm() / 2),
        MapView.number(r.lengthMm()),
        MapView.number(r.widthMm()),
        "translate("
            + MapView.number(m.xMm())
            + " "
            + MapView.number(-m.yMm())
            + ") rotate("
            + MapView.number(-m.rotationDeg())
            + ")");
  }

  private static Tip tip(Pose p) {
    return new Tip(MapView.number(p.xMm()), MapView.number(-p.yMm()));
  }
}
