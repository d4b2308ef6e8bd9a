package org.padtrue.load.article;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.MeasuredFault;
import org.padtrue.panel.article.MeasuredFiducial;
import org.padtrue.problem.AsIs;
import org.padtrue.problem.QuestionException;
import org.padtrue.quantity.LengthUnit;

/** Matches the rows of an article to the placements, boards and fiducials of a job. */
final class ArticleMatch {
  private final Job job;
  private final String file;
  private final AsIs asIs;
  private final LengthUnit unit;
  private final Map<String, PlacementRow> rowsByBoard;
  private final List<MeasuredRow> rows;
  private final Header header;
  private final ProblemList problems;
  private final List<String> notes;
  private final RefIndex refs;
  private final RefsNotPlaced notPlaced;
  private final Map<String, Fiducial> fiducialsByName = new HashMap<>();
  private final Map<BoardIndex, Integer> boardNumber = new HashMap<>();
  private final Map<String, int[]> seen = new HashMap<>();
  private final Map<String, Integer> seenFiducials = new HashMap<>();
  private final List<Measured> measured = new ArrayList<>();
  private final List<MeasuredFiducial> fiducials = new ArrayList<>();
  private final List<MeasuredFault> faults = new ArrayList<>();
  private final ArticleMode mode;
  private @Nullable BoardFinder finder;
  private int notMeasured;

  ArticleMatch(
      Job job,
      Map<String, PlacementRow> rowsByBoard,
      List<MeasuredRow> rows,
      Header header,
      ProblemList problems,
      List<String> notes,
      String file,
      LengthUnit unit,
      AsIs asIs) {
    this.unit = unit;
    this.job = job;
    this.file = file;
    this.asIs = asIs;
    this.rowsByBoard = rowsByBoard;
    this.rows = rows;
    this.header = header;
    this.problems = problems;
    this.notes = notes;
    this.refs = new RefIndex(job);
    this.notPlaced = new RefsNotPlaced(refs);
    job.fiducials().forEach(f -> fiducialsByName.put(f.name(), f));
    List<Board> boards = job.array().boards();
    for (int i = 0; i < boards.size(); i++) {
      boardNumber.put(boards.get(i).index(), i);
    }
    this.mode = ArticleMode.of(header);
  }

  List<Measured> measured() {
    return measured;
  }

  List<MeasuredFiducial> fiducials() {
    return fiducials;
  }

  boolean poses() {
    return mode.poses();
  }

  /** Rows of deviations that have only the nominal position: listed, not measured. */
  int notMeasured() {
    return notMeasured;
  }

  List<MeasuredFault> faults() {
    return faults;
  }

  void run() {
    ArticleQuestions questions =
        new ArticleQuestions(file, job, asIs, rows, header, refs, fiducialsByName.keySet());
    questions.ask(mode.poses());
    if (!questions.leftOut().isEmpty()) {
      notes.add(
          file
              + ": "
              + TextPieces.count(questions.leftOut().size(), "ref")
              + " that the placement file does not have left out, as was said.");
    }
    boolean silent = !header.has(Field.COLUMN) && !header.has(Field.ROW);
    if (silent && mode.poses() && job.array().boards().size() > 1) {
      new LostBoards(file, job, rows, refs, unit)
          .question()
          .filter(q -> !asIs.answers(q.key()))
          .ifPresent(
              q -> {
                throw new QuestionException(q);
              });
      finder = BoardFinder.ifNeeded(job, rows, refs);
      if (finder != null) {
        notes.add(
            "The article does not name boards; each row was taken for the board on which its ref"
                + " is nearest.");
      }
    }
    mode.settle(job, rows, refs, header, problems, file, asIs);
    for (MeasuredRow r : rows) {
      if (questions.leftOut().contains(r.ref())) {
        continue;
      }
      if (r.fault() == null && mode.notMeasured(r)) {
        notMeasured++;
        continue;
      }
      Fiducial f = fiducialsByName.get(r.ref());
      if (f != null) {
        fiducial(r, f);
      } else {
        placement(r);
      }
    }
    notPlaced.tell(problems, header.name(Field.REF));
  }

