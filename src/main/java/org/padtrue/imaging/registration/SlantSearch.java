package org.padtrue.imaging.registration;

import java.util.List;
import java.util.OptionalDouble;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.Sites;

/**
 * Tells by how much a picture from the side was tilted: the lines turn the view square for every
 * focal length that a camera may have, and the parts of the job decide which of them is right.
 */
public final class SlantSearch {
  /** Focal lengths of cameras, in diagonals of the picture: wide angle to telephoto. */
  private static final double SHORTEST = 0.6;

  private static final double LONGEST = 2.6;
  private static final double STEP = 1.2;

  /** Focal length of an ordinary camera. */
  private static final double ORDINARY = 1;

  /** Lines that must become squarer by this much, as a share of their length. */
  private static final double PLAIN = 0.05;

  /** Parts that look so well in place as taken need no other view. */
  private static final double STRAIGHT = 0.6;

  private final Picture picture;
  private final List<Sites.Site> sites;
  private final LineTilt lines;

  public SlantSearch(Features features, List<Sites.Site> sites) {
    this.picture = features.picture();
    this.sites = sites;
    this.lines = features.lines();
  }

  /** Tilt that the lines show for an ordinary camera, degrees; 0 where they are square as taken. */
  public double linesDeg() {
    LineTilt.View v = lines.turned(ORDINARY * diagonal());
    return v.square() - v.asTaken() > PLAIN ? v.tiltDeg() : 0;
  }

  /** The tilt at which the job's parts stand in the turned view, degrees; empty if they do not. */
  public OptionalDouble degrees() {
    if (linesDeg() < Registration.MAX_TILT_DEG / 2) {
      return OptionalDouble.empty();
    }
    double straight = evidence(picture);
    if (straight > STRAIGHT) {
      return OptionalDouble.empty();
    }
    double best = 0;
    double most = 0;
    for (double f = SHORTEST; f < LONGEST; f *= STEP) {
      double e = evidence(f);
      if (most > PartsRegistration.CLEAR && e < most) {
        break;
      }
      best = e > most ? f : best;
      most = Math.max(most, e);
    }
    for (double step = Math.sqrt(STEP);
        step > 1.04 && most > MapSearch.CLEAR;
        step = Math.sqrt(step)) {
      for (double f : new double[] {best / step, best * step}) {
        double e = evidence(f);
        best = e > most ? f : best;
        most = Math.max(most, e);
      }
    }
    // On a regular board parts stand nearly as well in a view a little turned: the straight one
    // wins.
    return most > MapSearch.CLEAR && most > straight
        ? OptionalDouble.of(lines.turned(best * diagonal()).tiltDeg())
        : OptionalDouble.empty();
  }

  /** What the parts show in the view that is square for such a camera. */
  private double evidence(double focal) {
    LineTilt.View v = lines.turned(focal * diagonal());
    try (Picture square = picture.seenBy(v.rectify())) {
      return evidence(square);
    }
  }

  private double evidence(Picture p) {
    return new PartsRegistration(Features.of(p), List.of(), sites, List.of(), null).evidence();
  }

  private double diagonal() {
    return Math.hypot(picture.width(), picture.height());
  }
}
