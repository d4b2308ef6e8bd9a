package org.padtrue.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.padtrue.SyntheticPanel;
import org.padtrue.panel.Article;
import org.padtrue.panel.Measured;
import org.padtrue.panel.OffsetFrame;

/**
 * Offsets of one nozzle of four that stay with the panel, turn with the part, or do both.
 *
 * <p>{@code -Dpadtrue.frames=N} runs N articles a row (40 otherwise) and prints the table; {@code
 * -Dpadtrue.frames.seed=S} takes fresh ones. Eight part types of 30 um, scatter 20 um, one board of
 * 60 x 40 mm or three, rotations in four quadrants, nozzles in turn; nothing else is off.
 */
class FrameSimulationTest {
  private static final int RUNS = Integer.getInteger("padtrue.frames", 40);
  private static final long SEED = Long.getLong("padtrue.frames.seed", 70_000);
  private static final double PLANTED = 0.040;

  /** What one kind of article gave. */
  private static final class Row {
    int n;
    int right;
    int part;
    int panel;
    int scale;
    int array;
    double bias;
    double square;
    double shift2;
    double types2;
    int types;

    double sd(double sum, int of) {
      return 1000 * Math.sqrt(sum / Math.max(1, of));
    }
  }

  private static Article moved(SyntheticPanel s, boolean panelFrame, boolean partFrame) {
    Article a = s.article("a");
    List<Measured> rows = new ArrayList<>();
    for (Measured m : a.measured()) {
      boolean on = "N2".equals(m.nozzle());
      double t = Math.toRadians(m.nominal().rotationDeg());
      double dx = on ? (panelFrame ? PLANTED : 0) + (partFrame ? PLANTED * Math.cos(t) : 0) : 0;
      double dy = on && partFrame ? PLANTED * Math.sin(t) : 0;
      rows.add(
          new Measured(
              m.panel(),
              m.board(),
              m.placement(),
              m.nominal(),
              m.dxMm() + dx,
              m.dyMm() + dy,
              m.dRotationDeg(),
              m.uMm(),
              m.uRotationDeg(),
              m.nozzle(),
              m.feeder(),
              m.head(),
              m.order(),
              m.note(),
              m.line()));
    }
    return new Article("a", rows, List.of(), false, false, OptionalDouble.empty(), List.of());
  }

  private static Row run(int boards, int each, boolean panelFrame, boolean partFrame, boolean off) {
    Row row = new Row();
    for (int i = 0; i < RUNS; i++) {
      SyntheticPanel s = new SyntheticPanel(SEED + 7919L * boards + i);
      s.tolerances = false;
      s.columns = boards;
      s.perBoard = each;
      s.types = 8;
      s.typeSd = 0.03;
      s.nozzles = 4;
      s.draw();
      AnalysisOptions o = AnalysisOptions.withDefaults();
      FirstArticleResult r =
          FirstArticleAnalysis.run(
              s.job(),
              List.of(moved(s, panelFrame, partFrame)),
              off ? o.withFrames(java.util.Map.of("nozzle", OffsetFrame.PART)) : o);
      score(row, s, r, panelFrame, partFrame);
    }
    return row;
  }

  private static void score(
      Row row, SyntheticPanel s, FirstArticleResult r, boolean panelFrame, boolean partFrame) {
    Set<String> frames = new TreeSet<>();
    double panel = 0;
    double part = 0;
    double[] c = r.common() == null ? new double[2] : new double[] {r.common().value().x(), r.common().value().y()};
    for (GroupResult g : r.groups()) {
      if (g.factor().equals("nozzle")) {
        frames.add(g.frame());
        if (g.level().equals("N2")) {
          panel += g.frame().equals("panel") ? g.offset().x() : 0;
          part += g.frame().equals("part") ? g.offset().x() : 0;
        }
      } else {
        double[] t = s.offset.get("part " + g.level());
        row.types2 += Math.pow(g.offset().x() + c[0] - t[0], 2) + Math.pow(g.offset().y() + c[1] - t[1], 2);
        row.types += 2;
      }
    }
    row.n++;
    Set<String> wanted = new TreeSet<>();
    if (panelFrame) {
      wanted.add("panel");
    }
    if (partFrame || !panelFrame) {
      wanted.add("part");
    }
    row.right += frames.equals(wanted) ? 1 : 0;
    row.panel += frames.contains("panel") ? 1 : 0;
    row.part += frames.contains("part") ? 1 : 0;
    row.scale += r.batchTrim().scale().decision() == Decision.TRIM ? 1 : 0;
    row.array += r.batchTrim().array().decision() == Decision.TRIM ? 1 : 0;
    double miss = (panelFrame ? panel : part) - (panelFrame || partFrame ? PLANTED : 0);
    row.bias += miss;
    row.square += miss * miss;
    PanelResult p = r.panels().get(0);
    row.shift2 += Math.pow(p.shiftAtCentroid().x(), 2) + Math.pow(p.shiftAtCentroid().y(), 2);
  }

  @Test
  void theRightFrameIsFound() {
    System.out.printf(
        "%-34s %6s %6s %6s %6s %6s %8s %8s %8s %8s%n",
        "articles of " + RUNS, "right", "part", "panel", "scale", "array", "N2 bias", "N2 RMS", "shift", "types");
    int[][] sizes = {{1, 67}, {3, 67}};
    for (int[] size : sizes) {
      for (int kind = 0; kind < 4; kind++) {
        boolean panel = (kind & 1) == 1;
        boolean part = (kind & 2) == 2;
        Row today = print(size, panel, part, true);
        Row now = print(size, panel, part, false);
        double n = RUNS;
        if (kind == 0) {
          // a 5 % test, and three standard errors
          assertThat(now.panel / n).isLessThan(0.05 + 3 * Math.sqrt(0.0475 / n));
        } else {
          assertThat(now.right / n).isGreaterThan(0.9 - 3 * Math.sqrt(0.09 / n));
        }
        if (panel) {
          assertThat(now.square).isLessThan(today.square);
        }
      }
    }
  }

  private static Row print(int[] size, boolean panel, boolean part, boolean off) {
    Row r = run(size[0], size[1], panel, part, off);
    System.out.printf(
        "%-34s %6d %6d %6d %6d %6d %8.1f %8.1f %8.1f %8.1f%n",
        size[0] * size[1]
            + (panel ? part ? ", both frames" : ", panel frame" : part ? ", part frame" : ", nothing")
            + (off ? ", part only" : ""),
        r.right,
        r.part,
        r.panel,
        r.scale,
        r.array,
        1000 * r.bias / r.n,
        r.sd(r.square, r.n),
        r.sd(r.shift2, 2 * r.n),
        r.sd(r.types2, r.types));
    return r;
  }
}
