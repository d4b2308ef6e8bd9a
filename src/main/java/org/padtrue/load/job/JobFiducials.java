package org.padtrue.load.job;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.load.placement.PlacementFile;
import org.padtrue.load.placement.PlacementRow;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Pose;

/**
 * The fiducials of a job in its own frame. A job gives x and y in the panel frame, or along the
 * placement file's axes ({@code "axes": "file"}), or neither: then the row of that name says where
 * it is, on every board.
 */
final class JobFiducials {
  private final PlacementFile file;
  private final JobText job;
  private final ProblemList problems;

  private JobFiducials(PlacementFile file, JobText job, ProblemList problems) {
    this.file = file;
    this.job = job;
    this.problems = problems;
  }

  static List<Fiducial> of(PlacementFile file, JobText job, ProblemList problems) {
    JobText.PanelText panel = job.panel();
    List<Fiducial> all = new ArrayList<>();
    if (panel != null) {
      JobFiducials f = new JobFiducials(file, job, problems);
      panel.fiducials().forEach(t -> f.add(t, all));
    }
    return all;
  }

  private void add(JobText.FiducialText t, List<Fiducial> all) {
    if (Double.isNaN(t.xMm()) && Double.isNaN(t.yMm())) {
      fromRow(t, all);
      return;
    }
    Pose p = new Pose(t.xMm(), t.yMm(), 0);
    p = t.fileAxes() ? file.axes().turn(p, job.side()) : p;
    all.add(fiducial(t, p, t.board() != null && t.board(), t.diameterMm()));
  }

  private void fromRow(JobText.FiducialText t, List<Fiducial> all) {
    List<PlacementRow> rows =
        file.rows().stream()
            .filter(r -> r.ref().equals(t.name()))
            .filter(r -> r.side() == null || r.side() == job.side())
            .filter(r -> Double.isFinite(r.filePose().xMm()))
            .toList();
    if (rows.size() != 1) {
      problems.add(
          t.line(),
          String.valueOf(t.column()),
          "the fiducial "
              + TextPieces.quoted(t.name())
              + " has no x and y, and "
              + file.name()
              + (rows.isEmpty()
                  ? " has no such row on the side that is placed"
                  : " has it " + TextPieces.count(rows.size(), "time")),
          "give its x and y");
      return;
    }
    PlacementRow r = rows.get(0);
    double d = Double.isNaN(t.diameterMm()) ? Fiducial.sizeIn(r.part()) : t.diameterMm();
    boolean board = t.board() == null || t.board();
    all.add(fiducial(t, file.axes().turn(r.filePose(), job.side()), board, d));
  }

  private static Fiducial fiducial(
      JobText.FiducialText t, Pose p, boolean board, double diameterMm) {
    return new Fiducial(
        t.name(),
        p.xMm(),
        p.yMm(),
        diameterMm,
        board ? Fiducial.Scope.BOARD : Fiducial.Scope.PANEL);
  }
}
