package org.padtrue.apply;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.stream.Collectors;
import org.padtrue.firstarticle.decide.EnteredTrims;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.load.corrected.CorrectedFileRow;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.job.PlacedRow;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.TrimKind;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;
import org.padtrue.report.json.StoredAnalysis;

/**
 * What the trims of an analysis add to each row of the job's placement file.
 *
 * <p>A file of the whole panel gives every copy its own correction. A file of one board that stands
 * for several can only carry what is the same on all of them: part-frame trims, a shift where all
 * boards lie alike, and rotation and scale about the board's own origin; the origins then have to
 * move too, which is the machine's part, and are listed.
 */
public final class Corrections {
  private static final double SAME_MM = 1e-9;

  private final LoadedJob job;
  private final StoredAnalysis analysis;
  private final List<EnteredTrims> fields = new ArrayList<>();
  private final List<CorrectedFileRow> rows = new ArrayList<>();

  private Corrections(LoadedJob job, StoredAnalysis analysis, Set<TrimKind> kinds) {
    this.job = job;
    this.analysis = analysis;
    fields.add(EnteredTrims.of(analysis.batchTrim(), analysis.groups(), job.job().array(), kinds));
    if (kinds.contains(TrimKind.PLACEMENT)) {
      CoordinateTrims.Offered o = CoordinateTrims.of(analysis, job.job());
      fields.add(
          EnteredTrims.of(o.batch(), o.groups(), job.job().array(), EnumSet.allOf(TrimKind.class)));
    }
  }

  /**
   * Works the corrections out.
   *
   * @param kinds kinds of trim to put into the file
   * @param wanted placements to correct, by ref and board
   * @throws InputException when a kind was asked for that this file cannot carry
   */
  public static Corrections of(
      LoadedJob job,
      StoredAnalysis analysis,
      Set<TrimKind> kinds,
      BiPredicate<Placement, BoardIndex> wanted) {
    Corrections c = new Corrections(job, analysis, kinds);
    c.refuse(kinds);
    for (PlacedRow r : job.placed()) {
      Placement p = job.job().placements().get(r.placement());
      if (wanted.test(p, r.board())) {
        c.rows.add(new CorrectedFileRow(r.row(), job.wholePanel() ? c.copy(r) : c.onBoard(p)));
      }
    }
    return c;
  }

  /** What to add to which row. */
  public List<CorrectedFileRow> rows() {
    return rows;
  }

  /** How far each board's origin has to move beside the file, where it has to, in words. */
  public List<String> originMoves() {
    List<String> moves = new ArrayList<>();
    if (job.wholePanel() || boards().size() < 2) {
      return moves;
    }
    for (Board b : boards()) {
      Xy m = originMove(b);
      if (Math.hypot(m.x(), m.y()) > SAME_MM) {
        moves.add(String.format(Locale.ROOT, "board %s x %+.4f, y %+.4f", b.index(), m.x(), m.y()));
      }
    }
    return moves;
  }

  private List<Board> boards() {
    return job.job().array().boards();
  }

  private Xy originMove(Board b) {
    double x = 0;
    double y = 0;
    for (EnteredTrims t : fields) {
      Xy m = t.turnAndStretch(b.origin().xMm(), b.origin().yMm());
      x += m.x();
      y += m.y();
    }
    return new Xy(x, y);
  }

  private static Pose sum(List<EnteredTrims> fields, Pose nominal, BoardIndex board, Keys k) {
    double x = 0;
    double y = 0;
    double r = 0;
    for (EnteredTrims t : fields) {
      Xyr v = t.at(nominal, board, k.part(), k.levels());
      x += v.x();
      y += v.y();
      r += v.rotation();
    }
    return new Pose(x, y, r);
  }

  /** The levels that a placement belongs to. */
  private record Keys(String part, Levels levels) {
    static Keys of(Placement p) {
      return new Keys(p.part(), p.levels());
    }

    static Keys of(PlacementRow r) {
      return new Keys(r.part(), r.levels());
    }
  }

  /** A row of a whole-panel file: its own place on the panel. */
  private Pose copy(PlacedRow r) {
    PlacementRow row = job.placements().rows().get(r.row());
    Pose panel = job.placements().axes().turn(row.filePose(), job.job().side());
    return sum(fields, panel, r.board(), Keys.of(row));
  }

