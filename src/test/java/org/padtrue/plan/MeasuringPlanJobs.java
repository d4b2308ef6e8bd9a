package org.padtrue.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Machine;
import org.padtrue.panel.Measurement;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Reference;
import org.padtrue.panel.Side;
import org.padtrue.panel.Stage;

/** Jobs made up for tests: positions from a fixed seed, counts as on a real small board. */
public final class MeasuringPlanJobs {
  /** Placements a board of ten types, many of some, one of the last: 60 together. */
  static final int[] TEN_TYPES = {14, 12, 9, 7, 6, 4, 3, 2, 2, 1};

  private MeasuringPlanJobs() {}

  /** A 3 x 2 panel, 60 placements a board, 10 types, 3 nozzles, each type on two of them or one. */
  public static Job threeByTwo() {
    return job(board(TEN_TYPES, 11), array(3, 2));
  }

  static List<Placement> board(int[] counts, long seed) {
    Random random = new Random(seed);
    List<Placement> all = new ArrayList<>();
    for (int t = 0; t < counts.length; t++) {
      for (int i = 0; i < counts[t]; i++) {
        Pose pose =
            new Pose(
                2 + 46 * random.nextDouble(),
                2 + 36 * random.nextDouble(),
                90 * random.nextInt(4) - 90);
        String nozzle = "N" + (1 + (t + i % 2) % 3);
        all.add(placement("T" + t + "_" + i, "TYPE" + t, pose, nozzle, null, null));
      }
    }
    return all;
  }

  static Placement placement(
      String ref,
      String part,
      Pose pose,
      @Nullable String nozzle,
      @Nullable String feeder,
      @Nullable String head) {
    return new Placement(
        ref,
        part,
        pose,
        Levels.NONE.with(Factor.NOZZLE, nozzle).with(Factor.FEEDER, feeder).with(Factor.HEAD, head),
        Double.NaN,
        0);
  }

  static BoardArray array(int columns, int rows) {
    List<Board> boards = new ArrayList<>();
    for (int r = 1; r <= rows; r++) {
      for (int c = 1; c <= columns; c++) {
        Pose origin = new Pose(52.0 * (c - 1), 42.0 * (r - 1), 0);
        boards.add(new Board(new BoardIndex(c, r), origin, true));
      }
    }
    return new BoardArray(columns, rows, boards, Set.of(), Double.NaN);
  }

  static Job job(List<Placement> placements, BoardArray array) {
    return job(placements, array, Measurement.withDefaults());
  }

  static Job job(List<Placement> placements, BoardArray array, Measurement measurement) {
    return new Job(
        "test",
        Side.TOP,
        Stage.PASTE,
        placements,
        List.of(),
        Map.of(),
        array,
        List.of(),
        2,
        Machine.withDefaults(),
        measurement,
        List.of());
  }

  /** A single board measured after reflow on which one type centres itself. */
  static Job reflowed(List<Placement> placements, String selfCentring) {
    PartType type =
        new PartType(
            selfCentring,
            JointKind.CHIP,
            2,
            true,
            null,
            Double.NaN,
            List.of(),
            List.of(),
            null,
            null);
    return new Job(
        "test",
        Side.TOP,
        Stage.REFLOWED,
        placements,
        List.of(),
        Map.of(selfCentring, type),
        BoardArray.single(),
        List.of(),
        2,
        Machine.withDefaults(),
        Measurement.withDefaults(),
        List.of());
  }

  static Measurement by(Reference reference) {
    return new Measurement(reference, Double.NaN, Double.NaN, 0);
  }
}
