package org.padtrue.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.history.LoggedParameter;
import org.padtrue.numeric.NormalEquations;
import org.padtrue.numeric.NormalEquations.Solution;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;
import org.padtrue.panel.term.Term;

/**
 * Plain fit of rotations: what all parts share (rotationZero, with the panel's own turn taken off)
 * and each level of each factor beside it, the levels of a factor summing to zero.
 */
final class TurnFit {
  private final DeviationTable t;
  private final double[] y;
  private final double[] weight;

  private TurnFit(ArticleTerms terms, Map<String, Double> panelTurn) {
    DeviationTable used = terms.used();
    List<Double> turn = terms.turnDeg();
    t = used.subset(i -> !Double.isNaN(turn.get(i)));
    y = new double[t.size()];
    List<Double> expected = new ArrayList<>();
    int k = 0;
    for (int i = 0; i < used.size(); i++) {
      if (!Double.isNaN(turn.get(i))) {
        expected.add(terms.expectedTurn().get(i));
        y[k++] = turn.get(i) - panelTurn.getOrDefault(used.rows().get(i).panel(), 0.0);
      }
    }
    weight = PlainFit.weights(expected, terms.scatter().residualSdRotation());
  }

  /**
   * Estimates; empty when fewer than two rotations were measured.
   *
   * @param panelTurnDeg rotation of each panel by name
   * @param panelTurnSe standard error of their mean
   */
  static List<LoggedParameter> of(
      ArticleTerms terms, Map<String, Double> panelTurnDeg, double panelTurnSe) {
    TurnFit f = new TurnFit(terms, panelTurnDeg);
    if (f.y.length < 2) {
      return List.of();
    }
    List<PlainColumns.Block> blocks = new ArrayList<>();
    Solution s = f.solve(blocks);
    for (LevelColumn factor : PlainColumns.factors(f.t)) {
      boolean labelled = Arrays.stream(factor.level()).allMatch(l -> l >= 0);
      if (factor.levels().size() < 2) {
        continue;
      }
      List<PlainColumns.Block> more = new ArrayList<>(blocks);
      more.add(PlainColumns.Block.of(factor, labelled, false));
      Solution richer = f.solve(more);
      if (richer != null) {
        blocks = more;
        s = richer;
      }
    }
    if (s == null) {
      return List.of();
    }
    double sd = terms.scatter().residualSdRotation();
    List<LoggedParameter> out = parameters(s, blocks, sd, panelTurnSe);
    out.addAll(f.differences(sd));
    return out;
  }

  /** What is known of levels against each other, from all factors in full, however tied. */
  private List<LoggedParameter> differences(double sd) {
    List<PlainColumns.Block> full =
        PlainColumns.factors(t).stream().map(f -> PlainColumns.Block.of(f, false, false)).toList();
    NormalEquations eq = equations(full);
    NormalEquations.Tied s = eq.tied();
    List<LoggedParameter> out = new ArrayList<>();
    if (y.length < s.rank() + 1) {
      return out;
    }
    int first = 1;
    for (PlainColumns.Block b : full) {
      int from = first;
      out.addAll(
          LevelDifferences.of(
              b.factor(),
              Set.of(),
              OffsetAxis.ROTATION,
              sd,
              s,
              l -> {
                double[] c = new double[s.estimates().length];
                c[from + l] = 1;
                return c;
              }));
      first += b.free();
    }
    return out;
  }

  private @Nullable Solution solve(List<PlainColumns.Block> blocks) {
    int count = 1 + blocks.stream().mapToInt(PlainColumns.Block::free).sum();
    return y.length < count + 1 ? null : equations(blocks).solve();
  }

  private NormalEquations equations(List<PlainColumns.Block> blocks) {
    int count = 1;
    int widest = 1;
    for (PlainColumns.Block b : blocks) {
      count += b.free();
      widest += Math.max(1, b.free());
    }
    NormalEquations eq = new NormalEquations(count);
    int[] index = new int[widest];
    double[] value = new double[widest];
    for (int i = 0; i < y.length; i++) {
      eq.add(index, value, row(i, blocks, index, value), y[i], weight[i]);
    }
    return eq;
  }

  private static int row(int i, List<PlainColumns.Block> blocks, int[] index, double[] value) {
    int n = 0;
    index[n] = 0;
    value[n++] = 1;
    int first = 1;
    for (PlainColumns.Block b : blocks) {
      int l = b.factor().level()[i];
      if (l >= 0) {
        int column = b.column(l);
        int to = column < 0 ? b.free() : column + 1;
        for (int k = Math.max(0, column); k < to; k++) {
          index[n] = first + k;
          value[n++] = column < 0 ? -1 : 1;
        }
      }
      first += b.free();
    }
    return n;
  }

  private static List<LoggedParameter> parameters(
      Solution s, List<PlainColumns.Block> blocks, double sd, double panelTurnSe) {
    List<LoggedParameter> out = new ArrayList<>();
    double[] zero = new double[s.estimates().length];
    zero[0] = 1;
    out.add(parameter(FixedTerm.ROTATION_ZERO, s, zero, sd, panelTurnSe));
    int first = 1;
    for (PlainColumns.Block b : blocks) {
      for (int l = 0; l < b.factor().levels().size(); l++) {
        double[] by = new double[s.estimates().length];
        int column = b.column(l);
        if (column >= 0) {
          by[first + column] = 1;
        } else {
          Arrays.fill(by, first, first + b.free(), -1);
        }
        LevelTerm term = LevelTerm.of(b.factor().named(l), OffsetAxis.ROTATION);
        out.add(parameter(term, s, by, sd, 0));
      }
      first += b.free();
    }
    return out;
  }

  private static LoggedParameter parameter(
      Term term, Solution s, double[] by, double sd, double more) {
    double v = 0;
    for (int k = 0; k < by.length; k++) {
      v += by[k] * s.estimates()[k];
    }
    double se = Math.hypot(sd * Math.sqrt(s.variance(by)), more);
    return LoggedParameter.of(term, v, se);
  }
}
