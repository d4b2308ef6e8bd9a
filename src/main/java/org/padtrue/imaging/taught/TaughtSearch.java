package org.padtrue.imaging.taught;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.PixelSampler;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/** Looks for a taught look around a predicted pose by correlation on a coarse grid. */
final class TaughtSearch {
  /** Cells along the longer side of a look; more where it is slender. */
  private static final int CELLS = 18;

  private static final int MOST_CELLS = 45;

  /** Cells along the shorter side. */
  private static final int ACROSS = 8;

  /**
   * A pose worth a fit.
   *
   * @param pose panel frame
   * @param score correlation, -1 to 1
   */
  record Candidate(Pose pose, double score) {}

  private final TaughtGrid look;
  private final double reachMm;

  TaughtSearch(TaughtLook taught, double pictureCellMm, double reachMm) {
    double longer = Math.max(taught.lengthMm(), taught.widthMm());
    double shorter = Math.min(taught.lengthMm(), taught.widthMm());
    double cell = Math.max(longer / MOST_CELLS, Math.min(longer / CELLS, shorter / ACROSS));
    this.look = TaughtGrid.of(taught, Math.max(pictureCellMm, Math.max(0.04, cell)));
    this.reachMm = reachMm;
  }

  /** The best poses about a prediction, best first, well apart. */
  List<Candidate> find(
      PixelSampler picture,
      PanelToPicture map,
      Pose predicted,
      double heightMm,
      double reachDeg,
      int count) {
    double arm = Math.hypot(look.width, look.height) / 2;
    int reach = (int) Math.ceil(reachMm / look.cellMm);
    int half = (int) Math.ceil(arm + reach) + 3;
    int side = 2 * half + 1;
    TaughtWindow seen =
        TaughtWindow.of(picture, map, predicted, heightMm, side, side, half, half, look.cellMm);
    List<Candidate> all = new ArrayList<>();
    double step = Math.max(1, Math.toDegrees(0.9 / arm));
    int turns = (int) Math.ceil(reachDeg / step);
    for (int t = -turns; t <= turns; t++) {
      turned(seen, predicted, t * step, half, reach, all);
    }
    all.sort(Comparator.comparingDouble(Candidate::score).reversed());
    List<Candidate> out = new ArrayList<>();
    for (Candidate c : all) {
      if (out.size() < count && out.stream().noneMatch(o -> near(o.pose, c.pose, arm))) {
        out.add(c);
      }
    }
    return out;
  }

  private boolean near(Pose a, Pose b, double arm) {
    double turn = Math.toRadians(Angles.wrap(a.rotationDeg() - b.rotationDeg())) * arm;
    double off = Math.hypot(a.xMm() - b.xMm(), a.yMm() - b.yMm()) / look.cellMm;
    return Math.hypot(off, turn) < 2.5;
  }

  /** Correlations of the look at one rotation with every place within reach. */
  private void turned(
      TaughtWindow seen, Pose predicted, double turnDeg, int half, int reach, List<Candidate> out) {
    double c = Angles.cosDeg(turnDeg);
    double s = Angles.sinDeg(turnDeg);
    int n = 0;
    int[] at = new int[look.weights.length];
    float[] fx = new float[at.length];
    float[] fy = new float[at.length];
    int[] from = new int[at.length];
    for (int k = 0; k < at.length; k++) {
      if (look.weights[k] < 0.1) {
        continue;
      }
      double u = k % look.width - look.originX;
      double v = look.originY - k / look.width;
      double x = half + c * u - s * v;
      double y = half - (s * u + c * v);
      int xi = (int) Math.floor(x);
      int yi = (int) Math.floor(y);
      at[n] = yi * seen.width + xi;
      fx[n] = (float) (x - xi);
      fy[n] = (float) (y - yi);
      from[n++] = k;
    }
    double centre = Angles.cosDeg(predicted.rotationDeg()) * look.cellMm;
    double aside = Angles.sinDeg(predicted.rotationDeg()) * look.cellMm;
    for (int dy = -reach; dy <= reach; dy++) {
      for (int dx = -reach; dx <= reach; dx++) {
        if (Math.hypot(dx, dy) > reach + 0.5) {
          continue;
        }
        double score = correlation(seen, at, fx, fy, from, n, dx - dy * seen.width);
        if (score > 0.2) {
          Pose p =
              new Pose(
                  predicted.xMm() + centre * dx - aside * dy,
                  predicted.yMm() + aside * dx + centre * dy,
                  Angles.wrap(predicted.rotationDeg() + turnDeg));
          out.add(new Candidate(p, score));
        }
      }
    }
  }

  private double correlation(
      TaughtWindow seen, int[] at, float[] fx, float[] fy, int[] from, int n, int shift) {
    double tt = 1e-9;
    double ss = 1e-9;
    double ts = 0;
    for (int c = 0; c < 3; c++) {
      double[] v = seen.values[c];
      double[] t = look.values[c];
      double w = 0;
      double st = 0;
      double sv = 0;
      double stt = 0;
      double svv = 0;
      double stv = 0;
      for (int i = 0; i < n; i++) {
        int k = at[i] + shift;
        double top = v[k] * (1 - fx[i]) + v[k + 1] * fx[i];
        double low = v[k + seen.width] * (1 - fx[i]) + v[k + seen.width + 1] * fx[i];
        double a = top * (1 - fy[i]) + low * fy[i];
        double b = t[from[i]];
        double q = look.weights[from[i]];
        w += q;
        st += q * b;
        sv += q * a;
        stt += q * b * b;
        svv += q * a * a;
        stv += q * a * b;
      }
      tt += stt - st * st / w;
      ss += svv - sv * sv / w;
      ts += stv - st * sv / w;
    }
    // NaN where the place reaches out of the picture: no candidate.
    return ts / Math.sqrt(tt * ss);
  }
}
