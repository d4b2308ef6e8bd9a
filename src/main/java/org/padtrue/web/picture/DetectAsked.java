package org.padtrue.web.picture;

import io.javalin.http.Context;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.imaging.CloseUp;
import org.padtrue.imaging.CloseUpDetection;
import org.padtrue.imaging.DetectionOptions;
import org.padtrue.imaging.taught.TeachRequest;
import org.padtrue.imaging.taught.TeachText;
import org.padtrue.load.article.PictureList;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.report.json.CameraFile;
import org.padtrue.report.json.TaughtFolder;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/**
 * How pictures are to be measured, as a form asks for it.
 *
 * @param options lens, distance, what is taught
 * @param closeUps true when every picture shows one placement
 * @param known what is known of the camera of close-ups
 * @param learns true when looks are learnt, to be kept with the job
 */
record DetectAsked(
    DetectionOptions options, boolean closeUps, CloseUpDetection.Known known, boolean learns) {
  private static final double MOST_MM = 1e5;
  private static final double MOST_AXIS_MM = 10;
  private static final int MOST_SAMPLES = 50;
  private static final String LIST = ".*\\.(csv|tsv|txt)";

  /**
   * Reads the form.
   *
   * @param cameras those kept
   * @param looks folder of the job's taught looks
   */
  static DetectAsked of(Context ctx, Cameras cameras, Path looks) throws IOException {
    boolean closeUps = yes(ctx, "closeUps");
    CloseUpDetection.Known known = known(ctx, closeUps);
    boolean overview = yes(ctx, "panels") || yes(ctx, "straight");
    if (closeUps && overview) {
      throw Refusal.bad(
          "Panels of their own and a device that bends nothing are for overviews, not for"
              + " close-ups.");
    }
    DetectionOptions o = DetectionOptions.withDefaults().cameraDistance(distance(ctx));
    String camera = Fields.line(ctx, "camera");
    if (!camera.isEmpty()) {
      CameraFile c = CameraFile.read(cameras.file(camera));
      o = c.lens() == null ? o : o.camera(c.lens());
      o = c.device() == null ? o : o.device(c.device());
    }
    o = yes(ctx, "straight") ? o.straightDevice() : o;
    o = yes(ctx, "panels") ? o.eachAPanel() : o;
    List<TeachRequest> samples = samples(ctx);
    o = o.teach(samples);
    if (yes(ctx, "taught") && TaughtFolder.holdsSome(looks)) {
      o = o.taught(TaughtFolder.read(looks));
    }
    return new DetectAsked(o, closeUps, known, !samples.isEmpty());
  }

  private static CloseUpDetection.Known known(Context ctx, boolean closeUps) {
    double scale = plain(ctx, "scale", "The scale", "px per mm");
    double turned = degrees(ctx);
    double axisU = length(ctx, "axisU", "The uncertainty of the camera's position", MOST_AXIS_MM);
    boolean nothing = Double.isNaN(scale) && Double.isNaN(turned) && Double.isNaN(axisU);
    if (!closeUps && !nothing) {
      throw Refusal.bad(
          "Scale, direction and the camera's position are for close-ups; an overview finds its"
              + " scale by the fiducials.");
    }
    return new CloseUpDetection.Known(scale, turned, Double.isNaN(axisU) ? 0 : axisU);
  }

  private static boolean yes(Context ctx, String name) {
    return Fields.line(ctx, name).equals("yes");
  }

  /** The close-ups of pictures: by the list among them, or by their names. */
  static List<CloseUp> shots(List<Path> files, Path folder) {
    List<Path> lists = files.stream().filter(DetectAsked::isList).toList();
    if (lists.isEmpty()) {
      return CloseUp.named(files);
    }
    if (lists.size() > 1) {
      throw Refusal.bad("Send one list of the close-ups, not several.");
    }
    List<CloseUp> all = new ArrayList<>();
    for (PictureList.Entry e : PictureList.load(lists.get(0)).orThrow()) {
      Path p = e.file().normalize();
      if (!folder.equals(p.getParent()) || !files.contains(p)) {
        throw Refusal.bad("The list names " + p.getFileName() + ", which was not sent along.");
      }
      all.add(new CloseUp(p, e.panel(), e.column(), e.row(), e.ref(), e.xMm(), e.yMm()));
    }
    return all;
  }

  static boolean isList(Path file) {
    return String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT).matches(LIST);
  }

  private static List<TeachRequest> samples(Context ctx) {
    List<String> lines =
        Fields.note(ctx, "teach").lines().map(String::strip).filter(l -> !l.isEmpty()).toList();
    if (lines.size() > MOST_SAMPLES) {
      throw Refusal.bad("More than " + MOST_SAMPLES + " samples at once are not taught.");
    }
    return lines.stream()
        .map(
            l ->
                TeachText.read(l)
                    .orElseThrow(
                        () ->
                            Refusal.bad(
                                "'"
                                    + l
                                    + "' is no sample to teach; write R7 or 2/1/R7, behind it"
                                    + " @4.5x3.2 (mm) where the type has no body, and"
                                    + " =0.010,-0.005,0.1,0.004 where it was measured how far off"
                                    + " it stands.")))
        .toList();
  }

  private static double distance(Context ctx) {
    if (Fields.line(ctx, "distance").equalsIgnoreCase("far")) {
      return Double.POSITIVE_INFINITY;
    }
    return length(ctx, "distance", "The distance from board to camera", MOST_MM);
  }

  /** A length in mm, more than 0; NaN where none is written. */
  private static double length(Context ctx, String name, String what, double most) {
    String text = Fields.line(ctx, name);
    if (text.isEmpty()) {
      return Double.NaN;
    }
    double mm = TypedNumbers.mm(text, LengthUnit.MM).orElse(Double.NaN);
    if (!(mm > 0 && mm <= most)) {
      throw Refusal.bad(what + " is '" + text + "'; write mm, more than 0.");
    }
    return mm;
  }

  private static double plain(Context ctx, String name, String what, String unit) {
    String text = Fields.line(ctx, name);
    if (text.isEmpty()) {
      return Double.NaN;
    }
    double v = TypedNumbers.plain(text).orElse(Double.NaN);
    if (!(v > 0 && v <= MOST_MM)) {
      throw Refusal.bad(what + " is '" + text + "'; write " + unit + ", more than 0.");
    }
    return v;
  }

  private static double degrees(Context ctx) {
    String text = Fields.line(ctx, "turned");
    if (text.isEmpty()) {
      return Double.NaN;
    }
    double v = TypedNumbers.degrees(text).orElse(Double.NaN);
    if (!(Math.abs(v) <= 360)) {
      throw Refusal.bad("The direction of the panel's x is '" + text + "'; write degrees.");
    }
    return v;
  }
}
