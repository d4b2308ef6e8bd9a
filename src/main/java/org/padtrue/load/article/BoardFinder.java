package org.padtrue.load.article;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;

/**
 * Tells boards apart by position where a file of measured poses does not name them: a ref belongs
 * to the board on which its nominal place is nearest, if that is within half the distance to its
 * next nearest place.
 */
final class BoardFinder {
  private final List<Board> boards;

  private BoardFinder(Job job) {
    this.boards = job.array().boards();
  }

  /** A finder when refs repeat within a panel, or most rows do not lie on board 1/1. */
  static @Nullable BoardFinder ifNeeded(Job job, List<MeasuredRow> rows, RefIndex refs) {
    BoardFinder finder = new BoardFinder(job);
    Set<String> seen = new HashSet<>();
    int known = 0;
    int elsewhere = 0;
    boolean repeats = false;
    for (MeasuredRow r : rows) {
      int p = r.hasPosition() ? refs.find(r.ref()) : -1;
      if (p >= 0) {
        repeats |= !seen.add(r.panel() + "\n" + p);
        known++;
        int b = finder.nearest(r, job.placements().get(p));
        elsewhere += b >= 0 && !job.array().boards().get(b).index().equals(BoardIndex.ONE) ? 1 : 0;
      }
    }
    return repeats || 2 * elsewhere > known ? finder : null;
  }

  /** Number of the board, or -1 when the row is near none. */
  int nearest(MeasuredRow r, Placement p) {
    return nearest(r, p.pose());
  }

  /** The same for a pose in the board frame. */
  int nearest(MeasuredRow r, Pose own) {
    int best = -1;
    double bestDistance = Double.POSITIVE_INFINITY;
    for (int i = 0; i < boards.size(); i++) {
      Pose n = own.seenFrom(boards.get(i).origin());
      double d = Math.hypot(r.x() - n.xMm(), r.y() - n.yMm());
      if (d < bestDistance) {
        bestDistance = d;
        best = i;
      }
    }
    return best >= 0 && bestDistance < halfPitch(own, best) ? best : -1;
  }

  /** Half the distance from a place on one board to the same place on the nearest other. */
  private double halfPitch(Pose own, int board) {
    Pose at = own.seenFrom(boards.get(board).origin());
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < boards.size(); i++) {
      if (i != board) {
        Pose n = own.seenFrom(boards.get(i).origin());
        least = Math.min(least, Math.hypot(at.xMm() - n.xMm(), at.yMm() - n.yMm()));
      }
    }
    return least / 2;
  }
}
