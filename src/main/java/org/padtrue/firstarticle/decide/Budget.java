package org.padtrue.firstarticle.decide;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.padtrue.firstarticle.fitted.Fits;
import org.padtrue.firstarticle.next.NextPanel;
import org.padtrue.firstarticle.next.PartReach;
import org.padtrue.firstarticle.next.TrimField;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.BudgetLine;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.mixed.Contribution;
import org.padtrue.mixed.FactorEffect;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.panel.Job;
import org.padtrue.panel.Level;
import org.padtrue.panel.Measured;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.panel.term.TermFamily;

/** Where the variation comes from: mean square of each term, with and without the trims. */
public final class Budget {
  private Budget() {}

  public static List<BudgetLine> lines(Fits fits, Decisions decisions) {
    OffsetFit f = fits.position();
    DeviationTable t = fits.used();
    List<Contribution> terms = f.contributing();
    int k = terms.size();
    double[] ms = new double[k];
    double[] trimmed = new double[k];
    double total = 0;
    double residual = 0;
    double totalTrimmed = 0;
    int n = t.size();
    BatchTrim b = decisions.batch();
    for (int i = 0; i < n; i++) {
      double[][] c = f.contributions(i);
      double rx = t.dx()[i];
      double ry = t.dy()[i];
      total += (rx * rx + ry * ry) / n;
      double sumX = 0;
      double sumY = 0;
      for (int j = 0; j < k; j++) {
        rx -= c[j][0];
        ry -= c[j][1];
        ms[j] += sq(c[j][0], c[j][1]) / n;
        Xyr fix = correction(decisions, b, terms.get(j), t, i, fits);
        double ax = c[j][0] + fix.x();
        double ay = c[j][1] + fix.y();
        trimmed[j] += sq(ax, ay) / n;
        sumX += ax;
        sumY += ay;
      }
      residual += sq(rx, ry) / n;
      totalTrimmed += sq(rx + sumX, ry + sumY) / n;
    }
    List<BudgetLine> lines = new ArrayList<>();
    double explained = 0;
    double explainedTrimmed = 0;
    for (int j = 0; j < k; j++) {
      if (ms[j] == 0) {
        continue;
      }
      explained += ms[j];
      explainedTrimmed += trimmed[j];
      boolean removable = terms.get(j).family() != TermFamily.SETTLING;
      lines.add(new BudgetLine(terms.get(j).name(), ms[j], trimmed[j], removable));
    }
    double measuring = f.measuringSd();
    double pooled = f.residualSd() * f.residualSd();
    double placing = NextPanel.mean(fits, f.scatter());
    double m2 =
        Double.isNaN(measuring) || !(pooled > 0) ? 0 : residual * Math.max(0, 1 - placing / pooled);
    lines.add(new BudgetLine(TermFamily.SCATTER.key(), residual - m2, residual - m2, false));
    if (!Double.isNaN(measuring)) {
      lines.add(new BudgetLine("measuring", m2, m2, false));
    }
    lines.add(
        new BudgetLine(
            "overlap",
            total - explained - residual,
            totalTrimmed - explainedTrimmed - residual,
            false));
    return lines;
  }

  private static double sq(double x, double y) {
    return x * x + y * y;
  }

  /** The correction that acts on one term of the model at one row. */
  private static Xyr correction(
      Decisions d, BatchTrim b, Contribution term, DeviationTable t, int i, Fits fits) {
    FactorEffect e = term.effect();
    return e != null
        ? correction(d, e, t, i)
        : correction(d, b, Objects.requireNonNull(term.family()), t, i, fits);
  }

