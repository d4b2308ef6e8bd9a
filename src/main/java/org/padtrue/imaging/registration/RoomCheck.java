package org.padtrue.imaging.registration;

import java.util.List;
import java.util.Locale;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.panel.Rect;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Whether a job can be what a picture shows at all: a wrong unit makes it far too small or large.
 */
public final class RoomCheck {
  /** Bodies that fill more than this share of the box about them overlap. */
  private static final double FULL = 0.95;

  /** A box counts from so many placements on: two large parts may stand in line. */
  private static final int FEWEST = 4;

  /** Less shows no part, px per mm: an 0402 chip would be 1.5 by 3 pixels. */
  private static final double COARSEST = 3;

  private RoomCheck() {}

  /**
   * Looks at the room that the placements of a job take.
   *
   * @throws InputException when the parts do not fit between their places, or when the picture has
   *     too few pixels for the distances between them
   */
  public static void check(String name, int widthPx, int heightPx, List<Sites.Site> sites) {
    List<Sites.Site> known = sites.stream().filter(s -> Outline.known(s.type())).toList();
    if (known.size() < FEWEST) {
      return;
    }
    double[] b = Sites.bounds(known, List.of());
    double w = b[2] - b[0];
    double h = b[3] - b[1];
    double bodies = 0;
    double longest = 0;
    for (Sites.Site s : known) {
      Rect r = s.type().body();
      bodies += r == null ? 0 : r.lengthMm() * r.widthMm();
      longest = r == null ? longest : Math.max(longest, Math.max(r.lengthMm(), r.widthMm()));
    }
    String span = "the placements span " + words(w) + " x " + words(h) + " mm";
    if (bodies > FULL * (w + longest) * (h + longest)) {
      throw wrong(
          name, span + String.format(Locale.ROOT, " but their bodies fill %.0f mm2", bodies));
    }
    double most =
        Math.min(
            Math.max(widthPx, heightPx) / Math.max(w, h),
            Math.min(widthPx, heightPx) / Math.min(w, h));
    if (most < COARSEST) {
      throw wrong(
          name,
          span + String.format(Locale.ROOT, ", which leaves the picture at most %.1f px/mm", most));
    }
  }

  private static String words(double mm) {
    return String.format(Locale.ROOT, mm < 10 ? "%.2f" : "%.0f", mm);
  }

  private static InputException wrong(String name, String found) {
    return new InputException(
        Problem.of(name, found, "check the unit of the placement file (\"units\" in the job)"));
  }
}
