package org.padtrue.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.padtrue.firstarticle.fitted.ArticleSet;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Level;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.quantity.Angles;

/**
 * The second article as rows of the model: measured minus promised (x and y in mm, rotation in
 * degrees) against the model's columns, then shift and turn of each panel, then the wrong frames.
 */
final class TrimCheckRows {
  private static final int STRANGERS_NAMED = 5;

  private final TrimCheckBefore before;
  private final DeviationTable table;
  private final TrimCheckModel model;
  private final List<TrimCheckItem> items;
  private final TrimCheckPrior prior;
  private final TrimCheckTurns turns;
  private final int[] row;
  private final TrimCheckModel.Place[] places;
  private final double[][] innovation;
  private final TrimCheckFrames frames;
  private final int columns;
  private final boolean[] keep;
  private final List<String> strangers = new ArrayList<>();
  private double scale2 = 1;
  private double rotationScale2 = 1;

  TrimCheckRows(Job job, TrimCheckBefore before, ArticleSet set) {
    this.before = before;
    table = set.table();
    model = new TrimCheckModel(before.groups());
    items = TrimCheckItem.of(before, model, job.array());
    prior = new TrimCheckPrior(before, model, job);
    turns = new TrimCheckTurns(before.groups(), set);
    row = known();
    keep = new boolean[row.length];
    Arrays.fill(keep, true);
    places = new TrimCheckModel.Place[row.length];
    innovation = new double[row.length][];
    TrimCheckPromise promise = new TrimCheckPromise(before, job.array());
    for (int i = 0; i < row.length; i++) {
      Measured m = measured(i);
      places[i] = place(m);
      innovation[i] = innovation(m, promise.at(m), set.symmetry()[row[i]]);
    }
    int plain = model.size() + 3 * table.panels().size();
    frames = new TrimCheckFrames(items, Arrays.asList(places), plain);
    columns = plain + frames.count();
  }

  /** Rows whose part type the analysis knows; of others there is no promise. */
  private int[] known() {
    int[] r = new int[table.size()];
    int n = 0;
    boolean parts = before.groups().stream().anyMatch(g -> g.factor() == Factor.PART);
    for (int i = 0; i < r.length; i++) {
      Measured m = table.rows().get(i);
      if (parts && model.base(new Level(Factor.PART, m.placement().part())) < 0) {
        strangers.add(m.placement().ref());
      } else {
        r[n++] = i;
      }
    }
    return Arrays.copyOf(r, n);
  }

  private TrimCheckModel.Place place(Measured m) {
    return new TrimCheckModel.Place(
        m.nominal(), m.board(), model.levels(m.placement().part(), m.levels(), m.board()));
  }

  /** Measured minus promised; rotations from the turn that the type shows. */
  private double[] innovation(Measured m, Xyr promised, int symmetry) {
    double dr = m.dRotationDeg() - promised.rotation() - turns.beside(m.placement().part());
    return new double[] {
      m.dxMm() - promised.x(), m.dyMm() - promised.y(), Angles.wrap(dr, symmetry)
    };
  }

  /** Whole turns, apart from what the rows say. */
  TrimCheckTurns turns() {
    return turns;
  }

  /** Number of rows, those left out included. */
  int size() {
    return row.length;
  }

  int columns() {
    return columns;
  }

  int panels() {
    return table.panels().size();
  }

  List<TrimCheckItem> items() {
    return items;
  }

  TrimCheckPrior prior() {
    return prior;
  }

  TrimCheckFrames frames() {
    return frames;
  }

  /** Index of a row in the article's table. */
  int index(int i) {
    return row[i];
  }

  Measured measured(int i) {
    return table.rows().get(row[i]);
  }

  TrimCheckModel.Place place(int i) {
    return places[i];
  }

  /** Measured minus promised on an axis; NaN where it was not measured. */
  double innovation(int i, int axis) {
    return innovation[i][axis];
  }

  void leaveOut(int i) {
    keep[i] = false;
  }

  void takeAll() {
    Arrays.fill(keep, true);
  }

  /** True when the row takes part and was measured on this axis. */
  boolean counts(int i, int axis) {
    return keep[i] && !Double.isNaN(innovation[i][axis]);
  }

  /** Placements that take part. */
  int used() {
    int n = 0;
    for (boolean k : keep) {
      n += k ? 1 : 0;
    }
    return n;
  }

  /** Placements that show a term. */
  int count(TrimCheckItem item) {
    int n = 0;
    for (int i = 0; i < row.length; i++) {
      n += keep[i] && item.has(places[i]) ? 1 : 0;
    }
    return n;
  }

  /** Entries of a row on an axis. */
  void fill(int axis, int i, TrimCheckModel.Row r) {
    model.fill(axis, places[i], r);
    int panel = model.size() + 3 * table.panel()[row[i]];
    int n = r.n;
    for (int k = 0; k < n; k++) {
      if (r.index[k] < 3) {
        r.add(panel + r.index[k], r.value[k]);
      }
    }
    frames.fill(axis, places[i], r);
  }

  TrimCheckSums gather() {
    TrimCheckSums sums = new TrimCheckSums(columns);
    TrimCheckModel.Row r = new TrimCheckModel.Row();
    for (int i = 0; i < row.length; i++) {
      for (int axis = 0; axis < 3; axis++) {
        if (counts(i, axis)) {
          fill(axis, i, r);
          sums.add(r.index, r.value, r.n, innovation[i][axis], 1 / variance(i, axis));
        }
      }
    }
    return sums;
  }

  /** Scatter and reading of one row; a reading with its own uncertainty has that instead. */
  double variance(int i, int axis) {
    String part = measured(i).placement().part();
    if (axis == 2) {
      return rotationScale2 * prior.rotationResidual2(part);
    }
    double v = prior.residual2(part);
    double m = before.scatter().measuringSd();
    double u = table.u()[row[i]];
    if (!Double.isNaN(m) && !Double.isNaN(u)) {
      v = Math.max(0.05 * v, v - m * m + u * u);
    }
    return scale2 * v;
  }

  /** What every variance of positions and of rotations is multiplied by from now on. */
  void rescale(double positions, double rotations) {
    scale2 = positions;
    rotationScale2 = rotations;
  }

  /** A sentence about placements of which the analysis knows nothing; empty when there are none. */
  String strangers() {
    return strangers.isEmpty()
        ? ""
        : strangers.size()
            + " measured placements are of part types that the analysis did not see ("
            + String.join(", ", strangers.subList(0, Math.min(STRANGERS_NAMED, strangers.size())))
            + "); they are passed over";
  }
}
