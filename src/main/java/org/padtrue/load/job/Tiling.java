package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Pose;

/**
 * Gives every board of a panel its place from the boards that the job lists.
 *
 * <p>Origin of board (c, r) = o + (c - 1) a + (r - 1) b, and + w for a board turned by 180 degrees:
 * the origin of a turned board is where its own origin lies, which is the far corner of its
 * outline, and w is that step, the same for all turned boards. Least squares over the listed
 * boards; when they are more than needed their root mean square distance from the tiling is given.
 * Boards are taken where the tiling puts them. A board that is not listed is taken as turned when
 * the listed boards of its row (or, if that cannot be, of its column) are; a panel in which neither
 * holds is a problem.
 */
final class Tiling {
  private final int columns;
  private final int rows;
  private final List<ListedBoard> listed;
  private final Set<BoardIndex> skipped;
  private final ProblemList problems;
  private final int line;
  private final String column;
  private final List<String> notes = new ArrayList<>();

  /**
   * @param line where the job describes the panel
   * @param column where the job describes the panel
   */
  Tiling(
      int columns,
      int rows,
      List<ListedBoard> listed,
      Set<BoardIndex> skipped,
      ProblemList problems,
      int line,
      int column) {
    this.columns = columns;
    this.rows = rows;
    this.listed = listed;
    this.skipped = skipped;
    this.problems = problems;
    this.line = line;
    this.column = String.valueOf(column);
  }

  /** What a reader should know. */
  List<String> notes() {
    return notes;
  }

  /** The array; one board at the origin when the boards do not fix it, with a problem. */
  BoardArray array() {
    if (listed.isEmpty()) {
      if (columns * rows > 1) {
        complain("no board has coordinates", "give \"boards\" with x and y, " + wanted());
      }
      return BoardArray.single();
    }
    Function<BoardIndex, Boolean> turned = turned();
    if (turned == null) {
      return BoardArray.single();
    }
    return fit(turned);
  }

  private String wanted() {
    return columns > 1 && rows > 1 ? "three that are not in one line" : "two of them";
  }

  private void complain(String found, String mend) {
    problems.add(line, column, found, mend);
  }

  private @Nullable Function<BoardIndex, Boolean> turned() {
    Map<BoardIndex, Boolean> known = new HashMap<>();
    listed.forEach(b -> known.put(b.index(), b.turned()));
    Set<BoardIndex> silent = new TreeSet<>();
    forEachPlaced(
        i -> {
          if (!known.containsKey(i)) {
            silent.add(i);
          }
        });
    if (listed.stream().noneMatch(ListedBoard::turned) || silent.isEmpty()) {
      return i -> known.getOrDefault(i, false);
    }
    Map<Integer, Boolean> byRow = lines(BoardIndex::row, rows);
    Map<Integer, Boolean> byColumn = lines(BoardIndex::column, columns);
    boolean rowsRule = !byRow.isEmpty();
    if (rowsRule == !byColumn.isEmpty()) {
      complain(
          "some listed boards are turned, and whether the others are cannot be told",
          "list every board with its \"turned\"");
      return null;
    }
    Map<Integer, Boolean> rule = rowsRule ? byRow : byColumn;
    notes.add(
        (rowsRule ? "Row " : "Column ")
            + TextPieces.and(
                rule.entrySet().stream()
                    .filter(Map.Entry::getValue)
                    .map(e -> String.valueOf(e.getKey()))
                    .toList())
            + " of the panel is taken as turned by 180 degrees, as its listed boards are.");
    return i -> rule.getOrDefault(rowsRule ? i.row() : i.column(), false);
  }

  /** Turned or not by row (or column), empty when listed boards disagree or one has none. */
  private Map<Integer, Boolean> lines(Function<BoardIndex, Integer> of, int count) {
    Map<Integer, Boolean> m = new HashMap<>();
    for (ListedBoard b : listed) {
      Boolean before = m.put(of.apply(b.index()), b.turned());
      if (before != null && before != b.turned()) {
        return Map.of();
      }
    }
    return m.size() == count ? m : Map.of();
  }

