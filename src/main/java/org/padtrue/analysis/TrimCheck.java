package org.padtrue.analysis;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.fit.Finding;
import org.padtrue.fit.Screening;
import org.padtrue.mixed.Tails;
import org.padtrue.panel.Article;
import org.padtrue.panel.DeviationTable;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Reference;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;
import org.padtrue.trim.TrimCheckGaussian;
import org.padtrue.trim.TrimCheckSums;

/**
 * Did the trims do what they promised? A second article of the batch, placed with the trims in
 * force, is held against the prediction of the first: estimate plus trim, term by term.
 *
 * <p>Model: second article = promise + X u + registration + scatter, u the error of the first
 * article's estimates with its full covariance, registration the panel's own shift and turn. For
 * each trimmed term the second article's own estimate is the generalised least-squares one with
 * that term free and the others as far off as they may be, so it is not shrunk: a trim that was not
 * entered shows its full size. Which usual mistake explains it best is settled for all terms
 * together ({@link TrimCheckSearch}).
 */
public final class TrimCheck {
  /** A screened placement is kept when some mistake explains it within this many deviations. */
  private static final double EXPLAINED = 5;

  /** Log likelihood by which a mistake must be worse before a trim is said to have held. */
  private static final double TELLS = 1;

  private static final double CRY_WOLF = 0.001;

  private final Job job;
  private final TrimCheckBefore before;
  private final ArticleSet set;
  private final DeviationTable table;
  private final TrimCheckModel model;
  private final List<TrimCheckItem> items;
  private final TrimCheckPrior prior;
  private final int[] row;
  private final TrimCheckModel.Place[] places;
  private final double[][] innovation;
  private final TrimCheckFrames frames;
  private final int columns;
  private final List<String> excluded = new ArrayList<>();
  private final List<String> notes = new ArrayList<>();
  private boolean[] keep = new boolean[0];
  private double scale2 = 1;
  private double rotationScale2 = 1;

  private TrimCheck(Job job, TrimCheckBefore before, ArticleSet set) {
    this.job = job;
    this.before = before;
    this.set = set;
    table = set.table();
    model = new TrimCheckModel(before.groups());
    items = TrimCheckItem.of(before, model, job.array());
    prior = new TrimCheckPrior(before, model, job);
    row = known();
    places = new TrimCheckModel.Place[row.length];
    innovation = new double[row.length][];
    TrimCheckPromise promise = new TrimCheckPromise(before, job.array());
    for (int i = 0; i < row.length; i++) {
      Measured m = table.rows().get(row[i]);
      places[i] = place(m);
      innovation[i] = innovation(m, places[i], promise.at(m), set.symmetry()[row[i]]);
    }
    int plain = model.size() + 3 * table.panels().size();
    frames = new TrimCheckFrames(items, Arrays.asList(places), plain);
    columns = plain + frames.count();
  }

  /**
   * Checks.
   *
   * @param job the job, with the placements that were analysed
   * @param before the analysis whose trims are in force
   * @param second one article or several, placed with the trims
   * @throws InputException when the second article shows nothing that the analysis knows
   */
  public static TrimCheckResult run(Job job, TrimCheckBefore before, List<Article> second) {
    ArticleSet set = ArticleSet.of(job, second);
    TrimCheck check = new TrimCheck(job, before, set);
    if (check.row.length == 0) {
      throw new InputException(
          Problem.of(
              second.stream().map(Article::file).findFirst().orElse(""),
              "no placement was measured whose part type the analysis knows",
              "measure placements of the types that were trimmed"));
    }
    return check.result();
  }

  /** Rows whose part type the analysis knows; of others there is no promise. */
  private int[] known() {
    List<String> strangers = new ArrayList<>();
    int[] r = new int[table.size()];
    int n = 0;
    boolean parts = before.groups().stream().anyMatch(g -> g.factor().equals("part"));
    for (int i = 0; i < r.length; i++) {
      Measured m = table.rows().get(i);
      if (parts && model.base("part", m.placement().part()) < 0) {
        strangers.add(m.placement().ref());
      } else {
        r[n++] = i;
      }
    }
    if (!strangers.isEmpty()) {
      notes.add(
          strangers.size()
              + " measured placements are of part types that the analysis did not see ("
              + String.join(", ", strangers.subList(0, Math.min(5, strangers.size())))
              + "); they are passed over");
    }
    return Arrays.copyOf(r, n);
  }

