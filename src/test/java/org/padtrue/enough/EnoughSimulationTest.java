package org.padtrue.enough;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
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
import org.padtrue.panel.Board;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.Article;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.plan.model.MeasuringPlanOptions;
import org.padtrue.problem.InputException;
import org.padtrue.quantity.Angles;

/**
 * Articles of all kinds measured in the order of the plan, looked at after 30, 50, 75 and 90 % of
 * the placements: how often does the sheet of the whole panel place the next one better by more
 * than the share that counts, and how often was that said? {@code -Dpadtrue.enough=N} for N
 * articles.
 */
class EnoughSimulationTest {
  private static final int RUNS = Study.runs("enough", 8, 200);
  private static final long SEED = Long.getLong("padtrue.seed", 90_000);
  private static final double[] LOOKS = {0.3, 0.5, 0.75, 0.9};

  /** One look: what was said and what came. */
  private record Look(double at, double said, boolean enough, boolean changed) {}

  private static FirstArticleResult analyse(Job job, List<Measured> rows, Article of) {
    Article a = new Article("a", rows, List.of(), false, false, of.temperatureC(), List.of());
    return FirstArticleAnalysis.run(job, List.of(a), AnalysisOptions.withDefaults());
  }

  private static List<Look> run(long seed) {
    Random size = new Random(seed);
    SyntheticPanel s = new SyntheticPanel(seed);
    s.perBoard = 30 + size.nextInt(150);
    s.types = 3 + size.nextInt(6);
    s.nozzles = size.nextBoolean() ? 4 : 0;
    s.nozzleSd = s.nozzles > 0 && size.nextBoolean() ? 0.02 : 0;
    s.typeSd = new double[] {0.01, 0.02, 0.04}[size.nextInt(3)];
    s.scatter = 0.015 + 0.02 * size.nextDouble();
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
    FirstArticleResult last = analyse(s.job(), order, all);
    List<Look> looks = new ArrayList<>();
    for (double at : LOOKS) {
      int k = (int) Math.round(at * order.size());
      FirstArticleResult now;
      try {
        now = analyse(s.job(), order.subList(0, k), all);
      } catch (InputException e) {
        continue;
      }
      Enough e = Enough.of(now, s.job());
      if (Double.isNaN(e.chance())) {
        continue;
      }
      double next = now.prediction().nextTrimmed();
      double grown = 1 + Enough.MATERIAL;
      boolean changed = moved(s.job(), now, last) > (grown * grown - 1) * next * next;
      looks.add(new Look(at, e.chance(), e.enough(), changed));
    }
    return looks;
  }

  /** Mean square of what one sheet places otherwise than another, mm^2. */
  private static double moved(Job job, FirstArticleResult a, FirstArticleResult b) {
    double sum = 0;
    int n = 0;
    for (Board board : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose at = p.pose().seenFrom(board.origin());
        Xy one = field(a, p, at);
        Xy other = field(b, p, at);
        sum += Math.pow(one.x() - other.x(), 2) + Math.pow(one.y() - other.y(), 2);
        n++;
      }
    }
    return sum / n;
  }

  private static Xy field(FirstArticleResult r, Placement p, Pose at) {
    BatchTrim t = r.batchTrim();
    double[] m = Decisions.linear(t.rotation().value(), t.scale());
    double x = t.shift().value().x() + m[0] * at.xMm() + m[1] * at.yMm();
    double y = t.shift().value().y() + m[2] * at.xMm() + m[3] * at.yMm();
    double px = t.common().value().x();
    double py = t.common().value().y();
    for (GroupResult g : r.groups()) {
      String own = g.factor() == Factor.PART ? p.part() : g.factor().level(p);
      if (g.level().equals(own)) {
        boolean part = g.frame().equals("part");
        px += part ? g.trim().value().x() : 0;
        py += part ? g.trim().value().y() : 0;
        x += part ? 0 : g.trim().value().x();
        y += part ? 0 : g.trim().value().y();
      }
    }
    double c = Angles.cosDeg(at.rotationDeg());
    double s = Angles.sinDeg(at.rotationDeg());
    return new Xy(x + c * px - s * py, y + s * px + c * py);
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

  @Test
  void whatItSaysIsWhatComes() {
    List<Look> all = new ArrayList<>();
    for (int i = 0; i < RUNS; i++) {
      all.addAll(run(SEED + i));
    }
    for (double at : LOOKS) {
      print(
          "after " + Math.round(100 * at) + " %", all.stream().filter(l -> l.at() == at).toList());
    }
    for (int k = 0; k < 4; k++) {
      double from = 0.25 * k;
      print(
          String.format(Locale.ROOT, "said %.2f to %.2f", from, from + 0.25),
          all.stream()
              .filter(l -> l.said() >= from && (l.said() < from + 0.25 || from == 0.75))
              .toList());
    }
    List<Look> enough = all.stream().filter(Look::enough).toList();
    print("called enough", enough);
    double said = all.stream().mapToDouble(Look::said).average().orElse(1);
    double came = all.stream().filter(Look::changed).count() / (double) all.size();
    double room = 2 * Study.error(0.5, RUNS);
    assertThat(came).isBetween(said - 0.05 - room, said + 0.05 + room);
    double wrong = enough.stream().filter(Look::changed).count() / Math.max(1.0, enough.size());
    assertThat(enough).isNotEmpty();
    assertThat(wrong)
        .isLessThanOrEqualTo(Enough.TOGETHER + 2 * Study.error(Enough.TOGETHER, enough.size()));
  }

  private static void print(String which, List<Look> looks) {
    System.out.printf(
        Locale.ROOT,
        "enough: %s: %d looks, said %.2f, came %.2f, called enough %.2f%n",
        which,
        looks.size(),
        looks.stream().mapToDouble(Look::said).average().orElse(Double.NaN),
        looks.stream().filter(Look::changed).count() / (double) looks.size(),
        looks.stream().filter(Look::enough).count() / (double) looks.size());
  }
}