  private static Xyr correction(Decisions d, FactorEffect e, DeviationTable t, int i) {
    String level = e.factor().level(t.rows().get(i));
    if (level == null) {
      return Xyr.ZERO;
    }
    OffsetFrame frame = e.partFrame() ? OffsetFrame.PART : OffsetFrame.PANEL;
    TrimValue v = d.levels().get(new LevelKey(e.factor(), level, frame));
    if (v == null || v.decision() != Decision.TRIM) {
      return Xyr.ZERO;
    }
    TrimField one = new TrimField();
    Level of = new Level(e.factor(), level);
    one.level(of, e.partFrame(), v.value());
    return one.at(0, 0, t.theta()[i], 1, 1, List.of(of));
  }

  private static Xyr correction(
      Decisions d, BatchTrim b, TermFamily family, DeviationTable t, int i, Fits fits) {
    double[] c = fits.position().centroid();
    TrimField one = new TrimField();
    double x = t.x()[i] - c[0];
    double y = t.y()[i] - c[1];
    switch (family) {
      case SHIFT -> {
        // What the whole linear correction leaves at the centroid.
        Xyr at = d.panelAt(c[0], c[1]);
        return new Xyr(at.x(), at.y(), 0);
      }
      case ROTATION -> {
        double phi = Math.toRadians(b.rotation().value());
        return new Xyr(
            (Math.cos(phi) - 1) * x - Math.sin(phi) * y,
            Math.sin(phi) * x + (Math.cos(phi) - 1) * y,
            0);
      }
      case SCALE -> {
        Xyr whole = d.panelAt(t.x()[i], t.y()[i]);
        Xyr centre = d.panelAt(c[0], c[1]);
        Xyr turn = correction(d, b, TermFamily.ROTATION, t, i, fits);
        return new Xyr(whole.x() - centre.x() - turn.x(), whole.y() - centre.y() - turn.y(), 0);
      }
      case ARRAY -> {
        one.array(d.arrayTrim());
        return one.at(0, 0, 0, t.column()[i], t.row()[i], List.of());
      }
      case COMMON -> {
        one.common(b.common().value().x(), b.common().value().y());
        return one.at(0, 0, t.theta()[i], 1, 1, List.of());
      }
      default -> {
        return Xyr.ZERO;
      }
    }
  }

  /** Root mean squares now, on the next panel untrimmed and trimmed, and what scatter leaves. */
  public static Prediction prediction(Job job, Fits fits, Decisions decisions, NextPanel next) {
    DeviationTable t = fits.used();
    OffsetFit f = fits.position();
    double seen = 0;
    double untrimmed = 0;
    double trimmed = 0;
    int n = t.size();
    for (int i = 0; i < n; i++) {
      Measured m = t.rows().get(i);
      seen += sq(t.dx()[i], t.dy()[i]) / n;
      Xyr mean =
          next.mean(
              m.nominal(), m.board().column(), m.board().row(), levels(f, t, i), m.placement());
      Xyr fix =
          decisions
              .field()
              .at(t.x()[i], t.y()[i], t.theta()[i], t.column()[i], t.row()[i], m.named());
      untrimmed += sq(mean.x(), mean.y()) / n;
      trimmed += sq(mean.x() + fix.x(), mean.y() + fix.y()) / n;
    }
    double[] reg = next.registrationVariance();
    double floor = 2 * next.scatterVariance() + reg[0] + reg[1];
    double parameters = f.residualSd() * f.residualSd() * f.effectiveParameters() / n;
    double[] more = next.registrationUncertainty();
    double spread = floor + more[0] + more[1] + (Double.isNaN(parameters) ? 0 : parameters);
    return new Prediction(
        Math.sqrt(seen),
        Math.sqrt(untrimmed + spread),
        Math.sqrt(trimmed + spread),
        Math.sqrt(floor),
        decisions.rounding().costs(fits, job.machine(), new PartReach(job)));
  }

  /** Levels of a used row in the position model. */
  static int[] levels(OffsetFit f, DeviationTable t, int i) {
    int[] l = new int[f.factors().size()];
    for (int k = 0; k < l.length; k++) {
      var factor = t.factors().get(f.factors().get(k));
      l[k] = factor == null ? -1 : factor.level()[i];
    }
    return l;
  }
}
