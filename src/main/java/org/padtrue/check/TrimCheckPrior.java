package org.padtrue.check;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.mixed.PanelFamily;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Placement;
import org.padtrue.panel.TrimKind;

/**
 * How well the first article knew every term, and how much registration adds from panel to panel.
 *
 * <p>The covariance is that of the analysis' own model: the same placements, the same fixed terms,
 * offsets of levels with the variances it found; so a type seen twice is promised less firmly than
 * one seen forty times, and what the placements hardly tell apart is uncertain together.
 */
final class TrimCheckPrior {
  /** Common practice for fiducials is 5 to 20 um, from memory; the upper end where not stated. */
  private static final double UNSTATED_MM = 0.020;

  /** Fixed terms: so wide that the data alone speak (mm, degrees, ppm, mrad, squared below). */
  private static final double WIDE_MM = 1;

  private static final double WIDE_DEG = 2;
  private static final double WIDE_PPM = 2e4;
  private static final double WIDE_MRAD = 20;

  private final TrimCheckBefore before;
  private final TrimCheckModel model;
  private final Job job;
  private final double[] centre = new double[2];
  private final double[] registration = new double[3];
  private final boolean stated;
  private final double residual2;
  private final double rotationResidual2;

  TrimCheckPrior(TrimCheckBefore before, TrimCheckModel model, Job job) {
    this.before = before;
    this.model = model;
    this.job = job;
    double extent = locate();
    Machine m = job.machine();
    double x = first(before.sd(TrimKind.REGISTRATION.key(), "x"), m.repeatabilityXMm());
    double y = first(before.sd(TrimKind.REGISTRATION.key(), "y"), m.repeatabilityYMm());
    double r =
        first(before.sd(TrimKind.REGISTRATION.key(), "rotation"), m.repeatabilityRotationDeg());
    stated = !Double.isNaN(x) && !Double.isNaN(y);
    registration[0] = first(x, UNSTATED_MM);
    registration[1] = first(y, UNSTATED_MM);
    // Two marks at the ends of the panel, each off by the shift's standard deviation.
    double lever = Math.max(extent, 1);
    double plane = 0.5 * (registration[0] + registration[1]);
    registration[2] = first(r, Math.toDegrees(Math.sqrt(2) * plane / lever));
    residual2 = squared(first(before.scatter().residualSd(), scatter()), 1e-3);
    rotationResidual2 =
        squared(first(before.scatter().residualSdRotation(), before.scatter().sdRotation()), 1e-2);
  }

  private static double first(double a, double b) {
    return Double.isNaN(a) ? b : a;
  }

  private static double squared(double sd, double least) {
    double s = Double.isNaN(sd) ? least : Math.max(sd, 1e-3 * least);
    return s * s;
  }

  private double scatter() {
    Scatter s = before.scatter();
    double m = TrimCheckItem.known(s.measuringSd());
    return Math.sqrt(0.5 * (s.sdX() * s.sdX() + s.sdY() * s.sdY()) + m * m);
  }

  /** Centre of what was used; returns the diagonal of the box around it. */
  private double locate() {
    double[] box = {
      Double.POSITIVE_INFINITY,
      Double.POSITIVE_INFINITY,
      Double.NEGATIVE_INFINITY,
      Double.NEGATIVE_INFINITY
    };
    int n = 0;
    for (PlacementResult p : before.placements()) {
      if (p.used()) {
        double x = p.nominal().xMm();
        double y = p.nominal().yMm();
        n++;
        centre[0] += (x - centre[0]) / n;
        centre[1] += (y - centre[1]) / n;
        box[0] = Math.min(box[0], x);
        box[1] = Math.min(box[1], y);
        box[2] = Math.max(box[2], x);
        box[3] = Math.max(box[3], y);
      }
    }
    return n == 0 ? 0 : Math.hypot(box[2] - box[0], box[3] - box[1]);
  }