  private TrimCheckModel.Place place(Measured m) {
    return new TrimCheckModel.Place(
        m.nominal(),
        m.board(),
        new int[] {
          model.base("part", m.placement().part()),
          model.base("nozzle", m.nozzle()),
          model.base("feeder", m.feeder()),
          model.base("head", m.head()),
          model.base("board", m.board().toString())
        });
  }

  /** Measured minus promised; rotations near what a mistake would make of a zero orientation. */
  private double[] innovation(Measured m, TrimCheckModel.Place p, Xyr promised, int symmetry) {
    double turn = 0;
    for (TrimCheckItem t : items) {
      boolean large = t.level() >= 0 && Math.abs(t.trim()[2]) > 45;
      turn += large && t.has(p) ? -0.5 * t.trim()[2] : 0;
    }
    double dr = m.dRotationDeg() - promised.rotation();
    return new double[] {
      m.dxMm() - promised.x(), m.dyMm() - promised.y(), Angles.wrap(dr - turn, symmetry) + turn
    };
  }

  private TrimCheckResult result() {
    screen();
    TrimCheckSums sums = gather();
    double[][] covariance = prior.covariance(table.panels().size(), !set.partsRegistered());
    TrimCheckGaussian gaussian = new TrimCheckGaussian(sums, covariance);
    TrimCheckSearch search = new TrimCheckSearch(gaussian, items, frames, columns);
    double ratio = pool(search, covariance);
    gaussian = new TrimCheckGaussian(gather(), covariance);
    search = new TrimCheckSearch(gaussian, items, frames, columns);
    List<TrimCheckTerm> terms = new ArrayList<>();
    for (int i = 0; i < items.size(); i++) {
      if (items.get(i).trimmed()) {
        terms.add(term(i, search));
      } else {
        untrimmed(i, search);
      }
    }
    TrimCheckGaussian.Joint joint = gaussian.joint(trimmedColumns(gaussian), search.trimmedOnly());
    double p =
        joint.degreesOfFreedom() == 0
            ? Double.NaN
            : Tails.chiSquare(joint.statistic(), joint.degreesOfFreedom());
    note(terms);
    return new TrimCheckResult(
        verdict(terms, p),
        joint.statistic(),
        joint.degreesOfFreedom(),
        p,
        terms,
        used(),
        ratio,
        excluded,
        notes);
  }

  private int used() {
    int n = 0;
    for (boolean k : keep) {
      n += k ? 1 : 0;
    }
    return n;
  }

  private void note(List<TrimCheckTerm> terms) {
    notes.addAll(set.notes());
    if (terms.isEmpty()) {
      notes.add("the analysis trims nothing, so there is nothing to check");
    }
    double[] r = prior.registration();
    if (!prior.stated() && !set.partsRegistered()) {
      notes.add(
          "registration repeatability is not stated; "
              + Words.um(r[0])
              + " is taken (common practice on fiducials is 5 to 20 um): state"
              + " machine.panelRepeatability");
    }
    if (set.partsRegistered()) {
      notes.add(
          "the second article was registered on its own parts, so its shift and rotation say"
              + " nothing");
    }
  }

  /** Takes out what the screening finds, unless a mistake in a trim explains it. */
  private void screen() {
    keep = new boolean[row.length];
    @Nullable Finding[] findings = Screening.screen(table, set.symmetry(), set.poses()).findings();
    for (int i = 0; i < row.length; i++) {
      Finding f = findings[row[i]];
      keep[i] = f == null || explained(i);
      if (f != null && !keep[i]) {
        excluded.add(table.rows().get(row[i]).id() + ": " + f.sentence());
      }
    }
    if (used() == 0) {
      Arrays.fill(keep, true);
      excluded.clear();
    }
  }

