package org.padtrue.imaging;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.map.DeviceBend;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.imaging.taught.TeachRequest;

/**
 * How pictures are measured; start from {@link #withDefaults()}.
 *
 * @param camera lens model of {@code calibrate}, or null
 * @param cameraDistanceMm from the board to the camera, mm, for parallax; infinite for a view
 *     without parallax; NaN when not known (then it goes into the uncertainty)
 * @param device bend of scanner or camera found before by reversal, or null
 * @param panelPerPicture true: every picture is a panel of its own, P1, P2 ...; false: all show one
 *     panel
 * @param straight true: scanner or camera was checked and bends nothing, so that no unknown bend
 *     goes into the uncertainty
 * @param teach placements of these pictures from which the look of their type is learnt
 * @param taught looks learnt before; types that have one are measured by it
 */
public record DetectionOptions(
    @Nullable CameraModel camera,
    double cameraDistanceMm,
    @Nullable DeviceBend device,
    boolean panelPerPicture,
    boolean straight,
    List<TeachRequest> teach,
    List<TaughtLook> taught) {

  public DetectionOptions {
    teach = List.copyOf(teach);
    taught = List.copyOf(taught);
    if (cameraDistanceMm <= 0) {
      throw new IllegalArgumentException(
          "cameraDistanceMm = " + cameraDistanceMm + "; expected > 0, or NaN when not known");
    }
  }

  /** No lens model, distance not known, one panel. */
  public static DetectionOptions withDefaults() {
    return new DetectionOptions(null, Double.NaN, null, false, false, List.of(), List.of());
  }

  /** With a lens model. */
  public DetectionOptions camera(CameraModel model) {
    return new DetectionOptions(
        model, cameraDistanceMm, device, panelPerPicture, straight, teach, taught);
  }

  /** With a camera distance, mm; infinite for a view without parallax. */
  public DetectionOptions cameraDistance(double mm) {
    return new DetectionOptions(camera, mm, device, panelPerPicture, straight, teach, taught);
  }

  /** With a device correction. */
  public DetectionOptions device(DeviceBend bend) {
    return new DetectionOptions(
        camera, cameraDistanceMm, bend, panelPerPicture, straight, teach, taught);
  }

  /** Every picture a panel of its own. */
  public DetectionOptions eachAPanel() {
    return new DetectionOptions(camera, cameraDistanceMm, device, true, straight, teach, taught);
  }

  /** From a device that was checked and bends nothing. */
  public DetectionOptions straightDevice() {
    return new DetectionOptions(
        camera, cameraDistanceMm, device, panelPerPicture, true, teach, taught);
  }

  /** Learning looks from named placements. */
  public DetectionOptions teach(List<TeachRequest> samples) {
    return new DetectionOptions(
        camera, cameraDistanceMm, device, panelPerPicture, straight, samples, taught);
  }

  /** With looks learnt before. */
  public DetectionOptions taught(List<TaughtLook> looks) {
    return new DetectionOptions(
        camera, cameraDistanceMm, device, panelPerPicture, straight, teach, looks);
  }
}