  /** Variance of one residual of a part type, measuring included, mm^2. */
  double residual2(String part) {
    double sd = before.scatter().residualSd(part);
    return sd > 0 ? sd * sd : residual2;
  }

  /** The same for rotations, deg^2. */
  double rotationResidual2(String part) {
    double sd = before.scatter().residualSdRotation(part);
    return sd > 0 ? sd * sd : rotationResidual2;
  }

  /** Standard deviation of registration from panel to panel: x, y (mm), rotation (deg). */
  double[] registration() {
    return registration.clone();
  }

  /** False when nobody said how well the machine registers and a usual value stands in. */
  boolean stated() {
    return stated;
  }

  /**
   * Covariance of what the second article's terms may differ from the promise, without scatter: the
   * model's columns, then shift and turn of each panel.
   *
   * @param panels panels of the second article
   * @param registered false when it was registered on its own parts: shift and turn are anything
   */
  double[][] covariance(int panels, boolean registered) {
    int p = model.size();
    double[][] first = firstArticle();
    double[][] all = new double[p + 3 * panels][p + 3 * panels];
    int before1 = Math.max(1, before.panels().size());
    for (int i = 0; i < p; i++) {
      System.arraycopy(first[i], 0, all[i], 0, p);
    }
    double[] r = registration;
    double[] perPanel = registered ? r : new double[] {WIDE_MM, WIDE_MM, WIDE_DEG};
    addTurned(all, 0, r, 1.0 / before1);
    for (int k = 0; k < panels; k++) {
      addTurned(all, p + 3 * k, perPanel, 1);
    }
    return all;
  }

  /** Adds shift and turn about the centre, as shift and turn about the panel origin. */
  private void addTurned(double[][] c, int at, double[] sd, double share) {
    double rad = Math.PI / 180;
    double[][] j = {{1, 0, rad * centre[1]}, {0, 1, -rad * centre[0]}, {0, 0, 1}};
    for (int a = 0; a < 3; a++) {
      for (int b = 0; b < 3; b++) {
        for (int k = 0; k < 3; k++) {
          c[at + a][at + b] += share * sd[k] * sd[k] * j[a][k] * j[b][k];
        }
      }
    }
  }

  /** Covariance of the first article's terms; shift and turn are means over its panels. */
  private double[][] firstArticle() {
    int p = model.size();
    int panels = Math.max(1, before.panels().size());
    int q = p + 3 * panels;
    TrimCheckSums sums = new TrimCheckSums(q);
    gather(sums, p);
    double[][] post = TrimCheckGaussian.posterior(start(q, panels, sums), sums);
    double[][] c = new double[p][p];
    double[][] map = new double[p][];
    for (int i = 0; i < p; i++) {
      map[i] = new double[q];
      map[i][i] = i < 3 ? 0 : 1;
      for (int k = 0; i < 3 && k < panels; k++) {
        map[i][p + 3 * k + i] = 1.0 / panels;
      }
    }
    double[][] half = new double[p][q];
    for (int i = 0; i < p; i++) {
      for (int a = 0; a < q; a++) {
        double m = map[i][a];
        for (int b = 0; m != 0 && b < q; b++) {
          half[i][b] += m * post[a][b];
        }
      }
    }
    for (int i = 0; i < p; i++) {
      for (int k = 0; k < p; k++) {
        if (k >= 3) {
          c[i][k] = half[i][k];
        } else {
          for (int l = 0; l < panels; l++) {
            c[i][k] += half[i][p + 3 * l + k] / panels;
          }
        }
      }
    }
    return c;
  }

