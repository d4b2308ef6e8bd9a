package org.padtrue.web.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
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
 */
public record MapView(String box, double unit, List<Place> places) {
  private static final double MARGIN = 0.04;
  private static final double USUAL_SIZE = 1.0;

  public MapView {
    places = List.copyOf(places);
  }

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
    double left = Double.POSITIVE_INFINITY;
    double right = Double.NEGATIVE_INFINITY;
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose at = p.pose().seenFrom(b.origin());
        places.add(place(job, panel, b, p, at));
        left = Math.min(left, at.xMm());
        right = Math.max(right, at.xMm());
        low = Math.min(low, at.yMm());
        high = Math.max(high, at.yMm());
      }
    }
    double size = Math.max(5, Math.max(right - left, high - low));
    double m = Math.max(1.5, MARGIN * size);
    String box =
        places.isEmpty()
            ? "0 0 1 1"
            : number(left - m)
                + " "
                + number(-high - m)
                + " "
                + number(right - left + 2 * m)
                + " "
                + number(high - low + 2 * m);
    return new MapView(box, size / 60, places);
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
