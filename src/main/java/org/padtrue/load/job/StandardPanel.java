package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.placement.Axes;
import org.padtrue.load.standard.StandardBox;
import org.padtrue.load.standard.StandardData;
import org.padtrue.load.standard.StandardMark;
import org.padtrue.load.standard.StandardRow;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;

/** What a standard file gives to a job beside placements: boards, fiducials, part types. */
final class StandardPanel {
  private static final double SAME_ANGLE_DEG = 0.01;
  private static final double SAME_MM = 0.1;

  private StandardPanel() {}

  /** Fiducials of a side in its canonical frame. */
  static List<Fiducial> fiducials(StandardData data, Side side) {
    Axes axes = Axes.withDefaults();
    List<Fiducial> all = new ArrayList<>();
    for (StandardMark m : data.marks()) {
      if (m.side() == side) {
        Fiducial f = m.fiducial();
        Pose p = axes.turn(new Pose(f.xMm(), f.yMm(), 0), side);
        all.add(new Fiducial(f.name(), p.xMm(), p.yMm(), f.diameterMm(), f.scope()));
      }
    }
    return all;
  }

  /** Part types of the file, those of the job's parts file first by name. */
  static Map<String, PartType> parts(StandardData data, Map<String, PartType> explicit) {
    Map<String, PartType> all = new LinkedHashMap<>(data.parts());
    all.putAll(explicit);
    return all;
  }

  /** The file's boards; null when it has no panel or the boards cannot be told, with a problem. */
  static @Nullable BoardArray array(StandardData data, Side side, ProblemList problems) {
    if (data.boards().isEmpty()) {
      return null;
    }
    Axes axes = Axes.withDefaults();
    List<Pose> origins = new ArrayList<>();
    for (Pose p : data.boards()) {
      double off = Math.abs(p.rotationDeg());
      if (off > SAME_ANGLE_DEG && Math.abs(off - 180) > SAME_ANGLE_DEG) {
        problems.add(
            String.format(
                Locale.ROOT, "a board of the panel is turned by %.4g degrees", p.rotationDeg()),
            "only boards turned by 180 degrees can be placed in one job; give the boards in the"
                + " job's \"panel\"");
        return null;
      }
      Pose q = axes.turn(p, side);
      origins.add(new Pose(q.xMm(), q.yMm(), off > SAME_ANGLE_DEG ? 180 : 0));
    }
    Pose middle = axes.turn(middle(data), side);
    double[][] centres =
        origins.stream()
            .map(o -> new Pose(middle.xMm(), middle.yMm(), 0).seenFrom(o))
            .map(c -> new double[] {c.xMm(), c.yMm()})
            .toArray(double[][]::new);
    BoardGrid grid = BoardGrid.of(centres);
    if (grid == null) {
      problems.add(
          "the boards of the panel do not stand in columns and rows",
          "give the boards in the job's \"panel\"");
      return null;
    }
    List<Board> boards = new ArrayList<>();
    for (int i = 0; i < origins.size(); i++) {
      boards.add(new Board(grid.index(i), origins.get(i), true));
    }
    boards.sort((a, b) -> a.index().compareTo(b.index()));
    return new BoardArray(grid.columns(), grid.rows(), boards, grid.gaps(), Double.NaN);
  }

  private static Pose middle(StandardData data) {
    StandardBox box = data.outline();
    if (box == null) {
      box = new StandardBox();
      for (StandardRow r : data.rows()) {
        box.add(r.pose().xMm(), r.pose().yMm());
      }
    }
    return data.rows().isEmpty() ? new Pose(0, 0, 0) : new Pose(box.midX(), box.midY(), 0);
  }

  /** Where the job's boards and the file's differ, in a sentence; empty when they agree. */
  static String difference(String file, BoardArray given, BoardArray ofFile) {
    if (given.columns() != ofFile.columns() || given.rows() != ofFile.rows()) {
      return String.format(
          Locale.ROOT,
          "%s has a panel of %d x %d boards, the job one of %d x %d; the job's is used.",
          file,
          ofFile.columns(),
          ofFile.rows(),
          given.columns(),
          given.rows());
    }
    List<String> moved = new ArrayList<>();
    for (Board b : given.boards()) {
      Board other = ofFile.find(b.index()).orElse(null);
      if (other != null
          && Math.hypot(
                  b.origin().xMm() - other.origin().xMm(), b.origin().yMm() - other.origin().yMm())
              > SAME_MM) {
        moved.add(b.index().toString());
      }
    }
    return moved.isEmpty()
        ? ""
        : file
            + " has boards elsewhere than the job ("
            + TextPieces.list(moved, 4)
            + "); the job's are used.";
  }
}
