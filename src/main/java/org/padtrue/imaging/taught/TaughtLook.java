package org.padtrue.imaging.taught;

import java.nio.IntBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgcodecs;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.MatVector;
import org.padtrue.imaging.picture.NativeLibraries;
import org.padtrue.imaging.picture.PictureHeader;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * What a part type looks like from above, learnt from one placed sample: a picture in the part
 * frame (rotation taken out, y up is up) and where the type's origin lies in it.
 *
 * <p>Where the sample itself stood is known only when the user says so. Else it is taken to stand
 * at its nominal pose, and its own deviation is then an offset that all readings of the type share.
 */
public final class TaughtLook {
  /**
   * The fourth byte of a pixel: from here to 255 it belongs to the part, weight 0 to 1; from 1 to
   * below it lies just beyond the part's edge, weight 0 to 1; 0 is ground and does not count.
   */
  public static final int OWN = 128;

  private final String part;
  private final String sample;
  private final double pxPerMm;
  private final double originXPx;
  private final double originYPx;
  private final double lengthMm;
  private final double widthMm;
  private final double uMm;
  private final double uRotationDeg;
  private final int widthPx;
  private final int heightPx;
  private final byte[] bgra;
  private final boolean fresh;

  /**
   * @param part type
   * @param sample which placement it was learnt from, and in which picture
   * @param pxPerMm scale of the picture
   * @param originXPx the type's origin in it, px, centre of the first pixel at (0, 0)
   * @param originYPx likewise, down
   * @param lengthMm extent along the part's x, mm
   * @param widthMm along its y
   * @param uMm standard uncertainty of where the sample stood, x and y, mm; NaN: not known
   * @param uRotationDeg of its rotation, degrees; NaN: not known
   * @param bgra pixels row by row, see {@link #OWN}
   * @param fresh true when a picture of this run taught it
   */
  @SuppressWarnings("TooManyParameters")
  public TaughtLook(
      String part,
      String sample,
      double pxPerMm,
      double originXPx,
      double originYPx,
      double lengthMm,
      double widthMm,
      double uMm,
      double uRotationDeg,
      int widthPx,
      int heightPx,
      byte[] bgra,
      boolean fresh) {
    this.part = part;
    this.sample = sample;
    this.pxPerMm = pxPerMm;
    this.originXPx = originXPx;
    this.originYPx = originYPx;
    this.lengthMm = lengthMm;
    this.widthMm = widthMm;
    this.uMm = uMm;
    this.uRotationDeg = uRotationDeg;
    this.widthPx = widthPx;
    this.heightPx = heightPx;
    this.bgra = bgra;
    this.fresh = fresh;
  }

  /** A look whose picture comes from a file; see the constructor for the rest. */
  public static TaughtLook of(
      String part,
      String sample,
      double pxPerMm,
      double originXPx,
      double originYPx,
      double lengthMm,
      double widthMm,
      double uMm,
      double uRotationDeg,
      String pictureName,
      byte[] png) {
    NativeLibraries.load();
    PictureHeader header =
        PictureHeader.of(png).orElseThrow(() -> refuse(pictureName, "this is no picture"));
    if (!header.complete() || header.width() * header.height() > 4_000_000L) {
      throw refuse(pictureName, "the picture is cut off or too large");
    }
    try (BytePointer p = new BytePointer(png);
        Mat raw = new Mat(1, png.length, opencv_core.CV_8U, p);
        Mat m = opencv_imgcodecs.imdecode(raw, opencv_imgcodecs.IMREAD_UNCHANGED)) {
      if (m == null || m.empty() || m.type() != opencv_core.CV_8UC4) {
        throw refuse(pictureName, "this is no colour picture of 8 bits with transparency");
      }
      byte[] v = new byte[4 * m.cols() * m.rows()];
      m.<java.nio.ByteBuffer>createBuffer().get(v);
      return new TaughtLook(
          part,
          sample,
          pxPerMm,
          originXPx,
          originYPx,
          lengthMm,
          widthMm,
          uMm,
          uRotationDeg,
          m.cols(),
          m.rows(),
          v,
          false);
    }
  }

  private static InputException refuse(String name, String found) {
    return new InputException(Problem.of(name, found, "teach the type again with --teach"));
  }

