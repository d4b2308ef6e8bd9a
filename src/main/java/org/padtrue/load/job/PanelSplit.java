package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Takes a placement file of a whole panel apart: every ref is there once per board.
 *
 * <p>The places of the first ref mark the boards. For every other ref a step is sought that takes
 * the marks to its own places, within 0.05 mm; for boards turned by 180 degrees (told by the
 * rotation of their parts) the step is the other way. The board at the lower left is the pattern;
 * its frame is the panel's own, unless the job gives the boards' origins.
 */
final class PanelSplit {
  private static final double SAME_PLACE_MM = 0.05;
  private static final double SAME_ANGLE_DEG = 0.5;
  private static final int NO_BOARD = -1;
  private static final Pattern MARK = Pattern.compile("fid", Pattern.CASE_INSENSITIVE);

  private final Selection selection;
  private final int boards;
  private final ProblemList problems;
  private final String column;
  private final Map<String, List<Integer>> byRef = new LinkedHashMap<>();
  private final int[] boardOf;
  private List<Pose> marks = List.of();
  private boolean[] turned = new boolean[0];

  private PanelSplit(Selection s, int boards, ProblemList problems, String column) {
    this.selection = s;
    this.boards = boards;
    this.problems = problems;
    this.column = column;
    this.boardOf = new int[s.placements().size()];
    for (int i = 0; i < s.placements().size(); i++) {
      byRef.computeIfAbsent(s.placements().get(i).ref(), r -> new ArrayList<>()).add(i);
    }
  }

  static Layout layout(
      JobText job,
      PlacementFile file,
      Selection s,
      int boards,
      ProblemList ofFile,
      ProblemList ofJob) {
    String column = file.refColumn();
    PanelSplit split = new PanelSplit(s, boards, ofFile, column);
    if (!split.assign()) {
      return new Layout(List.of(), BoardArray.single(), List.of(), true, List.of());
    }
    BoardGrid grid = BoardGrid.of(split.centres());
    if (grid == null) {
      ofFile.add(
          "every ref is there "
              + boards
              + " times, but the boards do not stand in columns and rows",
          "give the placements of one board, and the boards in the job");
      return new Layout(List.of(), BoardArray.single(), List.of(), true, List.of());
    }
    return split.build(job, file.name(), grid, ofFile, ofJob);
  }

  private Pose pose(int i) {
    return selection.placements().get(i).pose();
  }

  /** A mark of the whole panel, there once: named or described as a fiducial. */
  private boolean isPanelMark(List<Integer> rows) {
    Placement p = selection.placements().get(rows.get(0));
    return rows.size() == 1 && MARK.matcher(p.ref() + " " + p.part()).find();
  }

  /** Takes marks of the panel out; they are not placed. */
  private void takeMarks() {
    byRef
        .values()
        .removeIf(
            rows -> {
              if (!isPanelMark(rows)) {
                return false;
              }
              boardOf[rows.get(0)] = NO_BOARD;
              selection.marks().add(selection.placements().get(rows.get(0)).ref());
              return true;
            });
  }

  private boolean assign() {
    takeMarks();
    List<Integer> first = null;
    Map<Integer, List<String>> others = new TreeMap<>();
    int line = 0;
    for (Map.Entry<String, List<Integer>> e : byRef.entrySet()) {
      if (e.getValue().size() != boards) {
        others.computeIfAbsent(e.getValue().size(), n -> new ArrayList<>()).add(e.getKey());
        line = line == 0 ? selection.placements().get(e.getValue().get(0)).line() : line;
      } else if (first == null) {
        first = e.getValue();
      }
    }
    if (!others.isEmpty()) {
      complainOfCounts(others, line);
    } else if (first != null) {
      mark(first);
    }
    if (first == null || !problems.isEmpty()) {
      return false;
    }
    byRef.forEach(this::match);
    return problems.isEmpty();
  }

