package org.padtrue.check;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.fitted.ArticleSet;
import org.padtrue.fit.Finding;
import org.padtrue.fit.Screening;

/** Takes gross errors out of the second article, but not what a mistake in a trim explains. */
final class TrimCheckScreen {
  /** A screened placement is kept when some mistake explains it within this many deviations. */
  private static final double EXPLAINED = 5;

  private final TrimCheckRows rows;

  private TrimCheckScreen(TrimCheckRows rows) {
    this.rows = rows;
  }

  /**
   * Screens.
   *
   * @return what was left out, one sentence each
   */
  static List<String> screen(TrimCheckRows rows, ArticleSet set) {
    TrimCheckScreen s = new TrimCheckScreen(rows);
    @Nullable Finding[] findings =
        Screening.screen(set.table(), set.symmetry(), set.poses()).findings();
    List<String> excluded = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      Finding f = findings[rows.index(i)];
      if (f != null && !s.explained(i)) {
        rows.leaveOut(i);
        excluded.add(rows.measured(i).id() + ": " + f.sentence());
      }
    }
    if (rows.used() == 0) {
      rows.takeAll();
      excluded.clear();
    }
    return excluded;
  }

  /** One mistake with one trim, or the same mistake with all trims of the placement. */
  private boolean explained(int i) {
    for (TrimCheckFinding all : TrimCheckFinding.values()) {
      double[] field = new double[3];
      for (int t = 0; t < rows.items().size(); t++) {
        if (!rows.items().get(t).has(rows.place(i))) {
          continue;
        }
        for (TrimCheckHypothesis h :
            TrimCheckHypothesis.of(rows.items().get(t), rows.frames().of(t))) {
          double[] alone = field(i, h);
          if (near(i, alone)) {
            return true;
          }
          if (h.finding() == all && h.whole()) {
            for (int k = 0; k < 3; k++) {
              field[k] += alone[k];
            }
            break;
          }
        }
      }
      if (near(i, field)) {
        return true;
      }
    }
    return false;
  }

  private double[] field(int i, TrimCheckHypothesis h) {
    TrimCheckModel.Row r = new TrimCheckModel.Row();
    double[] f = new double[3];
    for (int axis = 0; axis < 3; axis++) {
      rows.fill(axis, i, r);
      for (int k = 0; k < r.n; k++) {
        for (int l = 0; l < h.index().length; l++) {
          f[axis] += r.index[k] == h.index()[l] ? r.value[k] * h.value()[l] : 0;
        }
      }
    }
    return f;
  }

  private boolean near(int i, double[] field) {
    TrimCheckPrior prior = rows.prior();
    double[] reg = prior.registration();
    double d2 = 0;
    for (int k = 0; k < 3; k++) {
      double d = rows.innovation(i, k) - field[k];
      String part = rows.measured(i).placement().part();
      double v =
          (k == 2 ? prior.rotationResidual2(part) : prior.residual2(part)) + 2 * reg[k] * reg[k];
      d2 = Math.max(d2, Double.isNaN(d) ? 0 : d * d / v);
    }
    return d2 < EXPLAINED * EXPLAINED;
  }
}
