package org.padtrue.imaging.pose;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Pose;

/**
 * What the picture says about one part, before the uncertainty of the map is added.
 *
 * @param status found, doubtful, ...
 * @param pose panel frame, null unless found or doubtful
 * @param uMm standard uncertainty of x and y from the fit, mm; NaN
 * @param uRotationDeg of the rotation, degrees; NaN
 * @param score 0 to 1: share of the outline that was seen
 * @param sigmaPx blur seen
 * @param note one sentence, or empty
 */
public record PartPose(
    ReadingStatus status,
    @Nullable Pose pose,
    double uMm,
    double uRotationDeg,
    double score,
    double sigmaPx,
    String note) {

  public static PartPose none(ReadingStatus status, double score, String note) {
    return new PartPose(status, null, Double.NaN, Double.NaN, score, Double.NaN, note);
  }

  public PartPose blur(double px) {
    return new PartPose(status, pose, uMm, uRotationDeg, score, px, note);
  }

  public PartPose doubtful(String why) {
    return new PartPose(ReadingStatus.DOUBTFUL, pose, uMm, uRotationDeg, score, sigmaPx, why);
  }
}