  /** All refs that are there more or less often than the rest, in one sentence. */
  private void complainOfCounts(Map<Integer, List<String>> others, int line) {
    List<String> parts = new ArrayList<>();
    others.forEach(
        (times, refs) ->
            parts.add(
                (refs.size() == 1 ? "the ref " : "the refs ")
                    + TextPieces.list(refs, 5)
                    + (refs.size() == 1 ? " is" : " are")
                    + " there "
                    + TextPieces.count(times, "time")));
    problems.add(
        line,
        column,
        TextPieces.and(parts) + " and others " + boards + " times",
        "give every board the same placements");
  }

  private void mark(List<Integer> rows) {
    marks = rows.stream().map(this::pose).toList();
    turned = new boolean[boards];
    for (int b = 0; b < boards; b++) {
      double turn = Angles.wrap(marks.get(b).rotationDeg() - marks.get(0).rotationDeg());
      turned[b] = Math.abs(Math.abs(turn) - 180) < SAME_ANGLE_DEG;
      if (!turned[b] && Math.abs(turn) >= SAME_ANGLE_DEG) {
        Placement p = selection.placements().get(rows.get(b));
        problems.add(
            p.line(),
            "boards of the panel are turned by " + plain(turn) + " degrees against each other",
            "give the placements of one board, and the boards in the job; only boards turned by"
                + " 180 degrees are told apart here");
      }
    }
  }

  private static String plain(double v) {
    return String.format(Locale.ROOT, "%.4g", v);
  }

  private void match(String ref, List<Integer> rows) {
    double r0 = pose(rows.get(0)).rotationDeg();
    if (fit(rows, r0) || fit(rows, Angles.wrap(r0 + 180))) {
      return;
    }
    Placement p = selection.placements().get(rows.get(0));
    problems.add(
        p.line(),
        column,
        "the "
            + boards
            + " places of ref "
            + TextPieces.quoted(ref)
            + " do not lie on the boards as those of "
            + TextPieces.quoted(selection.placements().get(0).ref())
            + " do",
        "rename it where it is another part, or give the placements of one board");
  }

  /** Tries a rotation for the boards that are not turned. */
  private boolean fit(List<Integer> rows, double straight) {
    List<Integer> free = new ArrayList<>(rows);
    double[] step = step(rows, straight);
    if (step == null) {
      return false;
    }
    int[] found = new int[boards];
    for (int b = 0; b < boards; b++) {
      double sign = turned[b] ? -1 : 1;
      Pose at =
          new Pose(
              marks.get(b).xMm() + sign * step[0],
              marks.get(b).yMm() + sign * step[1],
              Angles.wrap(straight + (turned[b] ? 180 : 0)));
      int hit = nearest(free, at);
      if (hit < 0) {
        return false;
      }
      found[b] = hit;
      free.remove((Integer) hit);
    }
    for (int b = 0; b < boards; b++) {
      boardOf[found[b]] = b;
    }
    return true;
  }

  /** From the mean of the straight boards' marks to the mean of this ref's straight places. */
  private double @Nullable [] step(List<Integer> rows, double straight) {
    double[] sum = new double[2];
    int n = 0;
    for (int i : rows) {
      Pose p = pose(i);
      if (sameAngle(p.rotationDeg(), straight)) {
        sum[0] += p.xMm();
        sum[1] += p.yMm();
        n++;
      }
    }
    for (int b = 0; b < boards; b++) {
      if (!turned[b]) {
        sum[0] -= marks.get(b).xMm();
        sum[1] -= marks.get(b).yMm();
        n--;
      }
    }
    int straightBoards = 0;
    for (boolean t : turned) {
      straightBoards += t ? 0 : 1;
    }
    return n != 0 ? null : new double[] {sum[0] / straightBoards, sum[1] / straightBoards};
  }

  private static boolean sameAngle(double a, double b) {
    return Math.abs(Angles.wrap(a - b)) < SAME_ANGLE_DEG;
  }