  private Pose onBoard(Placement p) {
    return onBoard(fields, p, boards().get(0));
  }

  /** In the board's frame, without what moves the board as a whole where there are several. */
  private Pose onBoard(List<EnteredTrims> some, Placement p, Board b) {
    Pose add = sum(some, p.pose().seenFrom(b.origin()), b.index(), Keys.of(p));
    double x = add.xMm();
    double y = add.yMm();
    if (boards().size() > 1) {
      for (EnteredTrims t : some) {
        Xy m = t.turnAndStretch(b.origin().xMm(), b.origin().yMm());
        x -= m.x();
        y -= m.y();
      }
    }
    double c = Angles.cosDeg(b.origin().rotationDeg());
    double s = Angles.sinDeg(b.origin().rotationDeg());
    return new Pose(c * x + s * y, -s * x + c * y, add.rotationDeg());
  }

  private void refuse(Set<TrimKind> kinds) {
    List<Problem> problems = new ArrayList<>();
    for (Factor f : Factor.listedOnes()) {
      TrimKind k = f.trim().orElse(null);
      if (k != null && kinds.contains(k) && trimmed(f) && !named(f)) {
        problems.add(
            refusal(
                "the file names no " + f.key() + ", so " + k.key() + " trims have no place in it",
                "enter them in the machine and leave '" + k.key() + "' out of --trims"));
      }
    }
    if (!job.wholePanel() && boards().size() > 1) {
      for (TrimKind k : kinds) {
        String why = k == TrimKind.PLACEMENT ? offeredDiffers() : differs(k);
        if (!why.isEmpty()) {
          problems.add(
              refusal(
                  why + ", and this file gives one board for all " + boards().size(),
                  "enter it in the machine"
                      + (k == TrimKind.ARRAY ? ": " + newOrigins() : "")
                      + " and leave '"
                      + k.key()
                      + "' out of --trims, or give a file of the whole panel"));
        }
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  private Problem refusal(String found, String mend) {
    return Problem.of(job.placements().name(), found, mend);
  }

  private boolean trimmed(Factor f) {
    return analysis.groups().stream()
        .anyMatch(g -> g.factor() == f && g.trim().decision() == Decision.TRIM);
  }

  private boolean named(Factor f) {
    return job.job().placements().stream().anyMatch(p -> f.level(p) != null);
  }

  /** Why a kind differs from board to board; empty when it does not. */
  private String differs(TrimKind k) {
    EnteredTrims only =
        EnteredTrims.of(analysis.batchTrim(), analysis.groups(), job.job().array(), Set.of(k));
    if (!differs(only)) {
      return "";
    }
    return k == TrimKind.ARRAY
        ? "array trims move whole boards against each other"
        : "boards lie turned against each other, so a " + k.key() + " trim is not the same on each";
  }

  private String offeredDiffers() {
    return differs(fields.get(fields.size() - 1))
        ? "a correction that the machine does not accept is not the same on every board"
        : "";
  }

  private boolean differs(EnteredTrims t) {
    for (Placement p : job.job().placements()) {
      Pose first = onBoard(List.of(t), p, boards().get(0));
      for (Board b : boards()) {
        Pose other = onBoard(List.of(t), p, b);
        if (Math.hypot(first.xMm() - other.xMm(), first.yMm() - other.yMm()) > SAME_MM) {
          return true;
        }
      }
    }
    return false;
  }

  private String newOrigins() {
    return analysis.batchTrim().array().boards().stream()
        .map(Corrections::origin)
        .collect(Collectors.joining(", "));
  }

  private static String origin(BatchTrim.BoardOrigin o) {
    return String.format(Locale.ROOT, "board %s at (%.3f, %.3f)", o.board(), o.x(), o.y());
  }

  /** Levels of the factors that are trimmed and put into the file, with their placements. */
  public List<GroupResult> levels(Set<TrimKind> kinds) {
    return analysis.groups().stream()
        .filter(
            g ->
                g.trim().decision() == Decision.TRIM
                    && g.factor().trim().filter(kinds::contains).isPresent())
        .toList();
  }
}
