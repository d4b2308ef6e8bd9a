package org.padtrue.land.clearance;

import java.util.List;
import java.util.Optional;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;

/**
 * What a part takes up where it stands, to be drawn.
 *
 * @param corners x and y of the four corners in order, mm, panel frame
 * @param zMinMm lowest point above the board, mm
 * @param zMaxMm highest point, mm; infinite where no height is known
 */
public record StandingOutline(List<double[]> corners, double zMinMm, double zMaxMm) {
  public StandingOutline {
    corners = List.copyOf(corners);
  }

  /** Empty where no size is known of the part. */
  public static Optional<StandingOutline> of(PartType part, Pose pose) {
    BodyOutline o = BodyOutline.of(part);
    if (o == null) {
      return Optional.empty();
    }
    Standing s = Standing.of(o, pose);
    return Optional.of(
        new StandingOutline(
            List.of(s.corner(1, 1), s.corner(-1, 1), s.corner(-1, -1), s.corner(1, -1)).stream()
                .map(c -> new double[] {c.x, c.y})
                .toList(),
            o.zMinMm(),
            o.zMaxMm()));
  }
}
