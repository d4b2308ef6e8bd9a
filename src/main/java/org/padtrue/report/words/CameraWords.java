package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.imaging.camera.CameraCalibration;
import org.padtrue.imaging.map.CameraModel;

/** Says what pictures of a grid told about a camera's lens. */
public final class CameraWords {
  private CameraWords() {}

  /** One thing a line, a label first; behind +- stands one standard error. */
  public static List<String> lines(CameraCalibration.Result r) {
    List<String> lines = new ArrayList<>();
    CameraModel m = r.model();
    long found = r.views().stream().filter(CameraCalibration.View::found).count();
    lines.add(
        text(
            "Lens        %s model from %d of %d pictures of %d x %d px",
            r.rational() ? "rational" : "plain", found, r.views().size(), m.width(), m.height()));
    lines.add(
        text(
            "            focal length %.1f +- %.1f px, centre %.1f, %.1f px, k1 %.4f",
            m.fxPx(), r.focalSdPx(), m.cxPx(), m.cyPx(), m.k1()));
    lines.add(text("Residual    RMS %.3f px, mean distance %.3f px", r.rmsPx(), r.meanPx()));
    for (CameraCalibration.View v : r.views()) {
      lines.add(
          v.found()
              ? text("  %s  RMS %.3f px, %.0f mm away", v.picture(), v.rmsPx(), v.distanceMm())
              : "  " + v.picture() + "  grid not found, not used");
    }
    r.notes().forEach(n -> lines.add("Note        " + n));
    return lines;
  }

  private static String text(String format, Object... args) {
    return String.format(Locale.ROOT, format, args);
  }
}
