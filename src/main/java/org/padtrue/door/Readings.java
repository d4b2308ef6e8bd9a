package org.padtrue.door;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Pose;
import org.padtrue.panel.mistake.Reading;
import org.padtrue.panel.mistake.Reading.Kind;
import org.padtrue.quantity.Angles;
import org.padtrue.quantity.LengthUnit;

/** What one panel of an article says under each reading. */
final class Readings {
  private final List<Measured> rows;
  private final boolean poses;
  private final LengthUnit unit;
  private final BoardArray array;
  private final Map<BoardIndex, Board> boards;
  private final int[] type;
  private final int types;
  private final int columns;
  private final int boardRows;

  /**
   * @param job the job
   * @param rows measured placements of one panel, one at least
   * @param poses true when poses were recorded
   * @param unit the unit that bare numbers were taken in
   */
  Readings(Job job, List<Measured> rows, boolean poses, LengthUnit unit) {
    this.rows = rows;
    this.poses = poses;
    this.unit = unit;
    array = job.array();
    boards = array.byIndex();
    Map<String, Integer> known = new HashMap<>();
    type = new int[rows.size()];
    for (int i = 0; i < type.length; i++) {
      String part = rows.get(i).placement().part();
      Integer k = known.get(part);
      if (k == null) {
        k = known.size();
        known.put(part, k);
      }
      type[i] = k;
    }
    types = known.size();
    columns = array.columns();
    boardRows = array.rows();
  }

  /** The readings that differ from the one as given. */
  List<Reading> all() {
    List<Reading> all = new ArrayList<>();
    for (LengthUnit u : LengthUnit.values()) {
      if (u != unit) {
        all.add(new Reading(Kind.UNIT, u));
      }
    }
    List<Kind> kinds = new ArrayList<>(List.of(Kind.SWAPPED, Kind.TURNED_90, Kind.MIRRORED_X));
    // Deviations of half a turn more are the same with other signs, which honest ones have too.
    if (poses) {
      kinds.addAll(
          List.of(
              Kind.TURNED_180,
              Kind.TURNED_270,
              Kind.MIRRORED_Y,
              Kind.MIRRORED_TURNED,
              Kind.DEVIATIONS));
    } else {
      kinds.add(Kind.POSES);
    }
    if (boards.size() > 1) {
      if (poses) {
        kinds.add(Kind.BOARD_FRAME);
      }
      if (columns > 1) {
        kinds.add(Kind.BOARD_COLUMNS);
      }
      if (boardRows > 1) {
        kinds.add(Kind.BOARD_ROWS);
      }
      if (columns > 1 && boardRows > 1) {
        kinds.add(Kind.BOARD_BOTH);
        kinds.add(Kind.BOARD_SWAPPED);
      }
    }
    kinds.forEach(k -> all.add(Reading.of(k)));
    return all;
  }

  private @Nullable BoardIndex renumbered(BoardIndex b, Kind k) {
    int c = b.column();
    int r = b.row();
    return switch (k) {
      case BOARD_COLUMNS -> new BoardIndex(columns + 1 - c, r);
      case BOARD_ROWS -> new BoardIndex(c, boardRows + 1 - r);
      case BOARD_BOTH -> new BoardIndex(columns + 1 - c, boardRows + 1 - r);
      case BOARD_SWAPPED -> new BoardIndex(r, c);
      default -> b;
    };
  }

  /** The rows under a reading, or null where it is not possible. */
  @Nullable ReadRows rows(Reading reading) {
    int n = rows.size();
    double[] x = new double[n];
    double[] y = new double[n];
    double[] cos = new double[n];
    double[] sin = new double[n];
    int[] column = new int[n];
    int[] row = new int[n];
    double[] dx = new double[n];
    double[] dy = new double[n];
    for (int i = 0; i < n; i++) {
      Measured m = rows.get(i);
      BoardIndex index = renumbered(m.board(), reading.kind());
      Board b = boards.get(index);
      if (index == null || b == null) {
        return null;
      }
      Pose nominal =
          index.equals(m.board()) ? m.nominal() : m.placement().pose().seenFrom(b.origin());
      x[i] = nominal.xMm();
      y[i] = nominal.yMm();
      cos[i] = Angles.cosDeg(nominal.rotationDeg());
      sin[i] = Angles.sinDeg(nominal.rotationDeg());
      column[i] = index.column() - 1;
      row[i] = index.row() - 1;
      double[] d = deviation(m, nominal, b, reading);
      dx[i] = d[0];
      dy[i] = d[1];
    }
    if (poses && anyShift(reading.kind())) {
      centre(dx);
      centre(dy);
    }
    return new ReadRows(x, y, cos, sin, type, types, column, row, dx, dy);
  }

  private static void centre(double[] v) {
    double[] s = v.clone();
    Arrays.sort(s);
    double m = s[s.length / 2];
    for (int i = 0; i < v.length; i++) {
      v[i] -= m;
    }
  }

  private double[] deviation(Measured m, Pose nominal, Board board, Reading reading) {
    double u = m.dxMm();
    double v = m.dyMm();
    if (poses) {
      u += m.nominal().xMm();
      v += m.nominal().yMm();
    }
    double f = reading.kind() == Kind.UNIT ? reading.unit().mm() / unit.mm() : 1;
    double a = u * f;
    double b = v * f;
    switch (reading.kind()) {
      case SWAPPED -> {
        a = v;
        b = u;
      }
      case TURNED_90 -> {
        a = v;
        b = -u;
      }
      case TURNED_180 -> {
        a = -u;
        b = -v;
      }
      case TURNED_270 -> {
        a = -v;
        b = u;
      }
      case MIRRORED_X -> a = -u;
      case MIRRORED_Y -> b = -v;
      case MIRRORED_TURNED -> {
        a = -v;
        b = -u;
      }
      case BOARD_FRAME -> {
        Pose p = new Pose(u, v, 0).seenFrom(board.origin());
        a = p.xMm();
        b = p.yMm();
      }
      default -> {
        // as it stands
      }
    }
    // DEVIATIONS: what stands under x, y is measured minus nominal already.
    boolean minus = poses ? reading.kind() != Kind.DEVIATIONS : reading.kind() == Kind.POSES;
    return minus ? new double[] {a - nominal.xMm(), b - nominal.yMm()} : new double[] {a, b};
  }

  /** True when a reading says nothing of where the panel's zero is. */
  static boolean anyShift(Kind k) {
    return switch (k) {
      case TURNED_90, TURNED_180, TURNED_270, MIRRORED_X, MIRRORED_Y, MIRRORED_TURNED -> true;
      default -> false;
    };
  }

  /** Logarithm of the factor by which the reading changes areas, for all rows. */
  double logJacobian(Reading r) {
    return r.kind() == Kind.UNIT ? 2 * rows.size() * Math.log(r.unit().mm() / unit.mm()) : 0;
  }
}
