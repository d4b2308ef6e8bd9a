package org.padtrue.load.article;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.problem.Question;

/**
 * Refs of an article that the placement list does not have: one question about all of them where
 * they are many, with what it looks like.
 *
 * <p>Where the refs that the list has lie where it says, the list is short of some; else the
 * article may as well be of another board.
 */
final class UnlistedRefs {
  private static final int FEW = 5;
  private static final int ALL_SHOWN = 8;
  private static final int SHOWN = 3;

  /** An honest panel, turned by a degree, is off by less; a like place by chance is rare. */
  private static final double NEAR_MM = 5;

  private static final int LEAST_NEAR = 3;
  private static final double MOST_OF = 0.75;

  private final String file;
  private final Job job;
  private final RefIndex refs;
  private final List<MeasuredRow> rows;
  private final Set<String> unknown = new LinkedHashSet<>();
  private final Map<String, Integer> line = new LinkedHashMap<>();
  private final Set<String> known = new HashSet<>();

  UnlistedRefs(String file, Job job, List<MeasuredRow> rows, RefIndex refs, Set<String> fiducials) {
    this.file = file;
    this.job = job;
    this.rows = rows;
    this.refs = refs;
    for (MeasuredRow r : rows) {
      boolean is =
          fiducials.contains(r.ref())
              || refs.find(r.ref()) >= 0
              || refs.unplaced(r.ref()).isPresent();
      (is ? known : unknown).add(r.ref());
      line.putIfAbsent(r.ref(), r.line());
    }
  }

  /** The refs, in the order of the article. */
  Set<String> refs() {
    return unknown;
  }

  /** The first line of a ref. */
  int line(String ref) {
    return line.getOrDefault(ref, 0);
  }

  /** What is asked where they are many. */
  Optional<Question> question(boolean poses) {
    if (unknown.size() < FEW) {
      return Optional.empty();
    }
    int n = unknown.size();
    String found =
        n
            + " of "
            + (n + known.size())
            + " refs ("
            + TextPieces.list(unknown, n <= ALL_SHOWN ? n : SHOWN)
            + ", first in line "
            + line(unknown.iterator().next())
            + ") are not in the placement list, which has "
            + TextPieces.count(job.placements().size(), "placement");
    if (poses && othersLieThere()) {
      return Optional.of(
          new Question(
              "unlistedRefs",
              file,
              found
                  + "; the others lie where it says, so the list looks cut short or of another"
                  + " variant of this board",
              "give the whole placement list"));
    }
    return Optional.of(
        n > known.size()
            ? new Question(
                "otherBoard",
                file,
                found
                    + ", so this looks like the article of another board, or the list is cut short",
                "give the article of this board, or its job with the whole list")
            : new Question(
                "unlistedRefs",
                file,
                found + ", so the list looks cut short or of another variant of this board",
                "give the whole placement list, or correct the refs"));
  }

  /** Whether the refs that are listed lie where the list says. */
  private boolean othersLieThere() {
    List<Board> boards = job.array().boards();
    int near = 0;
    int all = 0;
    for (MeasuredRow r : rows) {
      int p = refs.find(r.ref());
      if (p < 0 || !r.hasPosition()) {
        continue;
      }
      all++;
      Pose own = job.placements().get(p).pose();
      near += boards.stream().anyMatch(b -> may(r, b) && distance(r, own, b) < NEAR_MM) ? 1 : 0;
    }
    return near >= LEAST_NEAR && near >= MOST_OF * all;
  }

  /** Whether a row may be on a board: the one that it names, or any. */
  private static boolean may(MeasuredRow r, Board b) {
    boolean any = r.column() == 0 && r.row() == 0;
    return any || b.index().equals(new BoardIndex(Math.max(1, r.column()), Math.max(1, r.row())));
  }

  private static double distance(MeasuredRow r, Pose own, Board b) {
    Pose n = own.seenFrom(b.origin());
    return Math.hypot(r.x() - n.xMm(), r.y() - n.yMm());
  }
}