  private int nearest(List<Integer> free, Pose at) {
    for (int i : free) {
      Pose p = pose(i);
      if (Math.hypot(p.xMm() - at.xMm(), p.yMm() - at.yMm()) < SAME_PLACE_MM
          && sameAngle(p.rotationDeg(), at.rotationDeg())) {
        return i;
      }
    }
    return -1;
  }

  /** Middle of the box around each board's placements. */
  private double[][] centres() {
    double[][] box = new double[boards][];
    for (int i = 0; i < boardOf.length; i++) {
      if (boardOf[i] == NO_BOARD) {
        continue;
      }
      Pose p = pose(i);
      double[] b = box[boardOf[i]];
      if (b == null) {
        box[boardOf[i]] = new double[] {p.xMm(), p.yMm(), p.xMm(), p.yMm()};
      } else {
        b[0] = Math.min(b[0], p.xMm());
        b[1] = Math.min(b[1], p.yMm());
        b[2] = Math.max(b[2], p.xMm());
        b[3] = Math.max(b[3], p.yMm());
      }
    }
    return Arrays.stream(box)
        .map(b -> new double[] {(b[0] + b[2]) / 2, (b[1] + b[3]) / 2})
        .toArray(double[][]::new);
  }

  private Layout build(
      JobText job, String fileName, BoardGrid grid, ProblemList ofFile, ProblemList ofJob) {
    int pattern = grid.first();
    List<String> notes = new ArrayList<>();
    JobText.PanelText panel = job.panel();
    boolean listed = panel != null && !panel.listed().isEmpty();
    if (panel != null
        && panel.sized()
        && (panel.columns() != grid.columns() || panel.rows() != grid.rows())) {
      ofJob.add(
          panel.line(),
          String.valueOf(panel.column()),
          "the panel has "
              + panel.columns()
              + " x "
              + panel.rows()
              + " boards, but "
              + fileName
              + " holds "
              + grid.columns()
              + " x "
              + grid.rows(),
          "correct \"columns\" and \"rows\", or leave them out");
    }
    BoardArray given = listed ? Layout.tiled(job, ofJob, notes) : null;
    Pose origin = given == null ? new Pose(0, 0, 0) : originOf(given, grid.index(pattern));
    Map<Integer, Board> derived = derived(grid, pattern, origin);
    if (given != null && panel != null && ofJob.isEmpty()) {
      compare(given, derived, fileName, ofJob, panel);
    }
    List<Placement> placements = new ArrayList<>();
    Map<String, Integer> number = new HashMap<>();
    for (int i = 0; i < boardOf.length; i++) {
      if (boardOf[i] == pattern) {
        Placement p = selection.placements().get(i);
        number.put(p.ref(), placements.size());
        placements.add(moved(p, inBoard(p.pose(), origin), byRef.getOrDefault(p.ref(), List.of())));
      }
    }
    notes.add(0, note(fileName, grid, derived));
    return new Layout(placements, array(grid, derived, panel), placed(grid, number), true, notes);
  }

  private static Pose originOf(BoardArray given, BoardIndex index) {
    return given.find(index).map(Board::origin).orElse(new Pose(0, 0, 0));
  }

  private static Pose inBoard(Pose p, Pose origin) {
    double c = Angles.cosDeg(origin.rotationDeg());
    double s = Angles.sinDeg(origin.rotationDeg());
    double dx = p.xMm() - origin.xMm();
    double dy = p.yMm() - origin.yMm();
    return new Pose(
        c * dx + s * dy, -s * dx + c * dy, Angles.wrap(p.rotationDeg() - origin.rotationDeg()));
  }

