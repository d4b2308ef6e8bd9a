package org.padtrue.imaging.registration;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.map.MapFamily;
import org.padtrue.imaging.map.MapFit;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * The tilt of a view as the measured parts show it. Two fiducials fix shift, turn and one scale and
 * nothing else: a view from the side shortens one direction, which they cannot see and the parts
 * can.
 */
public final class PartsTilt {
  /**
   * Largest tilt that two fiducials may hide, degrees. It shortens one direction by 0.4 %, twice
   * what the scales of an uncalibrated belt machine differ by (common practice: up to 2000 ppm).
   */
  private static final double MOST_HIDDEN_DEG = 5;

  private static final int LEAST_PARTS = 6;
  private static final int ROUNDS = 3;

  private PartsTilt() {}

  /**
   * Refuses a picture whose map cannot see the tilt that its parts show.
   *
   * @throws InputException with the tilt
   */
  public static void refuse(
      String name,
      Registration.Registered reg,
      List<PlacementReading> read,
      @Nullable CameraModel lens) {
    MapReport r = reg.report();
    boolean blind =
        r.registeredOn() == RegisteredOn.FIDUCIALS
            && r.family() == MapFamily.SIMILARITY
            && r.redundancy() == 0;
    double tilt = blind ? degrees(read, r.mirrored(), lens) : 0;
    if (tilt > MOST_HIDDEN_DEG) {
      throw new InputException(
          Problem.of(
              name,
              String.format(
                  Locale.ROOT,
                  "the parts show that the picture was taken about %.0f degrees off the vertical,"
                      + " and two fiducials cannot take that out",
                  tilt),
              "take it from straight above, with three fiducials or more in view"));
    }
  }

  /** Tilt by an affine map through the parts, degrees; 0 where too few were found to tell. */
  static double degrees(List<PlacementReading> read, boolean mirrored, @Nullable CameraModel lens) {
    List<MapFit.Pair> pairs =
        read.stream()
            .filter(p -> p.status() == ReadingStatus.FOUND)
            .map(p -> pair(p, lens))
            .toList();
    MapFit fit = null;
    for (int round = 0; round < ROUNDS && pairs.size() >= LEAST_PARTS; round++) {
      fit = MapFit.fit(pairs, MapFamily.AFFINE, mirrored, 1);
      if (fit == null) {
        return 0;
      }
      pairs = near(pairs, fit.residuals(pairs));
    }
    if (fit == null) {
      return 0;
    }
    double x = pairs.stream().mapToDouble(MapFit.Pair::xMm).average().orElse(0);
    double y = pairs.stream().mapToDouble(MapFit.Pair::yMm).average().orElse(0);
    return Registration.tilt(new PanelToPicture(fit.h, null), x, y);
  }

  private static MapFit.Pair pair(PlacementReading p, @Nullable CameraModel lens) {
    double[] q = lens == null ? new double[] {p.xPx(), p.yPx()} : lens.undistort(p.xPx(), p.yPx());
    return new MapFit.Pair(p.nominal().xMm(), p.nominal().yMm(), q[0], q[1], 1);
  }

  /** Without the parts that were fitted to a wrong edge. */
  private static List<MapFit.Pair> near(List<MapFit.Pair> pairs, double[] left) {
    double[] sorted = left.clone();
    Arrays.sort(sorted);
    double limit = Math.max(1, 3 * sorted[sorted.length / 2]);
    return java.util.stream.IntStream.range(0, left.length)
        .filter(i -> left[i] <= limit)
        .mapToObj(pairs::get)
        .toList();
  }
}
