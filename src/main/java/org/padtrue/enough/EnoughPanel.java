package org.padtrue.enough;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Placement;

/** What of the panel is measured and what is left: counts and spread of positions. */
final class EnoughPanel {
  /** Placements of one level. */
  static final class Count {
    int measured;
    int turned;
    int available;
    int turnable;
  }

  int used;
  int left;
  int turned;
  final Map<Factor, Map<String, Count>> levels = new HashMap<>();
  final double[] spread = new double[4];
  final double[] spreadAll = new double[4];
  double farthestMm;

  EnoughPanel(FirstArticleResult r, Job job) {
    Map<String, Placement> byRef = new HashMap<>();
    job.placements().forEach(p -> byRef.put(p.ref(), p));
    List<double[]> here = new ArrayList<>();
    List<double[]> all = new ArrayList<>();
    for (PlacementResult p : r.placements()) {
      boolean unmeasured = Double.isNaN(p.deviation().x());
      if (!p.used() && !unmeasured) {
        continue;
      }
      boolean turn = !Double.isNaN(p.deviation().rotation());
      double[] at = {
        p.nominal().xMm(), p.nominal().yMm(), p.board().column() - 1, p.board().row() - 1
      };
      all.add(at);
      if (p.used()) {
        here.add(at);
        used++;
        turned += turn ? 1 : 0;
      } else {
        left++;
      }
      count(byRef.get(p.ref()), p, turn);
    }
    squares(here, spread);
    double[] centre = squares(all, spreadAll);
    for (double[] at : all) {
      farthestMm = Math.max(farthestMm, Math.hypot(at[0] - centre[0], at[1] - centre[1]));
    }
  }

  private void count(@org.jspecify.annotations.Nullable Placement q, PlacementResult p, boolean t) {
    for (Factor factor : Factor.carried()) {
      String level = factor.level(p.part(), q == null ? Levels.NONE : q.levels(), null);
      if (level == null) {
        continue;
      }
      Count c =
          levels
              .computeIfAbsent(factor, k -> new java.util.TreeMap<>())
              .computeIfAbsent(level, k -> new Count());
      c.available++;
      c.measured += p.used() ? 1 : 0;
      c.turned += p.used() && t ? 1 : 0;
      // A placement measured without its rotation will not be turned to again.
      c.turnable += !p.used() || t ? 1 : 0;
    }
  }

  private static double[] squares(List<double[]> points, double[] into) {
    double[] mean = new double[4];
    for (double[] p : points) {
      for (int k = 0; k < 4; k++) {
        mean[k] += p[k] / points.size();
      }
    }
    for (double[] p : points) {
      for (int k = 0; k < 4; k++) {
        into[k] += (p[k] - mean[k]) * (p[k] - mean[k]);
      }
    }
    return mean;
  }

  /** Share of the information on a slope that is in, 0 to 1. */
  double share(double in, double all) {
    return all > 0 ? Math.min(1, in / all) : 1;
  }
}