  /** The picture as PNG; what is transparent does not count when looking for the part. */
  public byte[] png() {
    NativeLibraries.load();
    try (BytePointer data = new BytePointer(bgra);
        Mat m = new Mat(heightPx, widthPx, opencv_core.CV_8UC4, data);
        BytePointer out = new BytePointer()) {
      opencv_imgcodecs.imencode(".png", m, out);
      byte[] b = new byte[(int) out.limit()];
      out.get(b);
      return b;
    }
  }

  /** Part type. */
  public String part() {
    return part;
  }

  /** Which placement it was learnt from, and in which picture. */
  public String sample() {
    return sample;
  }

  /** Scale of the picture. */
  public double pxPerMm() {
    return pxPerMm;
  }

  /** The type's origin in the picture, px from the centre of the first pixel. */
  public double originXPx() {
    return originXPx;
  }

  /** Likewise, down. */
  public double originYPx() {
    return originYPx;
  }

  /** Extent along the part's x, mm. */
  public double lengthMm() {
    return lengthMm;
  }

  /** Extent along the part's y, mm. */
  public double widthMm() {
    return widthMm;
  }

  /** Standard uncertainty of where the sample stood, mm; NaN when that is not known. */
  public double uMm() {
    return uMm;
  }

  /** Of its rotation, degrees; NaN when not known. */
  public double uRotationDeg() {
    return uRotationDeg;
  }

  /** True when the user said where the sample stood. */
  public boolean placeKnown() {
    return Double.isFinite(uMm);
  }

  /** True when a picture of this run taught it, false when it was stored before. */
  public boolean fresh() {
    return fresh;
  }

  public int widthPx() {
    return widthPx;
  }

  public int heightPx() {
    return heightPx;
  }

  /** Weight of a pixel, 0 to 1. */
  double weight(int x, int y) {
    int a = at(x, y, 3);
    return a >= OWN ? (a - OWN) / (255.0 - OWN) : a / (OWN - 1.0);
  }

  /** True when the sample was compared with its like, so that its pixels differ in weight. */
  boolean compared() {
    for (int k = 3; k < bgra.length; k += 4) {
      int a = bgra[k] & 0xFF;
      if (a != 0 && a != OWN - 1 && a != 255) {
        return true;
      }
    }
    return false;
  }

  /** Blue, green, red, and the byte that tells part, edge and ground, 0 to 255. */
  public int at(int x, int y, int channel) {
    return bgra[4 * (y * widthPx + x) + channel] & 0xFF;
  }

  /** The same with other weights of its pixels, 0 to 255, row by row. */
  public TaughtLook weighing(int[] weights) {
    byte[] v = bgra.clone();
    for (int k = 0; k < weights.length; k++) {
      v[4 * k + 3] = (byte) weights[k];
    }
    return new TaughtLook(
        part,
        sample,
        pxPerMm,
        originXPx,
        originYPx,
        lengthMm,
        widthMm,
        uMm,
        uRotationDeg,
        widthPx,
        heightPx,
        v,
        fresh);
  }

  /** Outlines of the part's own pixels: closed lines of {x, y}, part frame, mm. */
  public List<List<double[]>> contours() {
    NativeLibraries.load();
    byte[] own = new byte[widthPx * heightPx];
    for (int k = 0; k < own.length; k++) {
      own[k] = (byte) ((bgra[4 * k + 3] & 0xFF) >= OWN ? 255 : 0);
    }
    List<List<double[]>> out = new ArrayList<>();
    try (BytePointer data = new BytePointer(own);
        Mat m = new Mat(heightPx, widthPx, opencv_core.CV_8U, data);
        MatVector found = new MatVector()) {
      opencv_imgproc.findContours(
          m, found, opencv_imgproc.RETR_EXTERNAL, opencv_imgproc.CHAIN_APPROX_SIMPLE);
      for (long i = 0; i < found.size(); i++) {
        IntBuffer v = found.get(i).createBuffer();
        List<double[]> line = new ArrayList<>();
        for (int k = 0; k + 1 < v.limit(); k += 2) {
          line.add(
              new double[] {
                (v.get(k) - originXPx) / pxPerMm, (originYPx - v.get(k + 1)) / pxPerMm
              });
        }
        out.add(line);
      }
    }
    return out;
  }

  /** What a reader of the positions must know, one sentence. */
  public String caution() {
    if (placeKnown()) {
      return String.format(
          Locale.ROOT,
          "%s was measured by its taught sample %s, whose place is known to %.0f um",
          part,
          sample,
          1000 * uMm);
    }
    return part
        + " was measured relative to its taught sample "
        + sample
        + ", taken as standing at its nominal pose: the type's own offset is not known";
  }
}
