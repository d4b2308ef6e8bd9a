package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.RefCounts;
import org.padtrue.load.text.ProblemList;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Placement;

/**
 * The placements of one board, and the boards.
 *
 * @param placements in board frame
 * @param array the boards
 * @param placed which row gives which placement
 * @param wholePanel true when the placement file holds every board
 * @param notes what a reader should know
 */
record Layout(
    List<Placement> placements,
    BoardArray array,
    List<PlacedRow> placed,
    boolean wholePanel,
    List<String> notes) {

  static Layout of(JobText job, PlacementFile file, Selection s, ProblemList problems) {
    ProblemList ofFile = new ProblemList(file.name());
    int times = file.repeated() ? timesEveryRef(s) : 1;
    Layout layout =
        times > 1
            ? PanelSplit.layout(job, file, s, times, ofFile, problems)
            : single(job, s, problems);
    if (times == 1 && file.repeated()) {
      s.complainOfRepeats(ofFile, file.refColumn());
    }
    problems.addAll(ofFile.all());
    return layout;
  }

  private static int timesEveryRef(Selection s) {
    RefCounts refs = new RefCounts();
    s.placements().forEach(p -> refs.add(p.ref()));
    return refs.timesEveryRef();
  }

  private static Layout single(JobText job, Selection s, ProblemList problems) {
    List<PlacedRow> placed = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    List<Placement> placements = new ArrayList<>();
    for (int i = 0; i < s.placements().size(); i++) {
      if (seen.add(s.placements().get(i).ref())) {
        placed.add(new PlacedRow(s.rows().get(i), BoardIndex.ONE, placements.size()));
        placements.add(s.placements().get(i));
      }
    }
    List<String> notes = new ArrayList<>();
    BoardArray array = tiled(job, problems, notes);
    return new Layout(placements, array, placed, false, notes);
  }

  /** The boards as the job's panel gives them. */
  static BoardArray tiled(JobText job, ProblemList problems, List<String> notes) {
    JobText.PanelText p = job.panel();
    if (p == null || !p.usable()) {
      return BoardArray.single();
    }
    Tiling t =
        new Tiling(p.columns(), p.rows(), p.listed(), p.skipped(), problems, p.line(), p.column());
    BoardArray array = t.array();
    notes.addAll(t.notes());
    return array;
  }
}