  private BoardArray fit(Function<BoardIndex, Boolean> turned) {
    int n = listed.size();
    double[][] design = new double[4][n];
    double[] xs = new double[n];
    double[] ys = new double[n];
    for (int i = 0; i < n; i++) {
      ListedBoard b = listed.get(i);
      double[] row = row(b.index(), b.turned());
      for (int j = 0; j < 4; j++) {
        design[j][i] = row[j];
      }
      xs[i] = b.xMm();
      ys[i] = b.yMm();
    }
    DependentColumns ls = new DependentColumns(design);
    Set<BoardIndex> loose = loose(ls, turned);
    if (!loose.isEmpty()) {
      notFixed(loose);
      return BoardArray.single();
    }
    double[] cx = ls.solve(xs);
    double[] cy = ls.solve(ys);
    checkSteps(cx, cy);
    double residual = n > ls.rank() ? residual(cx, cy) : Double.NaN;
    return new BoardArray(columns, rows, boards(cx, cy, turned), skipped, residual);
  }

  /** A direction in which the panel has one board only has no step. */
  private double[] row(BoardIndex i, boolean isTurned) {
    return new double[] {
      1, columns > 1 ? i.column() - 1 : 0, rows > 1 ? i.row() - 1 : 0, isTurned ? 1 : 0
    };
  }

  private Set<BoardIndex> loose(DependentColumns ls, Function<BoardIndex, Boolean> turned) {
    Set<BoardIndex> loose = new TreeSet<>();
    forEachPlaced(
        i -> {
          if (!ls.fixes(row(i, turned.apply(i)))) {
            loose.add(i);
          }
        });
    return loose;
  }

  private void forEachPlaced(java.util.function.Consumer<BoardIndex> action) {
    for (int r = 1; r <= rows; r++) {
      for (int c = 1; c <= columns; c++) {
        BoardIndex i = new BoardIndex(c, r);
        if (!skipped.contains(i)) {
          action.accept(i);
        }
      }
    }
  }

  private void notFixed(Set<BoardIndex> loose) {
    String names =
        listed.stream().map(b -> b.index().toString()).sorted().collect(Collectors.joining(", "));
    boolean line = listed.size() > 2 || (listed.size() == 2 && columns > 1 && rows > 1);
    complain(
        (listed.size() == 1
                ? "the one listed board (" + names + ") does"
                : "the listed boards (" + names + ")" + (line ? " lie in one line and do" : " do"))
            + " not fix where board "
            + loose.iterator().next()
            + " is",
        "give " + wanted());
  }

  private void checkSteps(double[] cx, double[] cy) {
    double tiny = 1e-6;
    boolean noColumnStep = columns > 1 && Math.hypot(cx[1], cy[1]) < tiny;
    boolean noRowStep = rows > 1 && Math.hypot(cx[2], cy[2]) < tiny;
    if (noColumnStep || noRowStep) {
      complain(
          "the boards of neighbouring "
              + (noColumnStep ? "columns" : "rows")
              + " lie at the same place",
          "give their own x and y");
    }
    if (columns > 1 && cx[1] < -tiny) {
      notes.add("Columns of the panel run to the left; they are counted from the left as a rule.");
    }
    if (rows > 1 && cy[2] < -tiny) {
      notes.add("Rows of the panel run downwards; they are counted from below as a rule.");
    }
  }

  private double residual(double[] cx, double[] cy) {
    double s = 0;
    for (ListedBoard b : listed) {
      double[] row = row(b.index(), b.turned());
      double dx = b.xMm() - DependentColumns.at(cx, row);
      double dy = b.yMm() - DependentColumns.at(cy, row);
      s += dx * dx + dy * dy;
    }
    double rms = Math.sqrt(s / listed.size());
    if (rms > 0.05) {
      notes.add(
          String.format(
              Locale.ROOT,
              "The listed boards lie %.3f mm (root mean square) from an even tiling.",
              rms));
    }
    return rms;
  }

  private List<Board> boards(double[] cx, double[] cy, Function<BoardIndex, Boolean> turned) {
    Set<BoardIndex> given = listed.stream().map(ListedBoard::index).collect(Collectors.toSet());
    List<Board> boards = new ArrayList<>();
    forEachPlaced(
        i -> {
          boolean t = turned.apply(i);
          double[] row = row(i, t);
          double x = clean(DependentColumns.at(cx, row));
          double y = clean(DependentColumns.at(cy, row));
          Pose origin = new Pose(x, y, t ? 180 : 0);
          boards.add(new Board(i, origin, given.contains(i)));
        });
    return boards;
  }

  /** Takes off the last bits of arithmetic: a picometre is far below anything that is placed. */
  private static double clean(double mm) {
    return Math.rint(mm * 1e9) / 1e9 + 0.0;
  }
}
