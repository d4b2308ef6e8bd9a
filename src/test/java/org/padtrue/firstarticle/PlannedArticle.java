package org.padtrue.firstarticle;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import org.padtrue.firstarticle.decide.EnteredTrims;
import org.padtrue.firstarticle.fitted.AnalysisOptions;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Measurement;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.panel.Stage;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.article.Article;
import org.padtrue.plan.MeasuringPlan;
import org.padtrue.quantity.Angles;

/**
 * A panel with known truth whose placements are all measured, and what trims decided from some of
 * them leave of that truth. A seed is a panel. Lengths in mm, angles in degrees.
 */
public final class PlannedArticle {
  /**
   * A kind of board.
   *
   * @param columns board columns
   * @param rows board rows
   * @param perType placements of each type on one board
   * @param nozzles nozzles; types share them, every second type is placed by two of them
   * @param scatterMm by type, repeated when there are more types
   */
  public record Layout(
      String name, int columns, int rows, int[] perType, int nozzles, double... scatterMm) {

    int panel() {
      int n = 0;
      for (int k : perType) {
        n += k;
      }
      return n * columns * rows;
    }

    double scatter(int type) {
      return scatterMm[type % scatterMm.length];
    }
  }

  /**
   * How large what is planted is.
   *
   * @param types share of the part types that are off
   * @param typeSd spread of those, mm
   * @param nozzleSd spread of nozzles, mm
   * @param shiftSd spread of the batch's registration, mm
   * @param rotationSd of its rotation, degrees
   * @param scaleSd of scales and squareness, as a ratio
   * @param arraySd of array steps, mm
   * @param repeatability of registration from panel to panel, mm
   */
  public record Planted(
      double types,
      double typeSd,
      double nozzleSd,
      double shiftSd,
      double rotationSd,
      double scaleSd,
      double arraySd,
      double repeatability) {}

  /** False: offsets too small to be worth typing are left, as a person enters the sheet. */
  public boolean everyTrim;

  public final Job job;
  final Article article;
  private final Map<String, double[]> truth = new HashMap<>();
  private final Random random;
  private final Map<String, double[]> offset = new HashMap<>();
  private final double[] panel = new double[10];

  public PlannedArticle(Layout layout, Planted planted, long seed) {
    this(layout, planted, seed, "", 0);
  }

  /**
   * The same with one part type further off along its own x.
   *
   * @param type the type; empty for none
   * @param mm by how much
   */
  public PlannedArticle(Layout layout, Planted planted, long seed, String type, double mm) {
    random = new Random(seed);
    job = job(layout, planted.repeatability());
    for (int t = 0; t < layout.perType().length; t++) {
      boolean off = random.nextDouble() < planted.types();
      double sd = off ? planted.typeSd() : 0;
      offset.put("T" + t, new double[] {gauss(sd), gauss(sd), gauss(off ? 0.2 : 0)});
    }
    offset.getOrDefault(type, new double[1])[0] += mm;
    for (int n = 0; n < layout.nozzles(); n++) {
      offset.put("N" + n, new double[] {gauss(planted.nozzleSd()), gauss(planted.nozzleSd()), 0});
    }
    panel[0] = gauss(planted.shiftSd());
    panel[1] = gauss(planted.shiftSd());
    panel[2] = Math.toRadians(gauss(planted.rotationSd()));
    for (int k = 3; k < 6; k++) {
      panel[k] = gauss(planted.scaleSd());
    }
    for (int k = 6; k < 10; k++) {
      panel[k] = gauss(planted.arraySd());
    }
    article = measure(layout, planted.repeatability());
  }

  private double gauss(double sd) {
    return sd * random.nextGaussian();
  }

  private Job job(Layout layout, double repeatability) {
    List<Placement> all = new ArrayList<>();
    int n = 0;
    for (int t = 0; t < layout.perType().length; t++) {
      for (int i = 0; i < layout.perType()[t]; i++) {
        int nozzle = (t + (t % 2 == 0 ? 0 : i % 2)) % Math.max(1, layout.nozzles());
        all.add(
            new Placement(
                "R" + ++n,
                "T" + t,
                new Pose(
                    3 + 54 * random.nextDouble(),
                    3 + 34 * random.nextDouble(),
                    Angles.wrap(90.0 * random.nextInt(4))),
                Levels.NONE.with(Factor.NOZZLE, layout.nozzles() == 0 ? null : "N" + nozzle),
                Double.NaN,
                n + 1));
      }
    }
    List<Board> boards = new ArrayList<>();
    for (int r = 1; r <= layout.rows(); r++) {
      for (int c = 1; c <= layout.columns(); c++) {
        boards.add(
            new Board(new BoardIndex(c, r), new Pose(62.0 * (c - 1), 42.0 * (r - 1), 0), true));
      }
    }
    return new Job(
        layout.name(),
        Side.TOP,
        Stage.PASTE,
        all,
        List.of(),
        Map.of(),
        new BoardArray(layout.columns(), layout.rows(), boards, Set.of(), Double.NaN),
        List.of(),
        2,
        new Machine(
            0.001, 0.01, repeatability, repeatability, Double.NaN, Set.of(TrimKind.values())),
        Measurement.withDefaults(),
        List.of());
  }

