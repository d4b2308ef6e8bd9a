package org.padtrue.imaging.reader;

import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PixelSampler;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.imaging.pose.Sites;
import org.padtrue.imaging.taught.Silhouette;
import org.padtrue.imaging.taught.TaughtGrid;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.imaging.taught.TaughtReader;
import org.padtrue.imaging.taught.TaughtWindow;
import org.padtrue.imaging.taught.TeachRequest;
import org.padtrue.panel.Envelope;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.Angles;

/** Learns what a part type looks like from a placement that the user names as good. */
public final class Teaching {
  /** Ground around the sample that is looked at to tell the part from it, mm. */
  private static final double AROUND_MM = 0.6;

  /** A sample may stand so far off its nominal place and is still cut out whole, mm. */
  private static final double OFF_MM = 0.12;

  /** Grey levels of all channels together by which a sample must stand out. */
  private static final double LEAST_CONTRAST = 30;

  private final Picture picture;
  private final PanelToPicture map;

  public Teaching(Picture picture, PanelToPicture map) {
    this.picture = picture;
    this.map = map;
  }

  /**
   * Learns.
   *
   * @throws InputException when the sample lies outside, its size is not known, it cannot be told
   *     from the ground, or the lands of a type whose outline is known lie bare
   */
  public TaughtLook learn(Sites.Site site, TeachRequest request) {
    Rect box = box(site.type(), request);
    if (box == null) {
      throw refuse(
          request,
          "its type " + site.type().name() + " has neither body, terminations nor envelope",
          "say how large it is, such as --teach " + request.id() + "@3.2x2.5");
    }
    Pose stands = stands(site.nominal(), request.deviation());
    if (!Double.isFinite(request.lengthMm()) && bare(site, stands)) {
      throw refuse(
          request,
          "bare ground shows between its lands, as if the part were missing",
          "name one that is placed; where it is placed, say how large it is, such as --teach "
              + request.id()
              + "@3.2x2.5");
    }
    double scale = map.scaleAt(stands.xMm(), stands.yMm());
    double margin = Math.max(AROUND_MM, 10 / scale);
    int w = (int) Math.ceil((box.lengthMm() + 2 * margin) * scale);
    int h = (int) Math.ceil((box.widthMm() + 2 * margin) * scale);
    if ((long) w * h > 3_000_000L) {
      throw refuse(request, "it fills more than 3 million pixels", "teach in a coarser picture");
    }
    double ox = (w - 1) / 2.0 - box.xMm() * scale;
    double oy = (h - 1) / 2.0 + box.yMm() * scale;
    byte[] bgra = cut(site, request, stands, w, h, ox, oy, scale);
    int half = 2 * (int) Math.ceil(OFF_MM * scale);
    new Silhouette(bgra, w, h)
        .mark(
            ox + (box.xMm() - box.lengthMm() / 2) * scale - half / 2.0,
            oy - (box.yMm() + box.widthMm() / 2) * scale - half / 2.0,
            box.lengthMm() * scale + half,
            box.widthMm() * scale + half);
    TaughtLook look =
        new TaughtLook(
            site.type().name(),
            site.id() + " in " + fileName(picture.name()),
            scale,
            ox,
            oy,
            box.lengthMm(),
            box.widthMm(),
            request.deviation() == null ? Double.NaN : request.uMm(),
            request.deviation() == null ? Double.NaN : request.uRotationDeg(),
            w,
            h,
            bgra,
            true);
    if (TaughtGrid.of(look, 1 / scale).contrast < LEAST_CONTRAST) {
      throw refuse(
          request,
          "it can hardly be told from the ground around it",
          "teach a sample that stands out, or light it otherwise");
    }
    return look;
  }

  /** Bare lands and silk look alike everywhere: all parts of the type would be found by them. */
  private boolean bare(Sites.Site site, Pose stands) {
    PoseReader reader = new PoseReader(picture, map, PoseReader.REACH_MM);
    return reader.read(site.type(), stands, 1).status() == ReadingStatus.MISSING;
  }

  private static String fileName(String name) {
    return name.replaceFirst("^.*[/\\\\]", "");
  }

  private static Pose stands(Pose nominal, @Nullable Pose deviation) {
    return deviation == null
        ? nominal
        : new Pose(
            nominal.xMm() + deviation.xMm(),
            nominal.yMm() + deviation.yMm(),
            Angles.wrap(nominal.rotationDeg() + deviation.rotationDeg()));
  }

  /** Box about everything that belongs to the part, part frame; null when nothing says. */
  private static @Nullable Rect box(PartType t, TeachRequest request) {
    if (Double.isFinite(request.lengthMm())) {
      return new Rect(0, 0, request.lengthMm(), request.widthMm());
    }
    if (Outline.known(t)) {
      double[] b = {1e9, 1e9, -1e9, -1e9};
      for (Rect r : Outline.of(t).rects()) {
        b[0] = Math.min(b[0], r.xMm() - r.lengthMm() / 2);
        b[1] = Math.min(b[1], r.yMm() - r.widthMm() / 2);
        b[2] = Math.max(b[2], r.xMm() + r.lengthMm() / 2);
        b[3] = Math.max(b[3], r.yMm() + r.widthMm() / 2);
      }
      return new Rect((b[0] + b[2]) / 2, (b[1] + b[3]) / 2, b[2] - b[0], b[3] - b[1]);
    }
    Envelope e = t.envelope();
    return e == null ? null : new Rect(0, 0, e.lengthMm(), e.widthMm());
  }

  private byte[] cut(
      Sites.Site site,
      TeachRequest request,
      Pose stands,
      int w,
      int h,
      double ox,
      double oy,
      double scale) {
    double reach = Math.hypot(w, h) + 12;
    double[] q = map.at(stands.xMm(), stands.yMm());
    Plane plane = picture.plane(q[0] - reach, q[1] - reach, q[0] + reach, q[1] + reach);
    TaughtWindow seen =
        TaughtWindow.of(
            new PixelSampler(plane),
            map,
            stands,
            TaughtReader.heightMm(site.type()),
            w,
            h,
            ox,
            oy,
            1 / scale);
    byte[] out = new byte[4 * w * h];
    for (int k = 0; k < w * h; k++) {
      for (int c = 0; c < 3; c++) {
        double v = seen.values[c][k];
        if (!Double.isFinite(v)) {
          throw refuse(
              request,
              "it does not lie whole in "
                  + fileName(picture.name())
                  + " with some ground around it",
              "name a placement further inside");
        }
        out[4 * k + c] = (byte) Math.max(0, Math.min(255, Math.round(v)));
      }
      out[4 * k + 3] = (byte) 255;
    }
    return out;
  }

  private static InputException refuse(TeachRequest r, String found, String mend) {
    return new InputException(Problem.of("--teach " + r.id(), found, mend));
  }
}