  /** What differs from board to board is not said of the pattern. */
  private Placement moved(Placement p, Pose pose, List<Integer> rows) {
    boolean sameOrder =
        rows.stream()
            .allMatch(i -> Double.compare(selection.placements().get(i).order(), p.order()) == 0);
    return new Placement(
        p.ref(),
        p.part(),
        pose,
        Levels.read(f -> shared(rows, f::level)),
        sameOrder ? p.order() : Double.NaN,
        p.line());
  }

  private @Nullable String shared(
      List<Integer> rows, Function<Placement, @Nullable String> column) {
    String first = column.apply(selection.placements().get(rows.get(0)));
    return rows.stream()
            .allMatch(i -> Objects.equals(column.apply(selection.placements().get(i)), first))
        ? first
        : null;
  }

  /** Every board's own frame, given that of the pattern. */
  private Map<Integer, Board> derived(BoardGrid grid, int pattern, Pose origin) {
    Map<Integer, Board> all = new TreeMap<>();
    Pose mark = marks.get(pattern);
    for (int b = 0; b < boards; b++) {
      boolean against = turned[b] != turned[pattern];
      double sign = against ? -1 : 1;
      double x = marks.get(b).xMm() - sign * (mark.xMm() - origin.xMm());
      double y = marks.get(b).yMm() - sign * (mark.yMm() - origin.yMm());
      double turn = Angles.wrap(origin.rotationDeg() + (against ? 180 : 0));
      all.put(b, new Board(grid.index(b), new Pose(x + 0.0, y + 0.0, turn), true));
    }
    return all;
  }

  private static void compare(
      BoardArray given,
      Map<Integer, Board> derived,
      String fileName,
      ProblemList ofJob,
      JobText.PanelText panel) {
    for (Board d : derived.values()) {
      Pose g = given.find(d.index()).map(Board::origin).orElse(null);
      if (g == null) {
        continue;
      }
      double off = Math.hypot(g.xMm() - d.origin().xMm(), g.yMm() - d.origin().yMm());
      boolean otherTurn = !sameAngle(g.rotationDeg(), d.origin().rotationDeg());
      if (off > 0.1 || otherTurn) {
        ofJob.add(
            panel.line(),
            String.valueOf(panel.column()),
            String.format(
                Locale.ROOT,
                "board %s %s than %s has it",
                d.index(),
                otherTurn ? "is turned otherwise" : "lies " + plain(off) + " mm elsewhere",
                fileName),
            "correct \"boards\", or leave them out");
      }
    }
  }

  private static BoardArray array(
      BoardGrid grid, Map<Integer, Board> derived, JobText.@Nullable PanelText panel) {
    Set<BoardIndex> skipped = grid.gaps();
    List<Board> boards =
        new ArrayList<>(
            derived.values().stream().sorted((a, b) -> a.index().compareTo(b.index())).toList());
    if (panel != null) {
      skipped.addAll(panel.skipped());
      boards.removeIf(b -> panel.skipped().contains(b.index()));
    }
    return new BoardArray(grid.columns(), grid.rows(), boards, skipped, Double.NaN);
  }

  private List<PlacedRow> placed(BoardGrid grid, Map<String, Integer> number) {
    List<PlacedRow> placed = new ArrayList<>();
    for (int i = 0; i < boardOf.length; i++) {
      Integer n = number.get(selection.placements().get(i).ref());
      if (n != null && boardOf[i] != NO_BOARD) {
        placed.add(new PlacedRow(selection.rows().get(i), grid.index(boardOf[i]), n));
      }
    }
    return placed;
  }

  private String note(String file, BoardGrid grid, Map<Integer, Board> derived) {
    long turnedBoards =
        derived.values().stream().filter(b -> b.origin().rotationDeg() != 0).count();
    return file
        + " repeats every ref "
        + boards
        + " times and is read as a panel of "
        + grid.columns()
        + " x "
        + grid.rows()
        + " boards"
        + (turnedBoards > 0 ? ", " + turnedBoards + " of them turned by 180 degrees" : "")
        + "; board "
        + grid.index(grid.first())
        + " is the pattern.";
  }
}
