package org.padtrue.imaging.reader;

import java.util.function.Function;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Rect;
import org.bytedeco.opencv.opencv_core.Size;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.PartPose;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;

/**
 * Measures parts in pictures of few pixels to the mm too: pieces of edges, bands beside them and
 * grids of trial poses are all sized in pixels, and on a chip of ten by five of them hardly one
 * fits. The surroundings of a part are enlarged by cubic interpolation first: nothing is seen that
 * was not there, but what the pixels say is taken in smaller steps. Noise of neighbouring pixels
 * then goes together; the fits take their uncertainty from how whole stretches of edge scatter,
 * which allows for that (in rendered pictures about two thirds of coordinates lie within u, fewer
 * rotations).
 */
public final class FineReader {
  /** Below this, px per mm, every part is enlarged. */
  private static final double COARSE = 18;

  /** Below this those that are not found otherwise. */
  private static final double FINE = 30;

  private static final int FACTOR = 2;

  /** What is shown beside an outline and the reach of the search, mm. */
  private static final double BESIDE_MM = 1.2;

  private static final double BESIDE_PX = 16;

  private final Picture picture;
  private final PanelToPicture map;
  private final double pxPerMm;
  private final PoseReader plain;

  /**
   * @param pxPerMm scale of the picture
   */
  public FineReader(Picture picture, PanelToPicture map, double pxPerMm) {
    this.picture = picture;
    this.map = map;
    this.pxPerMm = pxPerMm;
    this.plain = new PoseReader(picture, map, PoseReader.REACH_MM);
  }

  /** Whether a picture of that scale is enlarged for every part; it then need not be softened. */
  public static boolean enlargesAll(double pxPerMm) {
    return pxPerMm < COARSE;
  }

  /**
   * Measures a part, by its taught look where it has one.
   *
   * @param type geometry
   * @param nominal predicted pose, panel frame
   * @param sigmaPx expected blur, px of the picture as it is
   */
  public PartPose read(PartType type, @Nullable TaughtLook look, Pose nominal, double sigmaPx) {
    if (look != null || !Outline.known(type) || pxPerMm >= FINE) {
      return plain.read(type, look, nominal, sigmaPx);
    }
    if (enlargesAll(pxPerMm) && plain.shows(type, nominal)) {
      return enlarged(type, nominal, sigmaPx);
    }
    PartPose first = plain.read(type, nominal, sigmaPx);
    boolean open =
        first.status() == ReadingStatus.DOUBTFUL || first.status() == ReadingStatus.NOT_FOUND;
    if (!open) {
      return first;
    }
    PartPose second = enlarged(type, nominal, sigmaPx);
    return second.status() == ReadingStatus.FOUND ? second : first;
  }

  /** Looks for a part as predicted only, see {@link PoseReader#glance}. */
  public PartPose glance(PartType type, Pose nominal, double sigmaPx) {
    boolean coarse = enlargesAll(pxPerMm) && Outline.known(type) && plain.shows(type, nominal);
    return coarse
        ? enlarged(type, nominal, r -> r.glance(type, nominal, FACTOR * sigmaPx))
        : plain.glance(type, nominal, sigmaPx);
  }

  private PartPose enlarged(PartType type, Pose nominal, double sigmaPx) {
    return enlarged(type, nominal, r -> r.read(type, nominal, FACTOR * sigmaPx));
  }

  private PartPose enlarged(PartType type, Pose nominal, Function<PoseReader, PartPose> look) {
    Outline o = Outline.of(type);
    double arm = Math.hypot(o.halfLengthMm(), o.halfWidthMm());
    double reach = pxPerMm * (arm + PoseReader.REACH_MM + BESIDE_MM) + BESIDE_PX;
    double[] q = map.at(nominal.xMm(), nominal.yMm());
    int x0 = (int) Math.max(0, Math.floor(q[0] - reach));
    int y0 = (int) Math.max(0, Math.floor(q[1] - reach));
    int x1 = (int) Math.min(picture.width(), Math.ceil(q[0] + reach));
    int y1 = (int) Math.min(picture.height(), Math.ceil(q[1] + reach));
    try (Mat crop = picture.mat().apply(new Rect(x0, y0, x1 - x0, y1 - y0));
        Picture large = enlarged(crop)) {
      PanelToPicture onto = map.enlarged(FACTOR, x0, y0);
      PartPose p = look.apply(new PoseReader(large, onto, PoseReader.REACH_MM));
      return p.blur(p.sigmaPx() / FACTOR);
    }
  }

  private Picture enlarged(Mat crop) {
    Mat out = new Mat();
    Size size = new Size(FACTOR * crop.cols(), FACTOR * crop.rows());
    opencv_imgproc.resize(crop, out, size, 0, 0, opencv_imgproc.INTER_CUBIC);
    return new Picture(picture.name(), out);
  }
}
