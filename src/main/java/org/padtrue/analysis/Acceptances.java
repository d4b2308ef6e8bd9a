package org.padtrue.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.padtrue.land.Capability;
import org.padtrue.land.PartFrame;
import org.padtrue.panel.Job;
import org.padtrue.panel.Tolerance;

/** Counts and indices against the limits. */
final class Acceptances {
  private Acceptances() {}

  static Acceptance of(Job job, PlacementTable table) {
    Indices now = new Indices(table);
    Indices trimmed = new Indices(table);
    int judged = 0;
    int outside = 0;
    int after = 0;
    TreeSet<String> notJudged = new TreeSet<>();
    for (PlacementResult r : table.results()) {
      if (!table.judge(r.part()).judged()) {
        notJudged.add(r.part());
      }
      if (r.verdict().equals("within") || r.verdict().equals("outside")) {
        judged++;
        now.add(r, r.deviation());
        trimmed.add(r, r.afterTrim());
        outside += r.margin() < 0 ? 1 : 0;
        after += r.marginAfterTrim() < 0 ? 1 : 0;
      }
    }
    double[] expected = table.expectedOutside();
    return new Acceptance(
        job.acceptanceClass(),
        judged,
        outside,
        after,
        expected[0],
        expected[1],
        now.cpk(false),
        now.cpk(true),
        trimmed.cpk(false),
        List.copyOf(notJudged));
  }

  /** Deviations in the part frame, each scaled by its own allowed deviation. */
  private static final class Indices {
    private final PlacementTable table;
    private final List<double[]> x = new ArrayList<>();
    private final List<double[]> y = new ArrayList<>();

    Indices(PlacementTable table) {
      this.table = table;
    }

    void add(PlacementResult r, Xyr d) {
      Tolerance allowed = table.allowed(r.part());
      double theta = r.nominal().rotationDeg();
      x.add(new double[] {PartFrame.x(d.x(), d.y(), theta), allowed.xMm()});
      y.add(new double[] {PartFrame.y(d.x(), d.y(), theta), allowed.yMm()});
    }

    Xy cpk(boolean lower) {
      return new Xy(one(x, lower), one(y, lower));
    }

    private static double one(List<double[]> v, boolean lower) {
      if (v.size() < 2) {
        return Double.NaN;
      }
      Capability c =
          Capability.scaled(
              v.stream().mapToDouble(a -> a[0]).toArray(),
              v.stream().mapToDouble(a -> a[1]).toArray());
      return lower ? c.cpkLower95() : c.cpk();
    }
  }
}
