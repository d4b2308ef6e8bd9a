package org.padtrue.web.bench;

import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;

/**
 * A panel from above as a drawing, in mm, y down as drawings have it.
 *
 * @param box the drawing's view box
 * @param unit size of a mark that a finger can hit on a map of usual width, mm
 * @param places placements
 * @param boards numbers of the boards, at their middle; empty for a single board
 * @param origin the panel's origin, drawn where it lies in the picture; or null
 */
public record MapView(
    String box, double unit, List<Place> places, List<Mark> boards, @Nullable Mark origin) {
  private static final double MARGIN = 0.04;
  private static final double USUAL_SIZE = 1.0;

  /** An origin that would make the picture so much larger is not drawn. */
  private static final double FAR_ORIGIN = 1.5;

  public MapView {
    places = List.copyOf(places);
    boards = List.copyOf(boards);
  }

  /** A text at a point of the drawing, mm. */
  public record Mark(String text, String x, String y) {}

  /**
   * One placement.
   *
   * @param key panel/column/row/ref
   * @param label for people
   * @param transform of its outline
   * @param x drawing x, mm
   * @param y drawing y, mm
   * @param length outline along the part's x, mm
   * @param width outline along its y, mm
   */
  public record Place(
      String key, String label, String transform, String x, String y, String length, String width) {
    /** Left edge of the outline. */
    public String left() {
      return number(-Double.parseDouble(length) / 2);
    }

    /** Upper edge of the outline. */
    public String top() {
      return number(-Double.parseDouble(width) / 2);
    }
  }

  public static MapView of(Job job) {
    return of(job, "P1");
  }

  /** The map of one panel. */
  public static MapView of(Job job, String panel) {
    List<Place> places = new ArrayList<>();
    List<Mark> boards = new ArrayList<>();
    Rectangle2D all = null;
    for (Board b : job.array().boards()) {
      Rectangle2D own = null;
      for (Placement p : job.placements()) {
        Pose at = p.pose().seenFrom(b.origin());
        places.add(place(job, panel, b, p, at));
        own = with(own, at.xMm(), -at.yMm());
      }
      if (own != null) {
        boards.add(
            new Mark(b.index().toString(), number(own.getCenterX()), number(own.getCenterY())));
        all = all == null ? own : all.createUnion(own);
      }
    }
    if (all == null) {
      return new MapView("0 0 1 1", 1, places, List.of(), null);
    }
    Rectangle2D wide = with((Rectangle2D) all.clone(), 0, 0);
    boolean near = Math.max(wide.getWidth(), wide.getHeight()) <= FAR_ORIGIN * size(all);
    Rectangle2D shown = near ? wide : all;
    double size = size(shown);
    double m = Math.max(1.5, MARGIN * size);
    String box =
        String.join(
            " ",
            number(shown.getX() - m),
            number(shown.getY() - m),
            number(shown.getWidth() + 2 * m),
            number(shown.getHeight() + 2 * m));
    return new MapView(
        box,
        size / 60,
        places,
        boards.size() > 1 ? boards : List.of(),
        near ? new Mark("0, 0", "0", "0") : null);
  }

  private static double size(Rectangle2D r) {
    return Math.max(5, Math.max(r.getWidth(), r.getHeight()));
  }

  private static Rectangle2D with(@Nullable Rectangle2D r, double x, double y) {
    if (r == null) {
      return new Rectangle2D.Double(x, y, 0, 0);
    }
    r.add(x, y);
    return r;
  }

  private static Place place(Job job, String panel, Board b, Placement p, Pose at) {
    PartType t = job.partType(p.part());
    Rect body = t.body();
    double length = body == null ? USUAL_SIZE : body.lengthMm();
    double width = body == null ? USUAL_SIZE / 2 : body.widthMm();
    boolean array = job.array().boards().size() > 1;
    String x = number(at.xMm());
    String y = number(-at.yMm());
    return new Place(
        panel + "/" + b.index() + "/" + p.ref(),
        p.ref() + (array ? " on board " + b.index() : "") + ", " + p.part(),
        "translate(" + x + " " + y + ") rotate(" + number(-at.rotationDeg()) + ")",
        x,
        y,
        number(length),
        number(width));
  }

  /** A number as drawings take it. */
  public static String number(double v) {
    String s = String.format(Locale.ROOT, "%.3f", v + 0.0);
    return s.replaceAll("\\.?0+$", "").replaceAll("^-0$", "0");
  }
}