  private Article measure(Layout layout, double repeatability) {
    double[] registration = {gauss(repeatability), gauss(repeatability)};
    List<Measured> rows = new ArrayList<>();
    for (Board b : job.array().boards()) {
      for (Placement p : job.placements()) {
        Pose nominal = p.pose().seenFrom(b.origin());
        double[] t = systematic(b.index(), p, nominal);
        truth.put(b.index() + "/" + p.ref(), t);
        double sd = layout.scatter(Integer.parseInt(p.part().substring(1)));
        rows.add(
            new Measured(
                "P1",
                b.index(),
                p,
                nominal,
                t[0] + registration[0] + gauss(sd),
                t[1] + registration[1] + gauss(sd),
                t[2] + gauss(0.1),
                Double.NaN,
                Double.NaN,
                p.levels(),
                Double.NaN,
                "",
                rows.size() + 2));
      }
    }
    return article(rows);
  }

  private static Article article(List<Measured> rows) {
    return new Article("a", rows, List.of(), false, false, OptionalDouble.empty(), List.of());
  }

  private double[] systematic(BoardIndex b, Placement p, Pose at) {
    double x = at.xMm();
    double y = at.yMm();
    double[] part = offset.getOrDefault(p.part(), new double[3]);
    double[] nozzle =
        offset.getOrDefault(String.valueOf(p.levels().get(Factor.NOZZLE)), new double[3]);
    double px = part[0] + nozzle[0];
    double py = part[1] + nozzle[1];
    double c = Angles.cosDeg(at.rotationDeg());
    double s = Angles.sinDeg(at.rotationDeg());
    int column = b.column() - 1;
    int row = b.row() - 1;
    return new double[] {
      panel[0]
          - panel[2] * y
          + panel[3] * x
          - panel[5] * y
          + panel[6] * column
          + panel[8] * row
          + c * px
          - s * py,
      panel[1] + panel[2] * x + panel[4] * y + panel[7] * column + panel[9] * row + s * px + c * py,
      Math.toDegrees(panel[2]) + part[2]
    };
  }

  /** Scatter of those part types that do not scatter as the first, mm. */
  public Map<String, Double> scatterByType(Layout layout) {
    Map<String, Double> by = new HashMap<>();
    for (int t = 0; t < layout.perType().length; t++) {
      by.put("T" + t, layout.scatter(t));
    }
    return by;
  }

  /** What is taken out of the next panel's mean square when decided from everything measured. */
  public double fullGain() {
    return gain(article);
  }

  /** The same when only the rows of a plan are measured. */
  public double gain(MeasuringPlan plan) {
    return gain(measured(plan));
  }

  /** The x trim of a part type, own frame, when only the rows of a plan are measured; 0 none. */
  public double trimX(MeasuringPlan plan, String type) {
    return analysed(measured(plan)).groups().stream()
        .filter(g -> g.factor() == Factor.PART && g.level().equals(type))
        .filter(g -> g.trim().decision() == Decision.TRIM)
        .mapToDouble(g -> g.trim().value().x())
        .sum();
  }

  private Article measured(MeasuringPlan plan) {
    Set<String> chosen = new HashSet<>();
    plan.lines().forEach(l -> chosen.add(l.column() + "/" + l.row() + "/" + l.ref()));
    return article(article.measured().stream().filter(m -> chosen.contains(m.id())).toList());
  }

  private FirstArticleResult analysed(Article measured) {
    return FirstArticleAnalysis.run(
        job, List.of(measured), AnalysisOptions.withDefaults().withAll(everyTrim));
  }

  /**
   * Mean square of position over all placements without trims minus that with them, mm^2. Neither
   * scatter nor this panel's own registration counts: the next panel has others.
   */
  private double gain(Article measured) {
    FirstArticleResult r = analysed(measured);
    EnteredTrims trims =
        EnteredTrims.of(r.batchTrim(), r.groups(), job.array(), Set.of(TrimKind.values()));
    double sum = 0;
    for (Measured m : article.measured()) {
      double[] t = truth.getOrDefault(m.id(), new double[3]);
      Xyr v = trims.at(m.nominal(), m.board(), m.placement().part(), m.levels());
      double x = t[0] + v.x();
      double y = t[1] + v.y();
      sum += t[0] * t[0] + t[1] * t[1] - x * x - y * y;
    }
    return sum / article.measured().size();
  }
}
