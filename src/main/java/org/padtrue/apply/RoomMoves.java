package org.padtrue.apply;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.load.placement.Axes;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;
import org.padtrue.report.json.StoredRoom;

/** The moves of a room.json, for one job: of the groups that are solved. */
public final class RoomMoves {
  private final LoadedJob job;
  private final StoredRoom room;

  /** By ref or column/row/ref; in the board's frame as placed, mm and degrees. */
  private final Map<String, Pose> moves = new LinkedHashMap<>();

  private RoomMoves(LoadedJob job, StoredRoom room) {
    this.job = job;
    this.room = room;
    Axes axes = job.placements().axes();
    Side side = job.job().side();
    for (StoredRoom.Move m : room.solvedMoves()) {
      Xyr add = m.add();
      moves.put(
          m.ref(),
          new Pose(
              axes.signX(side) * add.x(),
              axes.signY() * add.y(),
              axes.signRotation(side) * known(add.rotation())));
    }
  }

  private static double known(double v) {
    return Double.isNaN(v) ? 0 : v;
  }

  /**
   * Moves for a job.
   *
   * @throws InputException when the file is of another job or names what this one does not have
   */
  public static RoomMoves of(LoadedJob job, StoredRoom room) {
    List<Problem> problems = new ArrayList<>();
    if (!room.job().isEmpty() && !room.job().equals(job.job().name())) {
      problems.add(
          Problem.of(
              room.file(),
              "this is the room of job '" + room.job() + "', not of '" + job.job().name() + "'",
              "give the room.json of this job"));
      throw new InputException(problems);
    }
    RoomMoves m = new RoomMoves(job, room);
    for (Map.Entry<String, Pose> e : m.moves.entrySet()) {
      boolean own = e.getKey().contains("/") && !job.wholePanel();
      if (!m.known(e.getKey()) || Double.isNaN(e.getValue().xMm() + e.getValue().yMm())) {
        problems.add(
            Problem.of(
                room.file(),
                "it moves '" + e.getKey() + "', which is not in " + job.placements().name(),
                "give the room.json of this placement list"));
      } else if (own && job.job().array().boards().size() > 1) {
        problems.add(
            Problem.of(
                job.placements().name(),
                "the file gives one board for all, so " + e.getKey() + " has no row of its own",
                "run 'room' without --each-board"));
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return m;
  }

  private boolean known(String key) {
    return job.job().placements().stream().anyMatch(p -> key.equals(p.ref()))
        || job.job().array().boards().stream()
            .anyMatch(
                b ->
                    job.job().placements().stream()
                        .anyMatch(p -> key.equals(b.index() + "/" + p.ref())));
  }

  /** The file that the moves come from. */
  public StoredRoom room() {
    return room;
  }

  /** Number of placements of the list that are moved. */
  public int count() {
    return moves.size();
  }

  /** A placement's move in its board's frame as placed; empty where it stays. */
  Optional<Pose> of(Placement p, BoardIndex board) {
    Pose own = moves.get(board + "/" + p.ref());
    return Optional.ofNullable(own == null ? moves.get(p.ref()) : own);
  }

  /** The same in the panel's frame. */
  Optional<Pose> onPanel(Placement p, BoardIndex board) {
    double deg =
        job.job().array().find(board).map(Board::origin).map(Pose::rotationDeg).orElse(0.0);
    double c = Angles.cosDeg(deg);
    double s = Angles.sinDeg(deg);
    return of(p, board)
        .map(m -> new Pose(c * m.xMm() - s * m.yMm(), s * m.xMm() + c * m.yMm(), m.rotationDeg()));
  }

  /**
   * The job with its placements moved: what an article placed with them is measured against.
   *
   * @throws InputException when boards were moved by themselves
   */
  public LoadedJob moved() {
    if (moves.keySet().stream().anyMatch(k -> k.contains("/"))) {
      throw new InputException(
          Problem.of(
              room.file(),
              "its boards do not move alike, so there is no one list to measure against",
              "make the corrected list with 'apply --room' and give it a job of its own"));
    }
    Job j = job.job();
    List<Placement> placements = new ArrayList<>();
    for (Placement p : j.placements()) {
      Pose m = moves.get(p.ref());
      placements.add(
          m == null
              ? p
              : new Placement(
                  p.ref(),
                  p.part(),
                  new Pose(
                      p.pose().xMm() + m.xMm(),
                      p.pose().yMm() + m.yMm(),
                      Angles.wrap(p.pose().rotationDeg() + m.rotationDeg())),
                  p.levels(),
                  p.order(),
                  p.line()));
    }
    return new LoadedJob(
        new Job(
            j.name(),
            j.side(),
            j.stage(),
            placements,
            j.unplaced(),
            j.parts(),
            j.array(),
            j.fiducials(),
            j.acceptanceClass(),
            j.machine(),
            j.measurement(),
            j.notes()),
        job.placements(),
        job.placed(),
        job.wholePanel(),
        job.asIs());
  }
}
