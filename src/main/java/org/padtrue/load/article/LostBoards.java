package org.padtrue.load.article;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.padtrue.panel.Board;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.panel.mistake.MistakeWords;
import org.padtrue.panel.mistake.Reading;
import org.padtrue.panel.mistake.Reading.Kind;
import org.padtrue.problem.Question;
import org.padtrue.quantity.LengthUnit;

/**
 * Measured poses that do not say on which board they are, and lie on none: under which usual
 * mistake they would.
 *
 * <p>Every row votes for the shifts that would bring it onto one of the boards; a reading holds
 * when six rows of ten agree on a shift to 2 mm.
 */
final class LostBoards {
  private static final int LEAST = 4;
  private static final int MOST_ROWS = 300;
  private static final double CELL_MM = 2;
  private static final double NEAR_MM = 5;
  private static final double ENOUGH = 0.6;

  private final Job job;
  private final RefIndex refs;
  private final List<MeasuredRow> rows = new ArrayList<>();
  private final LengthUnit unit;
  private final MistakeWords words;
  private boolean repeats;

  LostBoards(String file, Job job, List<MeasuredRow> all, RefIndex refs, LengthUnit unit) {
    this.job = job;
    this.refs = refs;
    this.unit = unit;
    words = new MistakeWords(file, true, unit, job.side());
    Set<String> seen = new HashSet<>();
    int step = Math.max(1, all.size() / MOST_ROWS);
    for (int i = 0; i < all.size(); i++) {
      MeasuredRow r = all.get(i);
      if (r.hasPosition() && refs.find(r.ref()) >= 0) {
        repeats |= !seen.add(r.panel() + "\n" + r.ref());
        if (i % step == 0) {
          rows.add(r);
        }
      }
    }
  }

  /** What is asked; nothing where the rows lie on boards as they are. */
  Optional<Question> question() {
    if (rows.size() < LEAST || share(Reading.of(Kind.AS_GIVEN), false) >= ENOUGH) {
      return repeats && rows.size() >= LEAST && onFirst() >= 1 - 1.0 / rows.size()
          ? Optional.of(words.reading(Reading.of(Kind.BOARD_FRAME)))
          : Optional.empty();
    }
    Question best = null;
    double most = ENOUGH;
    for (Reading r : readings()) {
      boolean turned = r.kind() != Kind.UNIT && r.kind() != Kind.SWAPPED;
      double s = share(r, turned);
      if (s >= most + (best == null ? 0 : 0.05)) {
        most = s;
        best = words.reading(r);
      }
    }
    if (best != null) {
      return Optional.of(best);
    }
    return share(Reading.of(Kind.AS_GIVEN), true) >= ENOUGH
        ? Optional.of(words.otherOrigin())
        : Optional.of(words.otherBoard());
  }

  private List<Reading> readings() {
    List<Reading> all = new ArrayList<>();
    for (LengthUnit u : LengthUnit.values()) {
      if (u != unit) {
        all.add(new Reading(Kind.UNIT, u));
      }
    }
    for (Kind k :
        List.of(
            Kind.SWAPPED,
            Kind.TURNED_180,
            Kind.TURNED_90,
            Kind.TURNED_270,
            Kind.MIRRORED_X,
            Kind.MIRRORED_Y,
            Kind.MIRRORED_TURNED)) {
      all.add(Reading.of(k));
    }
    return all;
  }

  /** Share of the rows that lie on the first board, all of them, as its own frame has them. */
  private double onFirst() {
    int on = 0;
    for (MeasuredRow r : rows) {
      Pose own = job.placements().get(refs.find(r.ref())).pose();
      on += Math.hypot(r.x() - own.xMm(), r.y() - own.yMm()) < NEAR_MM ? 1 : 0;
    }
    return (double) on / rows.size();
  }

  private double[] read(MeasuredRow r, Reading reading) {
    double f = reading.kind() == Kind.UNIT ? reading.unit().mm() / unit.mm() : 1;
    double x = f * r.x();
    double y = f * r.y();
    return switch (reading.kind()) {
      case SWAPPED -> new double[] {y, x};
      case TURNED_90 -> new double[] {y, -x};
      case TURNED_180 -> new double[] {-x, -y};
      case TURNED_270 -> new double[] {-y, x};
      case MIRRORED_X -> new double[] {-x, y};
      case MIRRORED_Y -> new double[] {x, -y};
      case MIRRORED_TURNED -> new double[] {-y, -x};
      default -> new double[] {x, y};
    };
  }

  /** Share of the rows that a reading brings onto boards, all by one shift or by none. */
  private double share(Reading reading, boolean anyShift) {
    Map<Long, Integer> votes = new HashMap<>();
    int most = 0;
    for (MeasuredRow r : rows) {
      double[] m = read(r, reading);
      Pose own = job.placements().get(refs.find(r.ref())).pose();
      Set<Long> cells = new HashSet<>();
      for (Board b : job.array().boards()) {
        Pose n = own.seenFrom(b.origin());
        double dx = n.xMm() - m[0];
        double dy = n.yMm() - m[1];
        if (!anyShift) {
          if (Math.hypot(dx, dy) < NEAR_MM) {
            cells.add(0L);
          }
          continue;
        }
        // A shift on the rim of a cell counts in its neighbour too.
        long ix = (long) Math.floor(dx / CELL_MM);
        long iy = (long) Math.floor(dy / CELL_MM);
        for (long i = ix - 1; i <= ix; i++) {
          for (long j = iy - 1; j <= iy; j++) {
            cells.add(i * 1_000_003 + j);
          }
        }
      }
      for (long c : cells) {
        most = Math.max(most, votes.merge(c, 1, Integer::sum));
      }
    }
    return (double) most / rows.size();
  }
}
