package org.padtrue.log;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.history.LoggedParameter;
import org.padtrue.numeric.NormalEquations;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.panel.term.OffsetAxis;

/**
 * Levels where some nozzles and part types come only with each other, as N3 that alone places the
 * ICs: among the nozzles that share types the levels are known as ever, so that they sum to zero;
 * what comes only with one nozzle is known together with it, and named so ("part IC with nozzle N3
 * x").
 *
 * <p>Where the nozzles fall into more than one group that share types, single levels would be
 * another mixture by group and are not logged; {@link LevelDifferences} still are.
 */
final class TiedLevels {
  private final PlainColumns c;
  private final NormalEquations.Tied s;
  private final double sd;
  private final List<LoggedParameter> out = new ArrayList<>();

  private TiedLevels(PlainColumns c, NormalEquations.Tied s, double sd) {
    this.c = c;
    this.s = s;
    this.sd = sd;
  }

  static List<LoggedParameter> of(
      PlainColumns c, NormalEquations.Tied s, Set<String> leftOut, double sd) {
    int part = block(c, Factor.PART);
    int nozzle = block(c, Factor.NOZZLE);
    if (part < 0 || nozzle < 0) {
      return List.of();
    }
    LevelColumn types = c.blocks.get(part).factor();
    LevelColumn nozzles = c.blocks.get(nozzle).factor();
    int[] group = groups(types, nozzles);
    int p = types.levels().size();
    int[] size = new int[group.length];
    for (int l = 0; l < nozzles.levels().size(); l++) {
      size[group[p + l]]++;
    }
    if (Arrays.stream(size).filter(n -> n > 1).count() != 1) {
      return List.of();
    }
    TiedLevels t = new TiedLevels(c, s, sd);
    for (int axis = 0; axis < 2; axis++) {
      OffsetAxis along = axis == 0 ? OffsetAxis.X : OffsetAxis.Y;
      for (int l = 0; l < p; l++) {
        if (leftOut.contains(types.levels().get(l))) {
          continue;
        }
        double[] by = c.levelOf(part, l, axis).clone();
        Level only = t.addMean(by, nozzle, nozzles, group, p, group[l], axis, 1);
        for (Factor f : Factor.values()) {
          if (f.supplies()) {
            t.addSupply(by, block(c, f), types, l, axis);
          }
        }
        t.add(
            size[group[l]] > 1 || only == null
                ? LevelTerm.of(types.named(l), along)
                : LevelTerm.tied(types.named(l), only, along),
            by);
      }
      for (int l = 0; l < nozzles.levels().size(); l++) {
        if (size[group[p + l]] > 1) {
          double[] by = c.levelOf(nozzle, l, axis).clone();
          t.addMean(by, nozzle, nozzles, group, p, group[p + l], axis, -1);
          t.add(LevelTerm.of(nozzles.named(l), along), by);
        }
      }
    }
    return t.out;
  }

  private static int block(PlainColumns c, Factor factor) {
    for (int b = 0; b < c.blocks.size(); b++) {
      if (c.blocks.get(b).factor().factor() == factor) {
        return b;
      }
    }
    return -1;
  }

  /** Adds the mean over a group's nozzles; names one of them. */
  private @Nullable Level addMean(
      double[] by,
      int block,
      LevelColumn nozzles,
      int[] group,
      int first,
      int which,
      int axis,
      int sign) {
    List<Integer> own = new ArrayList<>();
    for (int l = 0; l < nozzles.levels().size(); l++) {
      if (group[first + l] == which) {
        own.add(l);
      }
    }
    for (int l : own) {
      double[] of = c.levelOf(block, l, axis);
      for (int i = 0; i < by.length; i++) {
        by[i] += sign * of[i] / own.size();
      }
    }
    return own.isEmpty() ? null : nozzles.named(own.get(0));
  }

  // A type's offset stands for its feeders' too, as it does where nothing is tied.
  private void addSupply(double[] by, int b, LevelColumn types, int type, int axis) {
    if (b < 0) {
      return;
    }
    LevelColumn feeders = c.blocks.get(b).factor();
    boolean[] own = new boolean[feeders.levels().size()];
    int count = 0;
    for (int i = 0; i < types.level().length; i++) {
      int f = feeders.level()[i];
      if (types.level()[i] == type && f >= 0 && !own[f]) {
        own[f] = true;
        count++;
      }
    }
    for (int f = 0; f < own.length; f++) {
      if (own[f]) {
        double[] of = c.levelOf(b, f, axis);
        for (int i = 0; i < by.length; i++) {
          by[i] += of[i] / count;
        }
      }
    }
  }

  private void add(LevelTerm term, double[] by) {
    double v = s.variance(by);
    if (v > 0 && Double.isFinite(s.value(by))) {
      out.add(LoggedParameter.of(term, s.value(by), sd * Math.sqrt(v)));
    }
  }

  /** For every type, then every nozzle, the group that placements join it to. */
  private static int[] groups(LevelColumn types, LevelColumn nozzles) {
    int p = types.levels().size();
    int[] parent = new int[p + nozzles.levels().size()];
    Arrays.setAll(parent, i -> i);
    for (int i = 0; i < types.level().length; i++) {
      int a = types.level()[i];
      int b = nozzles.level()[i];
      if (a >= 0 && b >= 0) {
        parent[root(parent, a)] = root(parent, p + b);
      }
    }
    for (int i = 0; i < parent.length; i++) {
      parent[i] = root(parent, i);
    }
    return parent;
  }

  private static int root(int[] parent, int i) {
    int r = i;
    while (parent[r] != r) {
      r = parent[r];
    }
    return r;
  }
}