  private void gather(TrimCheckSums sums, int p) {
    TrimCheckModel.Row row = new TrimCheckModel.Row();
    Map<String, Integer> panel = new HashMap<>();
    Map<String, Placement> byRef = new HashMap<>();
    job.placements().forEach(x -> byRef.put(x.ref(), x));
    before.panels().forEach(name -> panel.put(name, panel.size()));
    for (PlacementResult r : before.placements()) {
      if (!r.used()) {
        continue;
      }
      Placement design = byRef.get(r.ref());
      TrimCheckModel.Place at =
          new TrimCheckModel.Place(
              r.nominal(), r.board(), levels(model, r.part(), design, r.board()));
      int k = panel.getOrDefault(r.panel(), 0);
      for (int axis = 0; axis < 3; axis++) {
        double d = axis == 2 ? r.deviation().rotation() : r.deviation().x();
        if (Double.isNaN(d)) {
          continue;
        }
        model.fill(axis, at, row);
        for (int i = 0; i < row.n; i++) {
          row.index[i] = row.index[i] < 3 ? p + 3 * k + row.index[i] : row.index[i];
        }
        sums.add(
            row.index,
            row.value,
            row.n,
            0,
            1 / (axis == 2 ? rotationResidual2(r.part()) : residual2(r.part())));
      }
    }
  }

  private static int[] levels(
      TrimCheckModel model, String part, @Nullable Placement design, BoardIndex board) {
    return model.levels(part, design == null ? Levels.NONE : design.levels(), board);
  }

  /** What the model knew before it saw anything: fixed terms nothing, levels their spread. */
  private double[][] start(int q, int panels, TrimCheckSums sums) {
    double[][] c = new double[q][q];
    int p = model.size();
    boolean turn = !before.family().equals(PanelFamily.SHIFT.key());
    for (int k = 0; k < panels; k++) {
      c[p + 3 * k][p + 3 * k] = WIDE_MM * WIDE_MM;
      c[p + 3 * k + 1][p + 3 * k + 1] = WIDE_MM * WIDE_MM;
      c[p + 3 * k + 2][p + 3 * k + 2] = turn ? WIDE_DEG * WIDE_DEG : 0;
    }
    int s = TrimCheckModel.SCALE;
    boolean affine = before.family().equals(PanelFamily.AFFINE.key());
    if (affine || before.family().equals(PanelFamily.SIMILARITY.key())) {
      double v = WIDE_PPM * WIDE_PPM;
      c[s][s] = v;
      c[s + 1][s + 1] = v;
      c[s][s + 1] = affine ? 0 : v;
      c[s + 1][s] = c[s][s + 1];
      c[s + 2][s + 2] = affine ? WIDE_MRAD * WIDE_MRAD : 0;
    }
    if (before.array() != null) {
      for (int k = 0; k < 4; k++) {
        c[TrimCheckModel.ARRAY + k][TrimCheckModel.ARRAY + k] = WIDE_MM * WIDE_MM;
      }
    }
    if (before.common() != null) {
      c[TrimCheckModel.COMMON][TrimCheckModel.COMMON] = WIDE_MM * WIDE_MM;
      c[TrimCheckModel.COMMON + 1][TrimCheckModel.COMMON + 1] = WIDE_MM * WIDE_MM;
    }
    c[TrimCheckModel.ZERO][TrimCheckModel.ZERO] = WIDE_DEG * WIDE_DEG;
    levels(c, before.groups(), sums);
    return c;
  }

  /** A level that the stored placements do not show has its stored standard errors. */
  private void levels(double[][] c, List<GroupResult> groups, TrimCheckSums sums) {
    for (int i = 0; i < groups.size(); i++) {
      GroupResult g = groups.get(i);
      int at = TrimCheckModel.LEVELS + 3 * i;
      boolean shown = sums.xx(at, at) > 0 || sums.xx(at + 1, at + 1) > 0;
      double[] se = {g.standardErrors().x(), g.standardErrors().y(), g.standardErrors().rotation()};
      String[] axes = {"x", "y", "rotation"};
      for (int k = 0; k < 3; k++) {
        double sd = shown ? before.sd(GroupResult.source(g, groups), axes[k]) : se[k];
        c[at + k][at + k] = Double.isNaN(sd) ? 0 : sd * sd;
      }
    }
  }
}
