package org.padtrue.firstarticle.next;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Job;

/**
 * Scatter of placing by part type, as earlier articles show it.
 *
 * <p>Residuals of each type are pooled over the articles. A type of few placements leans on all:
 * its variance is the average of its own and the common one, weighted by degrees of freedom, of
 * which the common one has {@link #PRIOR} (the form of Smyth 2004, Stat. Appl. Genet. Mol. Biol.
 * 3(1); its prior degrees of freedom are not estimated here). Each article takes from a type two
 * degrees of freedom for its own offset (one in rotation) and its share of six for the panel.
 *
 * @param mm of all types together, mm; NaN when it cannot be told
 * @param deg the same for rotation, degrees
 * @param mmByType by part type, mm
 * @param degByType by part type, degrees
 * @param placements placements behind it
 */
public record PlacingScatter(
    double mm,
    double deg,
    Map<String, Double> mmByType,
    Map<String, Double> degByType,
    int placements) {
  private static final double PRIOR = 8;
  private static final double PANEL_TERMS = 6;
  private static final double FEWEST = 4;

  public PlacingScatter {
    mmByType = Map.copyOf(mmByType);
    degByType = Map.copyOf(degByType);
  }

  /** Sums of squares with their degrees of freedom. */
  private static final class Pool {
    private final Map<String, double[]> by = new TreeMap<>();

    void add(String part, double squares, double freedom) {
      double[] s = by.computeIfAbsent(part, k -> new double[2]);
      s[0] += squares;
      s[1] += Math.max(0, freedom);
    }

    double all() {
      double squares = 0;
      double freedom = 0;
      for (double[] s : by.values()) {
        squares += s[0];
        freedom += s[1];
      }
      return freedom >= FEWEST ? squares / freedom : Double.NaN;
    }

    /** Standard deviations by type, reading error taken off as far as it leaves half of it. */
    Map<String, Double> moderated(double reading) {
      double common = all();
      Map<String, Double> sd = new TreeMap<>();
      if (common > 0) {
        by.forEach((k, s) -> sd.put(k, without((s[0] + PRIOR * common) / (s[1] + PRIOR), reading)));
      }
      return sd;
    }
  }

  /**
   * Pools articles.
   *
   * @param articles each one's placements, as an analysis gives them
   * @param job says how exactly was measured
   */
  public static PlacingScatter of(List<List<PlacementResult>> articles, Job job) {
    Pool mm = new Pool();
    Pool deg = new Pool();
    int n = 0;
    for (List<PlacementResult> a : articles) {
      n += add(a, mm, deg);
    }
    double u = job.measurement().uncertaintyMm();
    double ur = job.measurement().rotationUncertaintyDeg();
    return new PlacingScatter(
        without(mm.all(), u), without(deg.all(), ur), mm.moderated(u), deg.moderated(ur), n);
  }

  private static int add(List<PlacementResult> article, Pool mm, Pool deg) {
    Map<String, double[]> by = new TreeMap<>();
    int n = 0;
    int turned = 0;
    for (PlacementResult p : article) {
      Xyr r = p.residual();
      if (!p.used() || !Double.isFinite(r.x()) || !Double.isFinite(r.y())) {
        continue;
      }
      double[] s = by.computeIfAbsent(p.part(), k -> new double[4]);
      s[0] += r.x() * r.x() + r.y() * r.y();
      s[1]++;
      n++;
      if (Double.isFinite(r.rotation())) {
        s[2] += r.rotation() * r.rotation();
        s[3]++;
        turned++;
      }
    }
    for (Map.Entry<String, double[]> e : by.entrySet()) {
      double[] s = e.getValue();
      mm.add(e.getKey(), s[0], 2 * s[1] - 2 - PANEL_TERMS * s[1] / n);
      if (s[3] > 0) {
        deg.add(e.getKey(), s[2], s[3] - 1 - s[3] / turned);
      }
    }
    return n;
  }

  private static double without(double variance, double reading) {
    double u = Double.isNaN(reading) ? 0 : reading * reading;
    return Math.sqrt(Math.max(variance - u, variance / 4));
  }
}