  private void placement(MeasuredRow r) {
    int p = refs.find(r.ref());
    if (p < 0) {
      notPlaced.add(r);
      return;
    }
    Placement placement = job.placements().get(p);
    int b = board(r, placement);
    if (b < 0 || repeated(r, b, p)) {
      return;
    }
    Board board = job.array().boards().get(b);
    Pose nominal = placement.pose().seenFrom(board.origin());
    double dx = mode.poses() ? r.x() - nominal.xMm() : r.dx();
    double dy = mode.poses() ? r.y() - nominal.yMm() : r.dy();
    double turn = mode.dRotation(r, nominal.rotationDeg());
    if (r.fault() != null) {
      faults.add(
          new MeasuredFault(
              r.panel(),
              board.index(),
              placement,
              nominal,
              r.fault(),
              r.said(),
              dx,
              dy,
              turn,
              r.line()));
      return;
    }
    PlacementRow own = rowsByBoard.isEmpty() ? null : rowsByBoard.get(board.index() + "/" + p);
    Levels levels = own == null ? placement.levels() : own.levels();
    double order = own == null ? placement.order() : own.order();
    measured.add(
        new Measured(
            r.panel(),
            board.index(),
            placement,
            nominal,
            dx,
            dy,
            turn,
            r.u(),
            r.uRotation(),
            r.levels().or(levels),
            Double.isNaN(r.order()) ? order : r.order(),
            r.note(),
            r.line()));
  }

  private void complain(MeasuredRow r, Field f, String found, String mend) {
    problems.add(r.line(), header.name(f), found, mend);
  }

  /** Number of the row's board, or -1 with a problem. */
  private int board(MeasuredRow r, @Nullable Placement placement) {
    BoardIndex index = new BoardIndex(Math.max(1, r.column()), Math.max(1, r.row()));
    if (finder != null && placement != null && r.hasPosition()) {
      int near = finder.nearest(r, placement);
      if (near < 0) {
        complain(
            r,
            Field.REF,
            TextPieces.quoted(r.ref()) + " lies on no board: none has it within half a pitch",
            "name the board in columns column and row");
      }
      return near;
    }
    Integer b = boardNumber.get(index);
    if (b != null) {
      return b;
    }
    boolean skipped = job.array().skipped().contains(index);
    Field at =
        index.column() > job.array().columns() || !header.has(Field.ROW) ? Field.COLUMN : Field.ROW;
    complain(
        r,
        skipped && !header.has(Field.COLUMN) && !header.has(Field.ROW) ? Field.REF : at,
        skipped
            ? "board " + index + " is skipped in the job"
            : "board "
                + index
                + " is outside the panel of "
                + job.array().columns()
                + " x "
                + job.array().rows()
                + " boards",
        skipped
            ? "correct column and row, or take it out of \"skip\""
            : "count columns from the left and rows from below, from 1");
    return -1;
  }

  private boolean repeated(MeasuredRow r, int board, int placement) {
    int n = job.placements().size();
    int[] lines = seen.computeIfAbsent(r.panel(), k -> new int[n * job.array().boards().size()]);
    int at = board * n + placement;
    if (lines[at] == 0) {
      lines[at] = r.line();
      return false;
    }
    boolean named = header.has(Field.COLUMN) || header.has(Field.ROW);
    complain(
        r,
        Field.REF,
        TextPieces.quoted(r.ref())
            + " on board "
            + job.array().boards().get(board).index()
            + " of panel "
            + r.panel()
            + " is measured already in line "
            + lines[at],
        named || job.array().boards().size() == 1
            ? "name panels apart in a column panel, or remove one of the rows"
            : "name boards in columns column and row, or remove one of the rows");
    return true;
  }

  private void fiducial(MeasuredRow r, Fiducial f) {
    BoardIndex index = BoardIndex.ONE;
    Pose nominal = new Pose(f.xMm(), f.yMm(), 0);
    if (f.scope() == Fiducial.Scope.BOARD) {
      int b = finder == null ? board(r, null) : finder.nearest(r, nominal);
      if (b < 0) {
        return;
      }
      Board board = job.array().boards().get(b);
      index = board.index();
      nominal = nominal.seenFrom(board.origin());
    }
    Integer before =
        seenFiducials.putIfAbsent(r.panel() + "\n" + index + "\n" + f.name(), r.line());
    if (before != null) {
      complain(
          r,
          Field.REF,
          "fiducial "
              + TextPieces.quoted(f.name())
              + " of panel "
              + r.panel()
              + " is measured already in line "
              + before,
          "remove one of the rows");
      return;
    }
    fiducials.add(
        new MeasuredFiducial(
            r.panel(),
            index,
            f,
            nominal.xMm(),
            nominal.yMm(),
            mode.poses() ? r.x() - nominal.xMm() : r.dx(),
            mode.poses() ? r.y() - nominal.yMm() : r.dy(),
            r.u()));
  }
}
