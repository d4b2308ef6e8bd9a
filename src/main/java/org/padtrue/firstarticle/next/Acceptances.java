package org.padtrue.firstarticle.next;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.Acceptance;
import org.padtrue.firstarticle.result.Expected;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TypeIndex;
import org.padtrue.land.risk.ExpectedOutside;
import org.padtrue.panel.Job;

/** Counts and indices against the limits. */
public final class Acceptances {
  private Acceptances() {}

  public static Acceptance of(Job job, PlacementTable table) {
    ScaledDeviations now = new ScaledDeviations();
    ScaledDeviations trimmed = new ScaledDeviations();
    Map<String, ScaledDeviations> nowOf = new TreeMap<>();
    Map<String, ScaledDeviations> trimmedOf = new TreeMap<>();
    int judged = 0;
    int outside = 0;
    int after = 0;
    TreeSet<String> notJudged = new TreeSet<>();
    for (PlacementResult r : table.results()) {
      if (!table.judge(r.part()).judged()) {
        notJudged.add(r.part());
      }
      if (r.verdict().equals("outside") && Double.isNaN(r.margin())) {
        // marked as wrong by the article: no trim mends it, and its place says nothing of scatter
        judged++;
        outside++;
        after++;
      } else if (r.verdict().equals("within") || r.verdict().equals("outside")) {
        judged++;
        double theta = r.nominal().rotationDeg();
        var allowed = table.allowed(r.part());
        now.add(r.deviation(), theta, allowed);
        trimmed.add(r.afterTrim(), theta, allowed);
        nowOf
            .computeIfAbsent(r.part(), k -> new ScaledDeviations())
            .add(r.deviation(), theta, allowed);
        trimmedOf
            .computeIfAbsent(r.part(), k -> new ScaledDeviations())
            .add(r.afterTrim(), theta, allowed);
        outside += r.margin() < 0 ? 1 : 0;
        after += r.marginAfterTrim() < 0 ? 1 : 0;
      }
    }
    return new Acceptance(
        job.acceptanceClass(),
        judged,
        outside,
        after,
        expected(table.expectedOutside(false)),
        expected(table.expectedOutside(true)),
        now.cpk(),
        now.cpkLower95(),
        trimmed.cpk(),
        types(nowOf, trimmedOf),
        List.copyOf(notJudged));
  }

  private static Expected expected(@Nullable ExpectedOutside e) {
    return e == null
        ? Expected.UNKNOWN
        : new Expected(e.perPanel(), e.low(), e.high(), e.integrationError());
  }

  private static List<TypeIndex> types(
      Map<String, ScaledDeviations> now, Map<String, ScaledDeviations> trimmed) {
    List<TypeIndex> types = new ArrayList<>();
    now.forEach(
        (part, before) -> {
          ScaledDeviations after = trimmed.getOrDefault(part, before);
          types.add(
              new TypeIndex(
                  part,
                  before.count(),
                  before.allowed(),
                  before.cpk(),
                  before.cpkLower95(),
                  after.cpk(),
                  after.cpkLower95(),
                  after.toleranceEnd(-1),
                  after.toleranceEnd(1)));
        });
    types.sort(
        Comparator.comparingDouble(
            t -> Math.min(known(t.cpkAfterTrim().x()), known(t.cpkAfterTrim().y()))));
    return types;
  }

  private static double known(double v) {
    return Double.isNaN(v) ? Double.POSITIVE_INFINITY : v;
  }
}
