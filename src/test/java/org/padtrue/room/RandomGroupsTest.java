package org.padtrue.room;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.land.clearance.OutlinePair;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.Tolerance;

/**
 * Crowded groups against a search of another kind: many random starts, each moved downhill in
 * random steps that shrink, gaps judged by exact distances. None may be left touching where that
 * search finds room; the sum of squared moves may be 10 % above its best, 1 % for up to four parts.
 */
class RandomGroupsTest {
  private static final double GAP = 0.1;
  private static final double MAX = 0.4;
  private static final double ROUNDED = 1e-6;

  /** A group, and pairs of it that meet in height. */
  private static final class Crowd {
    final Blocks blocks = new Blocks();
    final List<OutlinePair> outlines = new ArrayList<>();
    final List<int[]> pairs = new ArrayList<>();

    Crowd(Random r, int parts) {
      double x = 0;
      double y = 0;
      for (int i = 0; i < parts; i++) {
        double length = 0.8 + 1.2 * r.nextDouble();
        double width = 0.5 + 0.7 * r.nextDouble();
        double turn = r.nextInt(3) > 0 ? 90 * r.nextInt(4) : 360 * r.nextDouble();
        double allowed = 0.1 + 0.3 * r.nextDouble();
        blocks.add(
            "R" + i,
            new Envelope(length, width, 0, 1),
            new Tolerance(allowed, allowed, 10),
            x,
            y,
            turn,
            0);
        x += 1.2 + 0.8 * r.nextDouble();
        if (x > 3.2) {
          x = 0.4 * r.nextDouble();
          y += 1.05 + 0.5 * r.nextDouble();
        }
      }
      List<RoomItem> items = blocks.items();
      for (int i = 0; i < items.size(); i++) {
        for (int j = i + 1; j < items.size(); j++) {
          pairs.add(new int[] {i, j});
          outlines.add(OutlinePair.of(items.get(i).part(), items.get(j).part()).orElseThrow());
        }
      }
    }

    /** How far gaps and limits are missed, mm; 0 when all are kept. */
    double missed(double[] m) {
      List<RoomItem> items = blocks.items();
      double sum = 0;
      for (int i = 0; i < items.size(); i++) {
        double x = m[2 * i];
        double y = m[2 * i + 1];
        sum += Math.max(0, -items.get(i).margin(items.get(i).moved(x, y, 0)));
        sum += Math.max(0, Math.hypot(x, y) - MAX);
      }
      for (int k = 0; k < pairs.size(); k++) {
        int i = pairs.get(k)[0];
        int j = pairs.get(k)[1];
        double gap =
            outlines
                .get(k)
                .gap(
                    items.get(i).moved(m[2 * i], m[2 * i + 1], 0),
                    items.get(j).moved(m[2 * j], m[2 * j + 1], 0));
        sum += Math.max(0, GAP - gap);
      }
      return sum;
    }

    /** Least sum of squares that a random search finds; NaN when it finds no room. */
    double searched(Random r, int starts, int steps) {
      int n = 2 * blocks.items().size();
      double best = Double.NaN;
      for (int s = 0; s < starts; s++) {
        double[] at = new double[n];
        for (int k = 0; k < n; k++) {
          at[k] = s == 0 ? 0 : 0.15 * r.nextGaussian();
        }
        double missed = missed(at);
        double square = square(at);
        double step = 0.1;
        int failed = 0;
        for (int t = 0; t < steps && step > 1e-5; t++) {
          double[] to = at.clone();
          int of = r.nextInt(3);
          for (int k = 0; k < n; k++) {
            to[k] += of == 0 || r.nextInt(n / 2) == 0 ? step * r.nextGaussian() : 0;
            to[k] *= of == 2 ? 1 - step * r.nextDouble() : 1;
          }
          double now = missed(to);
          double sq = square(to);
          if (now < missed || now == 0 && sq < square) {
            at = to;
            missed = now;
            square = sq;
            failed = 0;
          } else if (++failed > 40 * n) {
            step /= 2;
            failed = 0;
          }
        }
        if (missed == 0 && !(square >= best)) {
          best = square;
        }
      }
      return best;
    }
  }

  private static double square(double[] m) {
    double sum = 0;
    for (double v : m) {
      sum += v * v;
    }
    return sum;
  }

  @Test
  void crowdedGroupsAgainstALongRandomSearch() {
    int runs = Study.runs("roomGroups", 8, 200);
    int starts = Study.FULL ? 30 : 5;
    Random r = new Random(20261201);
    int solved = 0;
    int left = 0;
    double worst = 0;
    double worstOfFew = 0;
    int better = 0;
    for (int run = 0; run < runs; run++) {
      int parts = 2 + r.nextInt(7);
      Crowd c = new Crowd(r, parts);
      RoomResult found = c.blocks.search(Blocks.options(GAP, MAX));
      double[] m = new double[2 * parts];
      boolean all = true;
      for (RoomGroup g : found.groups()) {
        all &= g.solved();
        for (RoomMove v : g.moves()) {
          int i = Integer.parseInt(v.key().substring(1));
          m[2 * i] = v.x();
          m[2 * i + 1] = v.y();
        }
      }
      double best = c.searched(new Random(run), starts, 40_000);
      if (all) {
        solved++;
        assertThat(c.missed(m)).as("run " + run).isLessThan(ROUNDED);
        double above = Double.isNaN(best) || found.groups().isEmpty() ? 0 : square(m) / best - 1;
        better += Double.isNaN(best) || above < -1e-3 ? 1 : 0;
        worst = Math.max(worst, above);
        worstOfFew = parts <= 4 ? Math.max(worstOfFew, above) : worstOfFew;
      } else if (!Double.isNaN(best)) {
        left++;
      }
    }
    System.out.printf(
        "room in %d of %d crowded groups; %d left where a random search finds room; sum of squares"
            + " at most %.2f %% above its best (%.2f %% up to four parts), below it in %d%n",
        solved, runs, left, 100 * worst, 100 * worstOfFew, better);
    assertThat(left).isZero();
    assertThat(worst).isLessThan(0.10);
    assertThat(worstOfFew).isLessThan(0.01);
    assertThat(solved).isGreaterThan(runs / 4);
  }
}
