package org.padtrue.imaging.picture;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgcodecs;
import org.bytedeco.opencv.opencv_core.Mat;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Reads picture files: JPEG, PNG, TIFF, BMP; grey, 16-bit and alpha become 8-bit colour; turned as
 * EXIF says.
 */
public final class PictureReader {
  /** A picture larger than this is not a picture of a panel, px. */
  static final long MAX_PIXELS = 250_000_000L;

  private static final long MAX_BYTES = 1L << 30;

  private PictureReader() {}

  /** Reads a picture or says in one sentence why not. */
  public static Picture read(Path file) {
    return decode(file.toString(), bytes(file));
  }

  private static byte[] bytes(Path file) {
    String name = file.toString();
    try {
      if (Files.isDirectory(file)) {
        throw refuse(name, "this is a folder, not a picture", "name the picture in it");
      }
      if (!Files.isRegularFile(file)) {
        throw refuse(name, "there is no such file", "check the path");
      }
      if (Files.size(file) == 0) {
        throw refuse(name, "the file is empty", "copy it again");
      }
      if (Files.size(file) > MAX_BYTES) {
        throw refuse(name, "the file is larger than 1 GiB", "save the picture as JPEG or PNG");
      }
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw refuse(name, "the file cannot be read", "check that it is a file you may read");
    }
  }

  public static Picture decode(String name, byte[] b) {
    PictureHeader header =
        PictureHeader.of(b)
            .orElseThrow(
                () ->
                    refuse(name, "this is not a JPEG, PNG, TIFF or BMP picture", "give a picture"));
    long pixels = header.width() * header.height();
    if (header.width() < 16 || header.height() < 16 || pixels > MAX_PIXELS) {
      if (header.complete()) {
        throw refuse(
            name,
            "the picture says it is " + header.width() + " x " + header.height() + " pixels",
            "give one of 16 x 16 to 250 million pixels");
      }
    }
    if (!header.complete()) {
      throw refuse(
          name,
          "the " + header.format() + " picture ends before its end: the file was cut off",
          "copy it again");
    }
    return new Picture(name, decoded(name, b));
  }

  private static Mat decoded(String name, byte[] b) {
    NativeLibraries.load();
    try (BytePointer p = new BytePointer(b);
        Mat raw = new Mat(1, b.length, opencv_core.CV_8U, p)) {
      Mat m = deep(b) ? ofDeep(raw) : opencv_imgcodecs.imdecode(raw, opencv_imgcodecs.IMREAD_COLOR);
      if (m == null || m.empty()) {
        throw refuse(name, "the picture cannot be decoded: the file is damaged", "save it again");
      }
      return m;
    } catch (RuntimeException e) {
      if (e instanceof InputException) {
        throw e;
      }
      throw refuse(name, "the picture cannot be decoded: the file is damaged", "save it again");
    }
  }

  /** A PNG of 16 bits a channel, or a TIFF, whose depth the decoder knows best. */
  private static boolean deep(byte[] b) {
    return b[0] == 'I' || b[0] == 'M' || (b[1] == 'P' && b[24] == 16);
  }

  /**
   * Cameras of 10 to 14 bits store their values unshifted in 16: the picture is as deep as its
   * largest value, or it would be nearly black.
   */
  private static Mat ofDeep(Mat raw) {
    Mat m =
        opencv_imgcodecs.imdecode(
            raw, opencv_imgcodecs.IMREAD_COLOR | opencv_imgcodecs.IMREAD_ANYDEPTH);
    if (m == null || m.depth() != opencv_core.CV_16U) {
      return opencv_imgcodecs.imdecode(raw, opencv_imgcodecs.IMREAD_COLOR);
    }
    double[] largest = new double[1];
    try (Mat flat = m.reshape(1)) {
      opencv_core.minMaxLoc(flat, null, largest, null, null, null);
    }
    int bits = 8;
    while (bits < 16 && largest[0] >= 1 << bits) {
      bits++;
    }
    Mat eight = new Mat();
    m.convertTo(eight, opencv_core.CV_8U, 255.0 / ((1 << bits) - 1), 0);
    m.close();
    return eight;
  }

  private static InputException refuse(String name, String found, String mend) {
    return new InputException(Problem.of(name, found, mend));
  }
}
