package org.padtrue.firstarticle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.fitted.ScatterByType;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.panel.Measured;
import org.padtrue.quantity.Angles;

/**
 * Scatter differs by part type: 12 um for chips, 50 um for tall ones (common practice for one
 * machine). What the next panel shows of each type lies within its own interval, honest placements
 * of the large are not left out, and standard errors of offsets are honest for both.
 *
 * <p>300 articles a cell in full, 30 otherwise; one variance for all types, and 200 placements, in
 * full only.
 */
class TypeScatterTest {
  private static final int ARTICLES = Study.runs("types", 30, 300);
  private static final double SMALL = 0.012;
  private static final double LARGE = 0.050;

  private static final class Cell {
    final Map<String, int[]> inside = new TreeMap<>();
    int articles;
    int lost;
    int lostArticles;

    void add(String what, boolean in) {
      int[] n = inside.computeIfAbsent(what, k -> new int[2]);
      n[0] += in ? 1 : 0;
      n[1]++;
    }

    double share(String what) {
      int[] n = inside.get(what);
      return n[0] / (double) n[1];
    }

    @Override
    public String toString() {
      StringBuilder b = new StringBuilder();
      inside.forEach((k, n) -> b.append(String.format(" %s %.3f", k, n[0] / (double) n[1])));
      return b + String.format("; articles that lost a placement %d of %d", lostArticles, articles);
    }
  }

  private static Cell simulate(long seed, int placements, int types, double[] sd, boolean equal) {
    Cell cell = new Cell();
    for (int i = 0; i < ARTICLES; i++) {
      SyntheticPanel s = new SyntheticPanel(seed + i);
      s.tolerances = false;
      s.perBoard = placements;
      s.types = types;
      s.typeScatter = sd;
      s.shiftX = 0.03 * s.random.nextGaussian();
      s.shiftY = 0.03 * s.random.nextGaussian();
      s.draw();
      FirstArticleResult r =
          FirstArticleAnalysis.run(
              s.job(),
              List.of(s.article("a")),
              AnalysisOptions.withDefaults().withEqualScatter(equal));
      cell.articles++;
      cell.lost += r.excluded().size();
      cell.lostArticles += r.excluded().isEmpty() ? 0 : 1;
      for (GroupResult g : r.groups()) {
        double[] o = s.offset.get("part " + g.level());
        String size = s.scatterOf(g.level()) > 0.02 ? "large" : "small";
        cell.add(size + " offset", in(g.combined().x() - o[0], g.combinedStandardErrors().x()));
        cell.add(size + " offset", in(g.combined().y() - o[1], g.combinedStandardErrors().y()));
      }
      Map<String, ScatterByType> of = new TreeMap<>();
      r.scatter().types().forEach(t -> of.put(t.part(), t));
      for (Measured m : s.article("b").measured()) {
        double[] t = s.truth(s.job().array().boards().get(0), m.placement(), m.nominal());
        ScatterByType v = of.get(m.placement().part());
        String size = s.scatterOf(m.placement().part()) > 0.02 ? "large" : "small";
        double df = v.degreesOfFreedom();
        double half = org.padtrue.numeric.Tails.t(0.95, df);
        double dx = m.dxMm() - t[0];
        double dy = m.dyMm() - t[1];
        double c = Angles.cosDeg(m.nominal().rotationDeg());
        double n = Angles.sinDeg(m.nominal().rotationDeg());
        boolean turn = v.frame().equals("part");
        cell.add(size + " scatter", Math.abs(turn ? c * dx + n * dy : dx) < half * v.sdX());
        cell.add(size + " scatter", Math.abs(turn ? c * dy - n * dx : dy) < half * v.sdY());
      }
    }
    return cell;
  }

  private static boolean in(double error, double se) {
    return Math.abs(error) < 1.959964 * se;
  }

  @Test
  void eachTypeHasItsOwnInterval() {
    double[] mixed = {SMALL, SMALL, SMALL, LARGE};
    int[][] cells = {{67, 8}, {30, 4}, {200, 12}};
    for (int[] c : Arrays.copyOf(cells, Study.FULL ? 3 : 2)) {
      Cell now = simulate(500_000, c[0], c[1], mixed, false);
      Cell alike = simulate(510_000, c[0], c[1], new double[] {0.02}, false);
      String name = c[0] + " placements, " + c[1] + " types: ";
      if (Study.FULL) {
        Cell before = simulate(500_000, c[0], c[1], mixed, true);
        System.out.println(name + "one variance:" + before);
      }
      System.out.println(name + "by type:" + now);
      System.out.println(name + "by type, all alike:" + alike);
      for (Cell cell : List.of(now, alike)) {
        cell.inside.forEach(
            (what, n) -> {
              // Scores of one article move together: a tenth of them counts.
              double slack = 3 * Math.sqrt(0.95 * 0.05 / (0.1 * n[1]));
              assertThat(cell.share(what))
                  .as(name + what + cell)
                  .isBetween(0.93 - slack, 0.97 + slack);
            });
      }
    }
  }
}
