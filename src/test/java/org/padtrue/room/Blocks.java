package org.padtrue.room;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LandFit;
import org.padtrue.land.clearance.PairSpread;
import org.padtrue.land.risk.DeviationDistribution;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Tolerance;

/** Rectangles on a board, with limits as a part file may give them. */
final class Blocks {
  private final List<RoomItem> items = new ArrayList<>();
  private final double sd;

  /** Blocks that stand where they are drawn. */
  Blocks() {
    this(0);
  }

  /**
   * Blocks that scatter.
   *
   * @param sd standard deviation per axis, mm
   */
  Blocks(double sd) {
    this.sd = sd;
  }

  Blocks add(String ref, double length, double width, double x, double y, double rotation) {
    return add(ref, new Envelope(length, width, 0, 1), null, x, y, rotation, 0);
  }

  Blocks add(
      String ref,
      Envelope envelope,
      @Nullable Tolerance tolerance,
      double x,
      double y,
      double rotation,
      double boardDeg) {
    PartType part =
        new PartType(
            "T" + ref,
            JointKind.OTHER,
            1,
            false,
            null,
            Double.NaN,
            List.of(),
            List.of(),
            envelope,
            tolerance);
    Pose pose = new Pose(x, y, rotation);
    DeviationDistribution spread =
        sd > 0 ? DeviationDistribution.independent(0, 0, 0, sd, sd, 0) : null;
    items.add(
        new RoomItem(
            "1/1/" + ref,
            ref,
            part,
            pose,
            pose,
            boardDeg,
            LandFit.of(part, AcceptanceLimits.published(), 2),
            spread,
            Double.NaN,
            Double.NaN));
    return this;
  }

  List<RoomItem> items() {
    return items;
  }

  PairSpread spread(RoomItem a, RoomItem b) {
    return new PairSpread(2 * sd * sd, 2 * sd * sd, 0, 0, 0);
  }

  RoomResult search(RoomOptions o) {
    return RoomSearch.of(items, this::spread, sd * Math.sqrt(2), o);
  }

  static RoomOptions options(double gap, double max, String... fixed) {
    return new RoomOptions(gap, 0.99, max, Set.of(fixed), Set.of());
  }
}
