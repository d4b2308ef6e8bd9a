package org.padtrue.mixed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.mixed.PositionColumns.FactorUse;
import org.padtrue.mixed.reml.Estimation;
import org.padtrue.mixed.reml.RandomEffects;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.article.DeviationTable;

/**
 * In which frame the offsets of a factor act: a bent nozzle turns with the part, a nozzle's seat
 * stays with the head, a worn nozzle may do both.
 *
 * <p>Both components stand in one model and each is tested against the other: the restricted
 * likelihood ratio of one variance that x and y share, all other variances held where they are best
 * without it, against its exact null distribution. The fixed terms are the richest that the
 * placements determine, so that stretch or a board's origin never passes for an offset. What the 5
 * % test supports is kept; where it supports neither, the usual frame stays.
 *
 * <p>Rotations tell the frames apart as far as placements of one level have several: n placements
 * of a level whose rotations have the mean resultant length r say as much of one frame, the other
 * being free, as n (1 - r^2) placements; nothing where all sit at one rotation. That, less what
 * other terms take, is summed over levels and axes, and has to reach one placement.
 */
public final class FrameChoice {
  private static final double ALPHA = 0.05;
  private static final double TOLD = 1;

  /** A variance so large that a component counts as free. */
  private static final double FREE = 1e3;

  private static final int MOST = 8;

  private final DeviationTable table;
  private final List<Component> tests = new ArrayList<>();
  private final Set<Factor> untold = new TreeSet<>(Comparator.comparing(Factor::key));
  private OffsetOptions options;
  private OffsetFit fit;

  /**
   * A tested component.
   *
   * @param factor one whose frame is open
   * @param frame the frame in which it acts
   * @param p tail probability with the factor's other component in the model
   * @param kept true when it is in the final model
   */
  public record Component(Factor factor, OffsetFrame frame, double p, boolean kept) {}

  private FrameChoice(DeviationTable table, OffsetOptions options) {
    this.table = table;
    this.options = options;
    fit = OffsetModel.fit(table, options);
  }

  /**
   * Fits, frames chosen.
   *
   * @param table what was measured
   * @param options the model with every factor in its usual frame
   * @param open factors whose frame is open
   */
  public static FrameChoice of(DeviationTable table, OffsetOptions options, Set<Factor> open) {
    FrameChoice c = new FrameChoice(table, options);
    List<Factor> factors = options.factors().stream().filter(open::contains).toList();
    if (!factors.isEmpty()) {
      c.choose(factors);
    }
    return c;
  }

  /** The fit. */
  public OffsetFit fit() {
    return fit;
  }

  /** What was fitted: frames as chosen. */
  public OffsetOptions options() {
    return options;
  }

  /** The components that were tested, the last test of each. */
  public List<Component> tests() {
    return List.copyOf(tests);
  }

  /** Factors in the model whose placements' rotations cannot tell the frames apart. */
  public Set<Factor> untold() {
    return untold;
  }

  private void choose(List<Factor> factors) {
    List<Factor> open = new ArrayList<>(factors);
    for (int round = 0; round < MOST && !open.isEmpty(); round++) {
      List<FactorUse> now = fit.uses();
      List<FactorUse> other = new ArrayList<>();
      for (Factor f : open) {
        FactorUse u = other(f, now);
        if (u != null) {
          other.add(u);
        }
      }
      if (other.isEmpty()) {
        return;
      }
      Probe probe = new Probe(now, other, fit.theta());
      int best = -1;
      double least = ALPHA;
      for (int c = 0; c < other.size(); c++) {
        Factor name = other.get(c).factor();
        if (probe.told(c) < TOLD) {
          untold.add(name);
          open.remove(name);
          continue;
        }
        double p = probe.p(c);
        note(other.get(c), p, false);
        if (p < least) {
          least = p;
          best = c;
        }
      }
      if (best < 0) {
        return;
      }
      take(other.get(best));
      open.remove(other.get(best).factor());
    }
  }

  /** The component of a factor that the model lacks; null when it can have none. */
  private @Nullable FactorUse other(Factor name, List<FactorUse> now) {
    @Nullable LevelColumn f = table.factors().get(name);
    if (f == null || f.levels().size() < 2 || f.levels().size() >= table.size()) {
      return null;
    }
    boolean part = options.panelFrame().contains(name);
    return OffsetModel.twin(now, f, part) == null ? new FactorUse(f, part) : null;
  }

  /** Takes a component in, and the usual one out where the data do not support it beside that. */
  private void take(FactorUse other) {
    Factor name = other.factor();
    Set<Factor> both = new TreeSet<>(options.bothFrames());
    both.add(name);
    OffsetOptions twice = options.with(options.panelFrame(), both);
    OffsetFit with = OffsetModel.fit(table, twice);
    note(other, Double.NaN, true);
    List<FactorUse> rest = new ArrayList<>(with.uses());
    double[] theta = with.theta();
    int at = -1;
    for (int f = 0; f < rest.size(); f++) {
      FactorUse u = rest.get(f);
      if (u.factor() == name && u.partFrame() != other.partFrame()) {
        at = f;
      }
    }
    if (at >= 0) {
      FactorUse usual = rest.remove(at);
      double[] start = new double[2 * rest.size()];
      System.arraycopy(theta, 0, start, 0, 2 * at);
      System.arraycopy(theta, 2 * at + 2, start, 2 * at, start.length - 2 * at);
      double p = new Probe(rest, List.of(usual), start).p(0);
      note(usual, p, p < ALPHA);
      if (!(p < ALPHA)) {
        Set<Factor> panel = new TreeSet<>(options.panelFrame());
        if (other.partFrame()) {
          panel.remove(name);
        } else {
          panel.add(name);
        }
        options = options.with(panel, options.bothFrames());
        fit = OffsetModel.fit(table, options);
        return;
      }
    }
    options = twice;
    fit = with;
  }

  private void note(FactorUse u, double p, boolean kept) {
    OffsetFrame frame = u.partFrame() ? OffsetFrame.PART : OffsetFrame.PANEL;
    Factor name = u.factor();
    double seen = p;
    for (int i = 0; i < tests.size(); i++) {
      Component c = tests.get(i);
      if (c.factor() == name && c.frame() == frame) {
        seen = Double.isNaN(p) ? c.p() : p;
        tests.remove(i--);
      }
    }
    tests.add(new Component(name, frame, seen, kept));
  }

  /** A model and the components that it might have besides. */
  private final class Probe {
    private final RandomEffects wide;
    private final double[] theta;
    private final List<FactorUse> now;
    private final List<FactorUse> more;

    Probe(List<FactorUse> now, List<FactorUse> more, double[] start) {
      this.now = now;
      this.more = more;
      double[] best =
          OffsetModel.richest(table, options, now, fit.weights())
              .fit(Estimation.REML, start)
              .theta();
      List<FactorUse> all = new ArrayList<>(now);
      all.addAll(more);
      theta = Arrays.copyOf(best, 2 * all.size());
      wide = OffsetModel.richest(table, options, all, fit.weights());
    }

    private int at(int c) {
      return 2 * (now.size() + c);
    }

    double p(int c) {
      return wide.joint(theta, at(c), at(c) + 1).p();
    }

    /** How many placements' worth is known of a component, that factor's other one being free. */
    double told(int c) {
      double[] free = theta.clone();
      for (int f = 0; f < now.size(); f++) {
        if (now.get(f).factor() == more.get(c).factor()) {
          free[2 * f] = FREE;
          free[2 * f + 1] = FREE;
        }
      }
      return wide.information(free, at(c), at(c) + 1);
    }
  }
}