  private boolean explained(int i) {
    for (TrimCheckFinding all : TrimCheckFinding.values()) {
      double[] field = new double[3];
      for (int t = 0; t < items.size(); t++) {
        for (TrimCheckHypothesis h : TrimCheckHypothesis.of(items.get(t), frames.of(t))) {
          if (!items.get(t).has(places[i])) {
            continue;
          }
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
      fill(axis, i, r);
      for (int k = 0; k < r.n; k++) {
        for (int l = 0; l < h.index().length; l++) {
          f[axis] += r.index[k] == h.index()[l] ? r.value[k] * h.value()[l] : 0;
        }
      }
    }
    return f;
  }

  private boolean near(int i, double[] field) {
    double[] reg = prior.registration();
    double d2 = 0;
    for (int k = 0; k < 3; k++) {
      double d = innovation[i][k] - field[k];
      double v = (k == 2 ? prior.rotationResidual2() : prior.residual2()) + 2 * reg[k] * reg[k];
      d2 = Math.max(d2, Double.isNaN(d) ? 0 : d * d / v);
    }
    return d2 < EXPLAINED * EXPLAINED;
  }

  private void fill(int axis, int i, TrimCheckModel.Row r) {
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

  private TrimCheckSums gather() {
    TrimCheckSums sums = new TrimCheckSums(columns);
    TrimCheckModel.Row r = new TrimCheckModel.Row();
    for (int i = 0; i < row.length; i++) {
      for (int axis = 0; keep[i] && axis < 3; axis++) {
        if (!Double.isNaN(innovation[i][axis])) {
          fill(axis, i, r);
          sums.add(r.index, r.value, r.n, innovation[i][axis], 1 / variance(i, axis));
        }
      }
    }
    return sums;
  }

  /** Scatter and reading of one row; a reading with its own uncertainty has that instead. */
  private double variance(int i, int axis) {
    if (axis == 2) {
      return rotationScale2 * prior.rotationResidual2();
    }
    double v = prior.residual2();
    double m = before.scatter().measuringSd();
    double u = table.u()[row[i]];
    if (!Double.isNaN(m) && !Double.isNaN(u)) {
      v = Math.max(0.05 * v, v - m * m + u * u);
    }
    return scale2 * v;
  }

  /**
   * Pools the scatter of both articles by their degrees of freedom.
   *
   * @return scatter of the second article over that of the first
   */
  private double pool(TrimCheckSearch search, double[][] covariance) {
    double[] total = search.total();
    TrimCheckModel.Row r = new TrimCheckModel.Row();
    double[][] left = new double[row.length][3];
    TrimCheckSums sums = new TrimCheckSums(covariance.length);
    for (int i = 0; i < row.length; i++) {
      for (int axis = 0; keep[i] && axis < 3; axis++) {
        left[i][axis] = innovation[i][axis];
        fill(axis, i, r);
        int n = 0;
        for (int k = 0; k < r.n; k++) {
          left[i][axis] -= r.value[k] * total[r.index[k]];
          if (r.index[k] < covariance.length) {
            r.index[n] = r.index[k];
            r.value[n++] = r.value[k];
          }
        }
        if (!Double.isNaN(left[i][axis])) {
          sums.add(r.index, r.value, n, left[i][axis], 1 / variance(i, axis));
        }
      }
    }
    double[] mean = new TrimCheckGaussian(sums, covariance).mean();
    double[] q = new double[2];
    int[] n = new int[2];
    for (int i = 0; i < row.length; i++) {
      for (int axis = 0; keep[i] && axis < 3; axis++) {
        if (Double.isNaN(left[i][axis])) {
          continue;
        }
        fill(axis, i, r);
        double e = left[i][axis];
        for (int k = 0; k < r.n; k++) {
          e -= r.index[k] < mean.length ? r.value[k] * mean[r.index[k]] : 0;
        }
        q[axis / 2] += left[i][axis] * e / variance(i, axis);
        n[axis / 2]++;
      }
    }
    double df = before.scatter().degreesOfFreedom();
    double known = Double.isNaN(df) ? n[0] : df;
    scale2 = pooled(known, q[0], n[0]);
    rotationScale2 = pooled(0.5 * known, q[1], n[1]);
    double ratio2 = n[0] == 0 ? Double.NaN : q[0] / n[0];
    if (n[0] > 4 && Tails.f(ratio2, n[0], Math.max(1, known)) < CRY_WOLF) {
      notes.add(
          String.format(
              Locale.ROOT,
              "the second article scatters %.1f times as much as the first",
              Math.sqrt(ratio2)));
    }
    return Math.sqrt(ratio2);
  }

  private static double pooled(double df, double q, int n) {
    return n == 0 ? 1 : (df + q) / (df + n);
  }

  private int[] trimmedColumns(TrimCheckGaussian gaussian) {
    return items.stream()
        .filter(TrimCheckItem::trimmed)
        .flatMapToInt(t -> Arrays.stream(t.columns()))
        .filter(c -> c >= 0 && gaussian.k(c, c) > 1e-12)
        .toArray();
  }

  private int count(TrimCheckItem item) {
    int n = 0;
    for (int i = 0; i < row.length; i++) {
      n += keep[i] && item.has(places[i]) ? 1 : 0;
    }
    return n;
  }

  private TrimCheckTerm term(int i, TrimCheckSearch search) {
    TrimCheckItem item = items.get(i);
    double[] seen = new double[3];
    double[] z = new double[3];
    Arrays.fill(seen, Double.NaN);
    Arrays.fill(z, Double.NaN);
    show(item, search.change(i), seen, z);
    if (i + 1 < items.size() && items.get(i + 1).follows(item)) {
      show(items.get(i + 1), search.change(i + 1), seen, z);
    }
    TrimCheckSentence.Judged judged = judge(i, search);
    return new TrimCheckTerm(
        item.name(),
        count(item),
        xyr(item.promised()),
        xyr(seen),
        xyr(z),
        judged.finding(),
        judged.sentence());
  }

  private static void show(
      TrimCheckItem item, TrimCheckSearch.Change change, double[] seen, double[] z) {
    for (int k = 0; k < 3; k++) {
      for (int l = 0; l < change.shown().length; l++) {
        if (change.shown()[l] == item.columns()[k]) {
          seen[k] = item.promised()[k] + change.change()[l];
          z[k] = Double.isNaN(seen[k]) ? Double.NaN : change.change()[l] / change.error()[l];
        }
      }
    }
  }

  private static Xyr xyr(double[] v) {
    return new Xyr(v[0], v[1], v[2]);
  }

  private TrimCheckSentence.Judged judge(int i, TrimCheckSearch search) {
    TrimCheckItem item = items.get(i);
    TrimCheckSentence say =
        new TrimCheckSentence(item, count(item), frames.onlyRotation(i), search.change(i));
    boolean gone =
        set.partsRegistered() && (item.name().equals("shift") || item.name().equals("rotation"));
    boolean hidden =
        job.measurement().reference() == Reference.MACHINE
            && (item.name().equals("scale") || item.name().startsWith("array"));
    if (count(item) == 0 || gone || hidden) {
      return say.notShown(gone || hidden);
    }
    TrimCheckHypothesis h = search.state(i);
    if (h.finding() == TrimCheckFinding.HELD) {
      return search.margin(i) < TELLS ? say.tooSmall() : say.held();
    }
    if (h.finding() == TrimCheckFinding.OTHER) {
      return frameWould(i, search, h) ? say.perhapsFrame() : say.other();
    }
    return say.mistake(h);
  }

  /**
   * True when all sit at one rotation and the change is the one that a wrong frame makes there:
   * then frame and direction cannot be told apart.
   */
  private boolean frameWould(int i, TrimCheckSearch search, TrimCheckHypothesis other) {
    double theta = frames.onlyRotation(i);
    if (Double.isNaN(theta)) {
      return false;
    }
    TrimCheckItem item = items.get(i);
    double c = Angles.cosDeg(theta);
    double s = Angles.sinDeg(theta);
    for (int way = 0; way < 2; way++) {
      double[] d = TrimCheckFrames.wrong(item, way, c, s);
      boolean part = item.frame() == TrimCheckItem.Frame.PART;
      double[] own = part ? new double[] {c * d[0] + s * d[1], -s * d[0] + c * d[1]} : d;
      TrimCheckHypothesis h =
          new TrimCheckHypothesis(
              TrimCheckFinding.WRONG_FRAME,
              "",
              new int[] {item.columns()[0], item.columns()[1]},
              own,
              TrimCheckHypothesis.MISTAKE);
      if (search.energy(i, h) < search.energy(i, other)) {
        return true;
      }
    }
    return false;
  }

  private void untrimmed(int i, TrimCheckSearch search) {
    if (search.state(i).finding() == TrimCheckFinding.OTHER && count(items.get(i)) > 0) {
      notes.add(
          TrimCheckSentence.changed(items.get(i), search.change(i))
              + ", though it was not trimmed");
    }
  }

  private TrimCheckVerdict verdict(List<TrimCheckTerm> terms, double p) {
    boolean failed = terms.stream().anyMatch(t -> t.finding().failed());
    boolean held = terms.stream().anyMatch(t -> t.finding() == TrimCheckFinding.HELD);
    if (failed) {
      return held ? TrimCheckVerdict.PARTLY : TrimCheckVerdict.NOT_HELD;
    }
    if (p < CRY_WOLF) {
      notes.add("no single term stands out, but all together are farther off than chance explains");
      return TrimCheckVerdict.PARTLY;
    }
    return TrimCheckVerdict.HELD;
  }
}
