package org.padtrue.enough;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.firstarticle.FirstArticleAnalysis;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.decide.Decisions;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.problem.InputException;

/**
 * Articles measured in the order of the plan: when it first says enough, would the rest have
 * changed what to do? Panels of 300 placements in full only; {@code -Dpadtrue.enough=N} for N
 * articles a size.
 */
class EnoughSimulationTest {
  private static final int RUNS = Study.runs("enough", 4, 60);

  /** Placements, part types, first look after, step between looks. */
  private static final int[][] SIZES =
      Study.FULL
          ? new int[][] {{40, 4, 12, 4}, {120, 6, 24, 8}, {300, 8, 40, 20}}
          : new int[][] {{40, 4, 12, 4}, {120, 6, 24, 16}};

  private record Stop(int at, double said, boolean changed, int terms, boolean byAll) {}

  private static FirstArticleResult analyse(Job job, List<Measured> rows, Article of) {
    Article a = new Article("a", rows, List.of(), false, false, of.temperatureC(), List.of());
    return FirstArticleAnalysis.run(job, List.of(a), AnalysisOptions.withDefaults());
  }

  private static Stop run(int[] size, long seed) {
    SyntheticPanel s = new SyntheticPanel(seed);
    s.perBoard = size[0];
    s.types = size[1];
    s.boardX = 120;
    s.boardY = 80;
    s.shiftX = 0.04 * s.random.nextGaussian();
    s.shiftY = 0.04 * s.random.nextGaussian();
    s.rotationDeg = 0.03 * s.random.nextGaussian();
    s.scaleX = 1e-4 * s.random.nextGaussian();
    s.scaleY = 1e-4 * s.random.nextGaussian();
    s.draw();
    Article all = s.article("a");
    List<Measured> order = planOrder(s.job(), all);
    int n = order.size();
    for (int k = size[2]; k < n; k += size[3]) {
      FirstArticleResult now;
      try {
        now = analyse(s.job(), order.subList(0, k), all);
      } catch (InputException e) {
        continue;
      }
      Enough e = Enough.of(now, s.job());
      if (e.enough()) {
        FirstArticleResult last = analyse(s.job(), order, all);
        int changes = changes(s.job(), now, last);
        return new Stop(k, e.chance(), changes > 0, changes, false);
      }
    }
    return new Stop(n, 0, false, 0, true);
  }

  /** The plan's placements first, in nested plans that double, then the rest. */
  private static List<Measured> planOrder(Job job, Article all) {
    Map<String, Measured> byId = new HashMap<>();
    all.measured().forEach(m -> byId.put(m.id(), m));
    List<Measured> order = new ArrayList<>();
    MeasuringPlan plan = MeasuringPlan.of(job, MeasuringPlanOptions.withDefaults().withCount(20));
    for (MeasuringPlan.PlanLine l : plan.lines()) {
      Measured m = byId.remove(l.column() + "/" + l.row() + "/" + l.ref());
      if (m != null) {
        order.add(m);
      }
    }
    all.measured().stream().filter(m -> byId.containsKey(m.id())).forEach(order::add);
    return order;
  }

  /** Numbers that differ by more than their dead band; common and part offsets counted together. */
  private static int changes(Job job, FirstArticleResult a, FirstArticleResult b) {
    double band = 0.05 * 0.2;
    double turnBand = 0.05 * 5;
    int n = 0;
    double[] ca = centre(job, a);
    double[] cb = centre(job, b);
    n += Math.abs(ca[0] - cb[0]) > band ? 1 : 0;
    n += Math.abs(ca[1] - cb[1]) > band ? 1 : 0;
    double far = Math.hypot(60, 40);
    double turn = a.batchTrim().rotation().value() - b.batchTrim().rotation().value();
    n += Math.toRadians(Math.abs(turn)) * far > band ? 1 : 0;
    BatchTrim.Scale sa = a.batchTrim().scale();
    BatchTrim.Scale sb = b.batchTrim().scale();
    n += 1e-6 * Math.abs(sa.xPpm() - sb.xPpm()) * far > band ? 1 : 0;
    n += 1e-6 * Math.abs(sa.yPpm() - sb.yPpm()) * far > band ? 1 : 0;
    n += 1e-3 * Math.abs(sa.squarenessMrad() - sb.squarenessMrad()) * far > band ? 1 : 0;
    Map<String, Xyr> before = levels(a);
    for (Map.Entry<String, Xyr> e : levels(b).entrySet()) {
      Xyr p = before.getOrDefault(e.getKey(), Xyr.ZERO);
      n += Math.abs(p.x() - e.getValue().x()) > band ? 1 : 0;
      n += Math.abs(p.y() - e.getValue().y()) > band ? 1 : 0;
      n += Math.abs(p.rotation() - e.getValue().rotation()) > turnBand ? 1 : 0;
    }
    return n;
  }

  private static double[] centre(Job job, FirstArticleResult r) {
    BatchTrim t = r.batchTrim();
    double[] m = Decisions.linear(t.rotation().value(), t.scale());
    return new double[] {
      t.shift().value().x() + m[0] * 60 + m[1] * 40, t.shift().value().y() + m[2] * 60 + m[3] * 40
    };
  }

  private static Map<String, Xyr> levels(FirstArticleResult r) {
    Map<String, Xyr> out = new HashMap<>();
    Xy c = r.batchTrim().common().value();
    double zero = r.batchTrim().rotationZero().value();
    for (GroupResult g : r.groups()) {
      Xyr v = g.trim().value();
      out.put(g.level(), new Xyr(v.x() + c.x(), v.y() + c.y(), v.rotation() + zero));
    }
    return out;
  }

  @Test
  void whatItCallsEnoughIsEnough() {
    double said = 0;
    int changed = 0;
    int all = 0;
    for (int[] size : SIZES) {
      int[] at = new int[RUNS];
      int here = 0;
      int early = 0;
      double saidHere = 0;
      for (int i = 0; i < RUNS; i++) {
        Stop s = run(size, 90_000 + i);
        at[i] = s.at();
        early += s.byAll() ? 0 : 1;
        here += s.changed() ? 1 : 0;
        saidHere += s.said();
      }
      Arrays.sort(at);
      System.out.printf(
          "enough: %d placements, %d types: said before the end in %d of %d articles, median after"
              + " %d; the rest then changed what to do in %d (said %.1f)%n",
          size[0], size[1], early, RUNS, at[RUNS / 2], here, saidHere);
      said += saidHere;
      changed += here;
      all += early;
    }
    // Binomial spread around what was said, with two standard errors of room.
    assertThat((double) changed)
        .isLessThanOrEqualTo(said + 2 * Math.sqrt(Math.max(1, Enough.TOGETHER * all)));
  }
}
