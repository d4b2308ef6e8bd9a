package org.padtrue.apply;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.load.corrected.CorrectedFile;
import org.padtrue.load.corrected.CorrectedFileRow;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.job.PlacedRow;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.TrimKind;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.words.DriftWords;

/**
 * The job's placement file with trims put into its coordinates, and what else there is to say.
 *
 * @param file the new file and its changed rows
 * @param levels levels of factors whose trims are in it
 * @param undecided kinds that were asked for and change nothing, and why
 * @param originMoves how far each board's origin has to move beside the file, in words
 * @param forMachine lines of the trim sheet that are not in the file
 * @param moved number of placements that were moved to make room
 */
public record CorrectedList(
    CorrectedFile file,
    List<GroupResult> levels,
    Map<TrimKind, Decision> undecided,
    List<String> originMoves,
    List<String> forMachine,
    int moved) {
  /** A kind counts as trimmed when any of its levels is. */
  private static final List<Decision> PRECEDENCE =
      List.of(Decision.TRIM, Decision.NOT_ACCEPTED, Decision.CANNOT_TELL, Decision.LEAVE);

  /** What the numbers added are. */
  public static final String SIGNS =
      "What was added is minus what was found: measured minus nominal, plus = right, up,"
          + " counter-clockwise as placed. Frame: part = turns with the part, panel = stays with"
          + " the panel.";

  /** Before the new file is used. */
  public static final String CAUTION =
      "Do not enter in the machine what is in this file now. "
          + DriftWords.CAUTIONS.get(0)
          + " Confirm on the next article.";

  public CorrectedList {
    levels = List.copyOf(levels);
    originMoves = List.copyOf(originMoves);
    forMachine = List.copyOf(forMachine);
  }

  /** Moves are carried to 0.01 um, mm, so that rounding takes nothing off a gap. */
  private static final double MOVE_STEP_MM = 1e-5;

  /**
   * Corrects the list in memory.
   *
   * @param job the job that was analysed
   * @param analysis whose trims
   * @param kinds kinds of trim to put into the file
   * @param chosen placements to correct
   * @throws org.padtrue.problem.InputException when the file cannot carry a kind
   */
  public static CorrectedList of(
      LoadedJob job, StoredAnalysis analysis, Set<TrimKind> kinds, Chosen chosen) {
    return of(job, analysis, kinds, chosen, null);
  }

  /**
   * The same with placements moved to make room.
   *
   * @param analysis null where there are moves alone
   * @param room null for none
   */
  public static CorrectedList of(
      LoadedJob job,
      @Nullable StoredAnalysis analysis,
      Set<TrimKind> kinds,
      Chosen chosen,
      @Nullable RoomMoves room) {
    Corrections c = analysis == null ? null : Corrections.of(job, analysis, kinds, chosen::has);
    Map<TrimKind, Decision> undecided = new LinkedHashMap<>();
    if (analysis != null) {
      for (TrimKind k : kinds) {
        Decision d = decision(k, analysis);
        if (d != Decision.TRIM) {
          undecided.put(k, d);
        }
      }
    }
    List<CorrectedFileRow> rows = c == null ? List.of() : c.rows();
    return new CorrectedList(
        CorrectedFile.of(job, room == null ? rows : moved(job, rows, chosen, room)),
        c == null ? List.of() : c.levels(kinds),
        undecided,
        c == null ? List.of() : c.originMoves(),
        analysis == null
            ? List.of()
            : analysis.trims().stream()
                .filter(t -> TrimKind.parse(t.kind()).filter(kinds::contains).isEmpty())
                .map(TrimLine::where)
                .toList(),
        room == null ? 0 : room.count());
  }

  private static List<CorrectedFileRow> moved(
      LoadedJob job, List<CorrectedFileRow> trims, Chosen chosen, RoomMoves room) {
    Map<Integer, CorrectedFileRow> rows = new LinkedHashMap<>();
    trims.forEach(r -> rows.put(r.row(), r));
    for (PlacedRow r : job.placed()) {
      Placement p = job.job().placements().get(r.placement());
      Optional<Pose> move = job.wholePanel() ? room.onPanel(p, r.board()) : room.of(p, r.board());
      if (move.isPresent() && chosen.has(p, r.board())) {
        CorrectedFileRow was = rows.get(r.row());
        Pose a = was == null ? new Pose(0, 0, 0) : was.add();
        Pose m = move.get();
        Pose sum =
            new Pose(a.xMm() + m.xMm(), a.yMm() + m.yMm(), a.rotationDeg() + m.rotationDeg());
        rows.put(r.row(), new CorrectedFileRow(r.row(), sum, MOVE_STEP_MM));
      }
    }
    return List.copyOf(rows.values());
  }

  /** What the analysis decided on a kind of trim; trim where any of its levels is trimmed. */
  public static Decision decision(TrimKind k, StoredAnalysis a) {
    BatchTrim b = a.batchTrim();
    return switch (k) {
      case REGISTRATION -> b.shift().decision();
      case ROTATION -> b.rotation().decision();
      case SCALE -> b.scale().decision();
      case ARRAY -> b.array().decision();
      case COMMON -> b.common().decision();
      case ROTATION_ZERO -> b.rotationZero().decision();
      default ->
          a.groups().stream()
              .filter(g -> g.factor().trim().filter(t -> t == k).isPresent())
              .map(g -> g.trim().decision())
              .min(Comparator.comparing(PRECEDENCE::indexOf))
              .orElse(Decision.TRIM);
    };
  }
}
