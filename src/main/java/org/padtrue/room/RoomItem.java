package org.padtrue.room;

import org.jspecify.annotations.Nullable;
import org.padtrue.land.LandFit;
import org.padtrue.land.PartFrame;
import org.padtrue.land.risk.DeviationDistribution;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * One placement of the panel, as it stands or is expected to stand with the trims entered.
 *
 * @param id name that is unique on the panel: column/row/ref
 * @param key what moves: the ref, or the id where every board has rows of its own
 * @param part part type
 * @param nominal nominal pose, panel frame
 * @param pose pose that is expected, panel frame
 * @param boardDeg rotation of its board, degrees
 * @param judge land limits of its part type
 * @param spread distribution of its deviation from nominal, panel frame; null = no scatter
 * @param nozzleMm outer diameter of the nozzle that places it, mm; NaN = not known
 * @param order its place in the placing order; NaN = not known
 */
public record RoomItem(
    String id,
    String key,
    PartType part,
    Pose nominal,
    Pose pose,
    double boardDeg,
    LandFit judge,
    @Nullable DeviationDistribution spread,
    double nozzleMm,
    double order) {

  /** Where it stands after a move in board axes: x and y in mm, rotation in degrees. */
  Pose moved(double x, double y, double rotation) {
    double c = Angles.cosDeg(boardDeg);
    double s = Angles.sinDeg(boardDeg);
    return new Pose(
        pose.xMm() + c * x - s * y,
        pose.yMm() + s * x + c * y,
        rotation == 0 ? pose.rotationDeg() : Angles.wrap(pose.rotationDeg() + rotation));
  }

  /** Margin to the land limits at a pose, mm; NaN where the part is not judged. */
  double margin(Pose at) {
    double dx = at.xMm() - nominal.xMm();
    double dy = at.yMm() - nominal.yMm();
    double theta = nominal.rotationDeg();
    return judge.margin(
        PartFrame.x(dx, dy, theta),
        PartFrame.y(dx, dy, theta),
        Angles.wrap(at.rotationDeg() - theta));
  }

  /** The distribution of its deviation when it is expected at a pose; part frame. */
  DeviationDistribution spreadAt(Pose at, DeviationDistribution d) {
    double turned = Angles.wrap(at.rotationDeg() - pose.rotationDeg());
    return new DeviationDistribution(
            at.xMm() - nominal.xMm(),
            at.yMm() - nominal.yMm(),
            d.drotationDeg() + turned,
            d.varX(),
            d.varY(),
            d.varRotation(),
            d.covXY(),
            d.covXRotation(),
            d.covYRotation(),
            d.degreesOfFreedom())
        .inPartFrame(nominal.rotationDeg());
  }
}
