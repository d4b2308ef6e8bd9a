package org.padtrue.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.padtrue.quantity.Angles;

/**
 * What a trim adds in a wrong frame, less what it adds in the right one, as columns beside the
 * model's: a part-frame trim that does not turn with the part, or turns the wrong way; a
 * panel-frame trim that turns with the parts.
 */
final class TrimCheckFrames {
  private static final double SAME_DEG = 0.1;

  private final List<TrimCheckItem> items;
  private final int[][] columns;
  private final int[][] ways;
  private final double[] onlyRotation;
  private int count;

  /**
   * Finds out for which terms a wrong frame could show.
   *
   * @param items the terms
   * @param places the placements of the second article
   * @param from first free column
   */
  TrimCheckFrames(List<TrimCheckItem> items, List<TrimCheckModel.Place> places, int from) {
    this.items = items;
    columns = new int[items.size()][];
    ways = new int[items.size()][];
    onlyRotation = new double[items.size()];
    Arrays.fill(onlyRotation, Double.NaN);
    for (int i = 0; i < items.size(); i++) {
      ways[i] = ways(i, places);
      columns[i] = new int[ways[i].length];
      for (int k = 0; k < columns[i].length; k++) {
        columns[i][k] = from + count++;
      }
    }
  }

  /** Ways in which a wrong frame would show. */
  private int[] ways(int i, List<TrimCheckModel.Place> places) {
    TrimCheckItem item = items.get(i);
    boolean plane = item.trim()[0] != 0 || item.trim()[1] != 0;
    if (item.frame() == TrimCheckItem.Frame.NONE || !plane) {
      return new int[0];
    }
    List<Double> turns = new ArrayList<>();
    for (TrimCheckModel.Place p : places) {
      double t = p.nominal().rotationDeg();
      if (item.has(p) && turns.stream().noneMatch(x -> Math.abs(Angles.wrap(x - t)) < SAME_DEG)) {
        turns.add(t);
      }
    }
    if (turns.size() < 2) {
      onlyRotation[i] = turns.isEmpty() ? Double.NaN : turns.get(0);
      return new int[0];
    }
    if (item.frame() != TrimCheckItem.Frame.PART) {
      return new int[] {0};
    }
    // at 0 and 180 degrees only, turned the wrong way is turned the right way
    boolean half = turns.stream().allMatch(t -> Math.abs(Angles.wrap(t, 2)) < SAME_DEG);
    return half ? new int[] {0} : new int[] {0, 1};
  }

  /** How many columns there are. */
  int count() {
    return count;
  }

  /** Columns of a term. */
  int[] of(int item) {
    return columns[item];
  }

  /** The one rotation at which all placements of a term sit; NaN when there are more or none. */
  double onlyRotation(int item) {
    return onlyRotation[item];
  }

  /** Adds the entries of a placement; rotations have none. */
  void fill(int axis, TrimCheckModel.Place p, TrimCheckModel.Row row) {
    if (axis == 2) {
      return;
    }
    for (int i = 0; i < columns.length; i++) {
      for (int k = 0; k < columns[i].length; k++) {
        if (items.get(i).has(p)) {
          row.add(columns[i][k], wrong(items.get(i), ways[i][k], p.cos(), p.sin())[axis]);
        }
      }
    }
  }

  /** Wrong less right, x and y, for a placement whose rotation has this cosine and sine. */
  static double[] wrong(TrimCheckItem item, int way, double c, double s) {
    double x = item.trim()[0];
    double y = item.trim()[1];
    double tx = c * x - s * y;
    double ty = s * x + c * y;
    if (item.frame() == TrimCheckItem.Frame.PANEL) {
      return new double[] {tx - x, ty - y};
    }
    return way == 0
        ? new double[] {x - tx, y - ty}
        : new double[] {c * x + s * y - tx, -s * x + c * y - ty};
  }
}
