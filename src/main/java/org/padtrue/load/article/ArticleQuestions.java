package org.padtrue.load.article;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.Header;
import org.padtrue.load.table.StatedUnit;
import org.padtrue.load.table.Table;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.problem.AsIs;
import org.padtrue.problem.Question;
import org.padtrue.problem.QuestionException;
import org.padtrue.quantity.LengthUnit;

/**
 * What is asked about an article as a whole before its rows are matched, where the rows alone would
 * give a problem each, or none.
 */
final class ArticleQuestions {
  private static final int FEW = 5;

  private final String file;
  private final Job job;
  private final AsIs asIs;
  private final List<MeasuredRow> rows;
  private final Header header;
  private final RefIndex refs;
  private final Set<String> fiducials;
  private final Set<String> leftOut = new LinkedHashSet<>();

  ArticleQuestions(
      String file,
      Job job,
      AsIs asIs,
      List<MeasuredRow> rows,
      Header header,
      RefIndex refs,
      Set<String> fiducials) {
    this.file = file;
    this.job = job;
    this.asIs = asIs;
    this.rows = rows;
    this.header = header;
    this.refs = refs;
    this.fiducials = fiducials;
  }

  /** Refs that are left out because somebody said that they may be there. */
  Set<String> leftOut() {
    return leftOut;
  }

  /** Asks; silent when there is nothing to ask. */
  void ask(boolean poses) {
    refs(poses);
    parts();
    boardNumbers();
    if (!poses) {
      boardsNotNamed();
    }
  }

  private void question(String key, String found, String mend) {
    if (!asIs.answers(key)) {
      throw new QuestionException(new Question(key, file, found, mend));
    }
  }

  /** Header and banner that state two units. */
  static void units(String file, Table table, AsIs asIs) {
    StatedUnit stated = table.statedUnit().orElse(null);
    if (stated == null || asIs.answers("statedUnits")) {
      return;
    }
    Header h = table.header();
    for (Field f : List.of(Field.X, Field.Y, Field.DX, Field.DY)) {
      LengthUnit u = h.has(f) ? h.unit(f).orElse(stated.unit()) : stated.unit();
      if (u != stated.unit()) {
        throw new QuestionException(
            new Question(
                "statedUnits",
                file,
                "line "
                    + stated.line()
                    + " states the unit "
                    + stated.unit().label()
                    + " and the header states "
                    + u.label()
                    + " for "
                    + h.name(f),
                "leave only the one that holds"));
      }
    }
  }

  private void refs(boolean poses) {
    UnlistedRefs unlisted = new UnlistedRefs(file, job, rows, refs, fiducials);
    Set<String> unknown = unlisted.refs();
    if (unknown.isEmpty()) {
      return;
    }
    MangledRefs mangled = new MangledRefs(job);
    List<String> found = new ArrayList<>();
    for (String u : unknown) {
      mangled.original(u).ifPresent(o -> found.add(TextPieces.quoted(u) + " looks like " + o));
    }
    if (!found.isEmpty()) {
      String first =
          unknown.stream().filter(u -> mangled.original(u).isPresent()).findFirst().get();
      question(
          "mangledRefs",
          "the ref in line "
              + unlisted.line(first)
              + ", "
              + found.get(0)
              + " changed by a spreadsheet"
              + (found.size() > 1 ? ", and " + (found.size() - 1) + " more" : ""),
          "make the column of refs a text column and export it again");
      leftOut.addAll(unknown);
    }
    if (job.placements().isEmpty() && job.unplaced().isEmpty()) {
      leftOut.addAll(unknown); // an empty list is said to be empty, where it is to be analysed
      return;
    }
    Optional<Question> q = unlisted.question(poses);
    if (q.isPresent()) {
      question(q.get().key(), q.get().found(), q.get().mend());
      leftOut.addAll(unknown);
    }
  }

  /** Part types that the article names and the job does not have there. */
  private void parts() {
    int same = 0;
    int other = 0;
    String example = "";
    for (MeasuredRow r : rows) {
      int p = r.part() == null ? -1 : refs.find(r.ref());
      if (p >= 0) {
        Placement placement = job.placements().get(p);
        boolean is = placement.part().equalsIgnoreCase(r.part());
        same += is ? 1 : 0;
        other += is ? 0 : 1;
        if (!is && example.isEmpty()) {
          example =
              TextPieces.quoted(r.ref())
                  + " is "
                  + TextPieces.quoted(String.valueOf(r.part()))
                  + " in line "
                  + r.line()
                  + " and "
                  + TextPieces.quoted(placement.part())
                  + " in the job";
        }
      }
    }
    // Where no name is the same, the column holds something else than part types.
    if (other >= FEW && other > same && same > 0) {
      question(
          "otherBoard",
          other
              + " of "
              + (other + same)
              + " placements have another part type than the job gives them ("
              + example
              + "), so this looks like the article of another board",
          "give the article of this board, or its job");
    }
  }

  /** Boards that are there only with column and row swapped. */
  private void boardNumbers() {
    BoardArray a = job.array();
    boolean outside = false;
    boolean swappedInside = header.has(Field.COLUMN) && header.has(Field.ROW);
    for (MeasuredRow r : rows) {
      outside |= !inside(a, r.column(), r.row());
      swappedInside &= inside(a, r.row(), r.column());
    }
    if (outside && swappedInside) {
      question(
          "boardNumbers",
          "column and row of the boards look swapped: the panel has "
              + a.columns()
              + " columns and "
              + a.rows()
              + " rows",
          "count columns from the left and rows from below, from 1");
    }
  }

  private static boolean inside(BoardArray a, int column, int row) {
    return new BoardIndex(Math.max(1, column), Math.max(1, row)).column() <= a.columns()
        && Math.max(1, row) <= a.rows();
  }

  private void boardsNotNamed() {
    BoardArray a = job.array();
    boolean column = a.columns() > 1 && !header.has(Field.COLUMN);
    boolean row = a.rows() > 1 && !header.has(Field.ROW);
    if (a.boards().size() > 1 && (column || row)) {
      question(
          "boardsNotNamed",
          "deviations do not say on which of the "
              + a.boards().size()
              + " boards they were measured",
          "add "
              + (column && row
                  ? "the columns 'column' and 'row'"
                  : column ? "the column 'column'" : "the column 'row'")
              + " (with --as-is every row is taken for the first)");
    }
  }
}
