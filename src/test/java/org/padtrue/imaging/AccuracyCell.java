package org.padtrue.imaging;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.PartPose;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.imaging.reader.FineReader;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * One cell of the accuracy grid: a part type in one kind of picture, measured many times at random
 * places between the pixels, the map from panel to picture being known. Lengths in px.
 */
final class AccuracyCell {
  private final PartType type;
  private final RenderSettings s;
  private final int n;

  /** Errors: x px, y px, rotation degrees, stated u px, stated u degrees, place x, y px. */
  private final List<double[]> errors = new ArrayList<>();

  /** Mean bound: x px, y px, rotation degrees. */
  private final double[] bound = new double[3];

  private AccuracyCell(PartType type, RenderSettings s, int n) {
    this.type = type;
    this.s = s;
    this.n = n;
  }

  /**
   * Measures.
   *
   * @param type what
   * @param s picture; its seed starts the random series
   * @param n how often
   */
  static AccuracyCell of(PartType type, RenderSettings s, int n) {
    AccuracyCell c = new AccuracyCell(type, s, n);
    c.run();
    return c;
  }

  private void run() {
    Outline o = Outline.of(type);
    double half = Math.max(o.halfLengthMm(), o.halfWidthMm());
    Job job = TestPanels.job(List.of(TestPanels.place("U1", type, 0, 0, 0)), List.of(), type);
    RenderSettings near = s.margin(half * 1.05 + 1.3);
    PanelToPicture map = PanelRenderer.truth(job, near);
    Random r = new Random(s.seed() * 1009 + type.name().hashCode());
    int bounds = 3;
    for (int i = 0; i < n; i++) {
      Pose t = new Pose(spread(r), spread(r), 2 * r.nextGaussian());
      Map<String, Pose> poses = Map.of("1/1/U1", t);
      RenderSettings own = near.seed(s.seed() * 100_003 + i);
      if (i < bounds) {
        double[] b = PoseBound.of(job, poses, "1/1/U1", half, own);
        bound[0] += b[0] * s.pxPerMm() / bounds;
        bound[1] += b[1] * s.pxPerMm() / bounds;
        bound[2] += b[2] / bounds;
      }
      try (Picture p = PanelRenderer.render(job, poses, own).picture()) {
        PartPose q =
            new FineReader(p, map, s.pxPerMm())
                .read(type, null, new Pose(0, 0, 0), Math.max(0.5, s.blurPx()));
        if (q.status() == ReadingStatus.FOUND && q.pose() != null) {
          errors.add(
              new double[] {
                (q.pose().xMm() - t.xMm()) * s.pxPerMm(),
                (q.pose().yMm() - t.yMm()) * s.pxPerMm(),
                Angles.wrap(q.pose().rotationDeg() - t.rotationDeg(), o.symmetry()),
                q.uMm() * s.pxPerMm(),
                q.uRotationDeg(),
                t.xMm() * s.pxPerMm(),
                t.yMm() * s.pxPerMm()
              });
        }
      }
    }
  }

  private static double spread(Random r) {
    return 0.3 * (r.nextDouble() - 0.5);
  }

  PartType type() {
    return type;
  }

  RenderSettings settings() {
    return s;
  }

  int count() {
    return errors.size();
  }

  double found() {
    return errors.size() / (double) n;
  }

  double bias(int k) {
    return errors.stream().mapToDouble(e -> e[k]).average().orElse(Double.NaN);
  }

  double sd(int k) {
    double m = bias(k);
    double q = errors.stream().mapToDouble(e -> (e[k] - m) * (e[k] - m)).sum();
    return Math.sqrt(q / Math.max(1, errors.size() - 1));
  }

  /** How much of a displacement from nominal is lost: errors against places, x or y. */
  double pull(int k) {
    double xy = errors.stream().mapToDouble(e -> e[k] * e[5 + k]).sum();
    double xx = errors.stream().mapToDouble(e -> e[5 + k] * e[5 + k]).sum();
    return -xy / xx;
  }

  double bound(int k) {
    return bound[k];
  }

  /** Standard deviation over the bound. */
  double ratio(int k) {
    return sd(k) / bound[k];
  }

  /** Share of x and y within m of their stated uncertainty. */
  double within(double m) {
    return errors.stream()
        .mapToDouble(
            e -> (Math.abs(e[0]) < m * e[3] ? 0.5 : 0) + (Math.abs(e[1]) < m * e[3] ? 0.5 : 0))
        .average()
        .orElse(Double.NaN);
  }

  /** Share of rotations within m of their stated uncertainty. */
  double turnWithin(double m) {
    return errors.stream()
        .mapToDouble(e -> Math.abs(e[2]) < m * e[4] ? 1 : 0)
        .average()
        .orElse(Double.NaN);
  }

  static String head() {
    return "| type | px/mm | noise | blur | found % | bias x, y px | SD x, y px | SD / bound x, y"
        + " | rotation bias, SD deg | SD / bound | within u: x y, rotation |\n"
        + "|---|---|---|---|---|---|---|---|---|---|---|";
  }

  String row() {
    return String.format(
        Locale.ROOT,
        "| %s | %.0f | %.0f | %.1f | %.0f | %.3f, %.3f | %.3f, %.3f | %.2f, %.2f | %.3f, %.3f |"
            + " %.2f | %.2f, %.2f |",
        type.name(),
        s.pxPerMm(),
        s.noise(),
        s.blurPx(),
        100 * found(),
        bias(0),
        bias(1),
        sd(0),
        sd(1),
        ratio(0),
        ratio(1),
        bias(2),
        sd(2),
        ratio(2),
        within(1),
        turnWithin(1));
  }
}
