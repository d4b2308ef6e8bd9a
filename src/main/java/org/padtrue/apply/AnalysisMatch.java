package org.padtrue.apply;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.Board;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;
import org.padtrue.report.json.StoredAnalysis;

/**
 * Whether an analysis is one of this job and of this placement file. Trims of another file would be
 * put on other parts, and trims of a file that has them already would be put on twice.
 */
public final class AnalysisMatch {
  private static final double SAME = 1e-6;
  private static final int MOST_NAMES = 5;

  private AnalysisMatch() {}

  public static void require(StoredAnalysis a, LoadedJob job) {
    if (!a.job().equals(job.job().name())) {
      throw new InputException(
          Problem.of(
              a.file(),
              "this is the analysis of job '" + a.job() + "', not of '" + job.job().name() + "'",
              "give the analysis.json of this job, or the job of this analysis"));
    }
    Map<String, Placement> byRef = new HashMap<>();
    job.job().placements().forEach(p -> byRef.put(p.ref(), p));
    List<String> gone = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (PlacementResult p : a.placements()) {
      if (!seen.add(p.id())) {
        continue;
      }
      Optional<Board> board = job.job().array().find(p.board());
      Placement now = byRef.get(p.ref());
      if (now == null || board.isEmpty()) {
        gone.add(p.id());
      } else {
        same(p, now, now.pose().seenFrom(board.get().origin()), job);
      }
    }
    if (!gone.isEmpty()) {
      throw new InputException(
          Problem.of(
              job.placements().name(),
              gone.size()
                  + (gone.size() == 1 ? " placement" : " placements")
                  + " of the analysis "
                  + (gone.size() == 1 ? "is" : "are")
                  + " not in this job any more ("
                  + String.join(", ", gone.subList(0, Math.min(MOST_NAMES, gone.size())))
                  + (gone.size() > MOST_NAMES ? ", ..." : "")
                  + ")",
              "analyse again, or give the placement file that was analysed"));
    }
  }

  private static void same(PlacementResult then, Placement now, Pose pose, LoadedJob job) {
    boolean moved =
        Math.abs(then.nominal().xMm() - pose.xMm()) > SAME
            || Math.abs(then.nominal().yMm() - pose.yMm()) > SAME
            || Math.abs(Angles.wrap(then.nominal().rotationDeg() - pose.rotationDeg())) > SAME;
    if (moved) {
      throw differs(job, now, "stands at " + words(pose), "at " + words(then.nominal()));
    }
    if (!then.part().equals(now.part())) {
      throw differs(job, now, "is a '" + now.part() + "'", "a '" + then.part() + "'");
    }
  }

  private static InputException differs(LoadedJob job, Placement p, String here, String there) {
    return new InputException(
        Problem.at(
            job.placements().name(),
            p.line(),
            p.ref() + " " + here + " on the panel, but was " + there + " when it was analysed",
            "give the placement file that was analysed, not a corrected one, or analyse again"));
  }

  private static String words(Pose p) {
    return String.format(
        Locale.ROOT, "(%.4f, %.4f) mm, %.3f deg", p.xMm(), p.yMm(), p.rotationDeg());
  }
}
