package org.padtrue.imaging.registration;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.CircleFit;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.imaging.picture.RimContrast;
import org.padtrue.imaging.pose.CoarseSearch;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.OutlineFit;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;

/**
 * Reads a fiducial near its expected place: round first, then square, then cross.
 *
 * <p>The place is searched on a grid of rings inside and outside the rim; the best spots are fitted
 * to sub-pixel.
 */
final class MarkReader {
  /**
   * A mark that was read.
   *
   * @param x centre, px
   * @param y centre, px
   * @param u standard uncertainty of each coordinate, px
   * @param diameterPx its size
   * @param support share of its edge that was seen
   * @param shape "round", "square" or "cross"
   */
  record Reading(double x, double y, double u, double diameterPx, double support, String shape) {}

  private static final double GOOD = 0.7;

  /**
   * What hides a share of the rim pulls at the rest: standard deviation for all of it, px. A lamp's
   * spot that drowned a fifth shifted rendered fiducials by 0.16 px.
   */
  private static final double DROWNED_PX = 0.7;

  private final Picture picture;
  private final PanelToPicture map;

  MarkReader(Picture picture, PanelToPicture map) {
    this.picture = picture;
    this.map = map;
  }

  /**
   * Reads the mark.
   *
   * @param reachMm how far off it may be, mm
   * @param diametersMm sizes to try, mm
   */
  @Nullable Reading read(double xMm, double yMm, double[] diametersMm, double reachMm) {
    double[] q = map.at(xMm, yMm);
    double ppm = map.scaleAt(xMm, yMm);
    Reading best = null;
    for (double d : diametersMm) {
      Reading r = round(q[0], q[1], d * ppm / 2, reachMm * ppm);
      if (r != null && (best == null || r.support > best.support + 0.05)) {
        best = r;
      }
    }
    if (best != null && best.support >= GOOD) {
      return best;
    }
    for (double d : diametersMm) {
      for (Outline o : shapes(d)) {
        Reading r = outlined(o, xMm, yMm, ppm * d, reachMm);
        if (r != null && (best == null || r.support > best.support + 0.1)) {
          best = r;
        }
      }
    }
    return best != null && best.support >= 0.5 ? best : null;
  }

  private static List<Outline> shapes(double d) {
    List<Outline> out = new ArrayList<>();
    out.add(Outline.ofRects(List.of(new Rect(0, 0, d, d))));
    for (double arm : new double[] {0.12, 0.2, 0.33}) {
      double w = arm * d;
      double rest = (d - w) / 2;
      double at = w / 2 + rest / 2;
      out.add(
          Outline.ofRects(
              List.of(new Rect(0, 0, d, w), new Rect(0, at, w, rest), new Rect(0, -at, w, rest))));
    }
    return out;
  }

  private @Nullable Reading outlined(
      Outline o, double xMm, double yMm, double sizePx, double reachMm) {
    Pose at = new Pose(xMm, yMm, 0);
    CoarseSearch search = new CoarseSearch(picture, map, o, 0, reachMm);
    List<CoarseSearch.Candidate> found = search.find(at, 2, 1);
    if (found.isEmpty() || found.get(0).score() < 0.3) {
      return null;
    }
    CoarseSearch.Refined r = search.refine(found.get(0));
    double reach = sizePx + map.scaleAt(xMm, yMm) * reachMm + 10;
    double[] q = map.at(xMm, yMm);
    Plane plane = picture.plane(q[0] - reach, q[1] - reach, q[0] + reach, q[1] + reach);
    OutlineFit.Result fit =
        new OutlineFit(plane, map, o, List.of(), at)
            .fit(r.pose(), Math.max(1, 0.6 * r.cellMm() * map.scaleAt(xMm, yMm)), 1);
    if (fit == null) {
      return null;
    }
    double[] c = map.at(fit.pose().xMm(), fit.pose().yMm());
    double[][] v = fit.covariance();
    double u = Math.sqrt((v[0][0] + v[1][1]) / 2) * map.scaleAt(xMm, yMm);
    String shape = o.rects().size() == 1 ? "square" : "cross";
    return new Reading(c[0], c[1], Math.hypot(u, 0.02), sizePx, fit.support(), shape);
  }

  private @Nullable Reading round(double x, double y, double radius, double reach) {
    if (radius < 2.5) {
      return null;
    }
    double step = Math.max(1, radius / 4);
    int k = (int) Math.ceil(reach / step);
    List<double[]> best = new ArrayList<>();
    for (int iy = -k; iy <= k; iy++) {
      for (int ix = -k; ix <= k; ix++) {
        double off = Math.hypot(ix, iy) * step;
        if (off <= reach + step) {
          double s =
              RimContrast.of(picture, x + ix * step, y + iy * step, radius) - 0.05 * off / reach;
          best.add(new double[] {s, x + ix * step, y + iy * step});
        }
      }
    }
    best.sort((a, b) -> Double.compare(b[0], a[0]));
    Reading out = null;
    for (int i = 0; i < Math.min(4, best.size()); i++) {
      CircleFit.Mark m = CircleFit.fit(picture, best.get(i)[1], best.get(i)[2], radius, 1);
      // A fit may run off to a neighbour.
      boolean near = m != null && Math.hypot(m.x() - x, m.y() - y) < reach + step;
      if (m != null && near && (out == null || m.support() > out.support + 0.02)) {
        double u = Math.hypot(m.u(), DROWNED_PX * (1 - m.support()));
        out = new Reading(m.x(), m.y(), u, 2 * m.radius(), m.support(), "round");
      }
    }
    return out;
  }
}
