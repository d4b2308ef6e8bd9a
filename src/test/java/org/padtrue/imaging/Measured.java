package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/** Errors of readings against the renderer's truth. */
final class Measured {
  /** One found reading: errors in mm and degrees, and over the stated uncertainty. */
  record Error(String id, double x, double y, double turn, double u, double uTurn) {}

  final List<Error> errors = new ArrayList<>();

  static Measured of(DetectionResult r, Map<String, Pose> truth) {
    Measured m = new Measured();
    for (PlacementReading p : r.readings()) {
      Pose t = truth.get(p.id());
      if (p.status() != ReadingStatus.FOUND || t == null) {
        continue;
      }
      Pose q = p.pose();
      m.errors.add(
          new Error(
              p.id(),
              q.xMm() - t.xMm(),
              q.yMm() - t.yMm(),
              Angles.wrap(q.rotationDeg() - t.rotationDeg(), 4),
              p.uMm(),
              p.uRotationDeg()));
    }
    return m;
  }

  double meanX() {
    return errors.stream().mapToDouble(Error::x).average().orElse(Double.NaN);
  }

  double meanY() {
    return errors.stream().mapToDouble(Error::y).average().orElse(Double.NaN);
  }

  double rms() {
    return Math.sqrt(
        errors.stream().mapToDouble(e -> (e.x * e.x + e.y * e.y) / 2).average().orElse(0));
  }

  /** Root mean square without the worst tenth: what most parts show. */
  double mostRms() {
    double[] v = errors.stream().mapToDouble(e -> (e.x * e.x + e.y * e.y) / 2).sorted().toArray();
    double s = 0;
    int n = (int) Math.ceil(0.9 * v.length);
    for (int i = 0; i < n; i++) {
      s += v[i] / n;
    }
    return Math.sqrt(s);
  }

  /** Share of coordinates within k standard uncertainties. */
  double within(double k) {
    double n = 0;
    for (Error e : errors) {
      n += Math.abs(e.x) <= k * e.u ? 1 : 0;
      n += Math.abs(e.y) <= k * e.u ? 1 : 0;
    }
    return n / (2.0 * errors.size());
  }

  double turnRms() {
    return Math.sqrt(errors.stream().mapToDouble(e -> e.turn * e.turn).average().orElse(0));
  }

  String line(String name) {
    return String.format(
        Locale.ROOT,
        "%-28s n %3d bias %6.1f %6.1f um, RMS %5.1f um (best 90 %% %5.1f), turn %.3f deg,"
            + " within 1u %.2f, 2u %.2f",
        name,
        errors.size(),
        1000 * meanX(),
        1000 * meanY(),
        1000 * rms(),
        1000 * mostRms(),
        turnRms(),
        within(1),
        within(2));
  }
}
