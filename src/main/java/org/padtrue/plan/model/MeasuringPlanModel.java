package org.padtrue.plan.model;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Level;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.Reference;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.quantity.Angles;

/**
 * The linear model that a plan is made for.
 *
 * <p>Position of placement i at r from the centroid, L the half diagonal, theta its rotation, (c,
 * q) its board against the mean board:
 *
 * <pre>d = shift + (rotation J r + scale + squareness terms)/L + c column step + q row step + head
 *     + R(theta) (common + part + nozzle + feeder)</pre>
 *
 * Rotation, scale and squareness are thus measured by what they do at L, in mm. Two readings a
 * placement, dx and dy. Rotation has a model of its own with one reading a placement. Seen by the
 * machine's own axes, scale, squareness and array cancel and are left out.
 *
 * @param columns the unknowns
 * @param readings per candidate, its readings; those of a part type that scatters more are scaled
 *     down, so that all have one standard deviation
 * @param readingSd standard deviation of one reading so scaled, mm (degrees for rotation)
 */
public record MeasuringPlanModel(
    List<MeasuringPlanColumn> columns, List<MeasuringPlanRow[]> readings, double readingSd) {

  /**
   * Spread given to terms that have none (shift, rotation, ...), in mm or degrees: so wide that it
   * tells nothing, and keeps the arithmetic defined while few placements are in the plan.
   */
  public static final double WIDE = 10;

  private static final double URAD = 1e6;

  /**
   * The model of position.
   *
   * @param spread what is assumed of the terms of the whole panel
   */
  public static MeasuringPlanModel position(
      List<MeasuringPlanCandidate> all,
      MeasuringPlanFrame frame,
      Reference reference,
      MeasuringPlanOptions o,
      MeasuringPlanScatter scatter,
      MeasuringPlanSpread spread) {
    Builder b = new Builder(all, spread);
    int shift =
        b.pair(
            MeasuringPlanFactor.SHIFT,
            TermFamily.SHIFT.key(),
            "",
            spread.of(MeasuringPlanFactor.SHIFT),
            -1);
    double arm = frame.halfDiagonalMm();
    int rotation = b.one(MeasuringPlanFactor.ROTATION, FixedTerm.ROTATION, Math.toDegrees(1 / arm));
    boolean axes = reference != Reference.MACHINE;
    int linear = -1;
    int column = -1;
    int row = -1;
    if (axes) {
      linear = b.one(MeasuringPlanFactor.SCALE_X, FixedTerm.SCALE_X, URAD / arm);
      b.one(MeasuringPlanFactor.SCALE_Y, FixedTerm.SCALE_Y, URAD / arm);
      b.one(MeasuringPlanFactor.SQUARENESS, FixedTerm.SQUARENESS, 1000 / arm);
      column = frame.columns() ? b.step("column") : -1;
      row = frame.rows() ? b.step("row") : -1;
    }
    int common =
        b.pair(
            MeasuringPlanFactor.COMMON,
            TermFamily.COMMON.key(),
            "",
            spread.of(MeasuringPlanFactor.COMMON),
            -1);
    Map<MeasuringPlanFactor, Map<String, Integer>> levels = new TreeMap<>();
    MeasuringPlanFactor.LEVELS.forEach(
        f -> {
          int parent = f.factor().frame() == OffsetFrame.PANEL ? shift : common;
          levels.put(f, b.levels(f, o.spreadMm(f.factor()), parent, true));
        });
    List<MeasuringPlanRow[]> readings = new ArrayList<>(all.size());
    for (MeasuringPlanCandidate c : all) {
      double x = (c.pose().xMm() - frame.xMm()) / arm;
      double y = (c.pose().yMm() - frame.yMm()) / arm;
      double cos = Angles.cosDeg(c.pose().rotationDeg());
      double sin = Angles.sinDeg(c.pose().rotationDeg());
      RowBuilder dx = new RowBuilder();
      RowBuilder dy = new RowBuilder();
      dx.add(shift, 1);
      dy.add(shift + 1, 1);
      dx.add(rotation, -y);
      dy.add(rotation, x);
      if (axes) {
        dx.add(linear, x);
        dy.add(linear + 1, y);
        dx.add(linear + 2, -y);
        step(dx, dy, column, c.board().column() - frame.meanColumn());
        step(dx, dy, row, c.board().row() - frame.meanRow());
      }
      turned(dx, dy, common, cos, sin);
      for (Map.Entry<MeasuringPlanFactor, Map<String, Integer>> e : levels.entrySet()) {
        Integer at = at(e.getValue(), e.getKey().level(c));
        if (at != null) {
          boolean stays = e.getKey().factor().frame() == OffsetFrame.PANEL;
          turned(dx, dy, at, stays ? 1 : cos, stays ? 0 : sin);
        }
      }
      double by = scatter.scale(c.placement().part());
      readings.add(new MeasuringPlanRow[] {dx.build(by), dy.build(by)});
    }
    return new MeasuringPlanModel(b.columns, readings, scatter.sd());
  }

  /** Rotation: rotation zero (panel rotation and zero together) and one offset a level. */
  public static MeasuringPlanModel rotation(
      List<MeasuringPlanCandidate> all, MeasuringPlanOptions o, MeasuringPlanScatter scatter) {
    Builder b = new Builder(all, MeasuringPlanSpread.NONE);
    int zero = b.one(MeasuringPlanFactor.COMMON, FixedTerm.ROTATION_ZERO, 1);
    Map<MeasuringPlanFactor, Map<String, Integer>> levels = new TreeMap<>();
    MeasuringPlanFactor.LEVELS.forEach(
        f -> levels.put(f, b.levels(f, o.offsetSdRotationDeg(), zero, false)));
    List<MeasuringPlanRow[]> readings = new ArrayList<>(all.size());
    for (MeasuringPlanCandidate c : all) {
      RowBuilder r = new RowBuilder();
      r.add(zero, 1);
      for (Map.Entry<MeasuringPlanFactor, Map<String, Integer>> e : levels.entrySet()) {
        Integer at = at(e.getValue(), e.getKey().level(c));
        if (at != null) {
          r.add(at, 1);
        }
      }
      readings.add(new MeasuringPlanRow[] {r.build(scatter.scale(c.placement().part()))});
    }
    return new MeasuringPlanModel(b.columns, readings, scatter.sd());
  }

  /** The same model with some of its candidates. */
  public MeasuringPlanModel of(List<Integer> candidates) {
    return new MeasuringPlanModel(
        columns, candidates.stream().map(readings::get).toList(), readingSd);
  }

  /** Information of all candidates per unit reading variance, without any assumed spread. */
  public double[][] gram() {
    double[][] m = new double[columns.size()][columns.size()];
    for (MeasuringPlanRow[] rows : readings) {
      for (MeasuringPlanRow r : rows) {
        for (int i = 0; i < r.at().length; i++) {
          for (int j = 0; j < r.at().length; j++) {
            m[r.at()[i]][r.at()[j]] += r.by()[i] * r.by()[j];
          }
        }
      }
    }
    return m;
  }

  private static @Nullable Integer at(Map<String, Integer> levels, @Nullable String level) {
    return level == null ? null : levels.get(level);
  }

  private static void step(RowBuilder dx, RowBuilder dy, int at, double by) {
    if (at >= 0) {
      dx.add(at, by);
      dy.add(at + 1, by);
    }
  }

  private static void turned(RowBuilder dx, RowBuilder dy, int at, double cos, double sin) {
    dx.add(at, cos);
    dx.add(at + 1, -sin);
    dy.add(at, sin);
    dy.add(at + 1, cos);
  }

  /** Collects columns. */
  private static final class Builder {
    private final List<MeasuringPlanCandidate> all;
    private final MeasuringPlanSpread spread;
    private final List<MeasuringPlanColumn> columns = new ArrayList<>();

    Builder(List<MeasuringPlanCandidate> all, MeasuringPlanSpread spread) {
      this.all = all;
      this.spread = spread;
    }

    int one(MeasuringPlanFactor f, FixedTerm term, double unitsPerOne) {
      return one(f, term.label(), term.unit(), unitsPerOne);
    }

    int one(MeasuringPlanFactor f, String name, String unit, double unitsPerOne) {
      columns.add(new MeasuringPlanColumn(name, f, "", spread.of(f), -1, unit, unitsPerOne));
      return columns.size() - 1;
    }

    int pair(MeasuringPlanFactor f, String name, String level, double sd, int parent) {
      int p = parent < 0 ? -1 : parent + 1;
      columns.add(new MeasuringPlanColumn(name + " x", f, level, sd, parent, "mm", 1));
      columns.add(new MeasuringPlanColumn(name + " y", f, level, sd, p, "mm", 1));
      return columns.size() - 2;
    }

    int step(String along) {
      for (String axis : List.of("x", "y")) {
        one(MeasuringPlanFactor.ARRAY, "array step " + axis + " per " + along, "mm", 1);
      }
      return columns.size() - 2;
    }

    Map<String, Integer> levels(MeasuringPlanFactor f, double sd, int parent, boolean pairs) {
      TreeSet<String> names = new TreeSet<>();
      for (MeasuringPlanCandidate c : all) {
        String level = f.level(c);
        if (level != null) {
          names.add(level);
        }
      }
      Map<String, Integer> at = new LinkedHashMap<>();
      for (String level : names) {
        String name = new Level(f.factor(), level).toString();
        if (pairs) {
          at.put(level, pair(f, name, level, sd, parent));
        } else {
          columns.add(new MeasuringPlanColumn(name + " rotation", f, level, sd, parent, "deg", 1));
          at.put(level, columns.size() - 1);
        }
      }
      return at;
    }
  }

  /** Collects the non-zero factors of one reading. */
  private static final class RowBuilder {
    private final List<Integer> at = new ArrayList<>();
    private final List<Double> by = new ArrayList<>();

    void add(int column, double factor) {
      if (factor != 0) {
        at.add(column);
        by.add(factor);
      }
    }

    /** The reading in units in which all readings scatter alike. */
    MeasuringPlanRow build(double scale) {
      return new MeasuringPlanRow(
          at.stream().mapToInt(Integer::intValue).toArray(),
          by.stream().mapToDouble(f -> f * scale).toArray());
    }
  }
}
