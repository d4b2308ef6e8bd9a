package org.padtrue.imaging;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.opencv.global.opencv_imgcodecs;
import org.bytedeco.opencv.opencv_core.Mat;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Reads picture files: JPEG, PNG, TIFF, BMP; grey, 16-bit and alpha become 8-bit colour; turned as
 * EXIF says.
 */
final class PictureReader {
  /** A picture larger than this is not a picture of a panel, px. */
  static final long MAX_PIXELS = 250_000_000L;

  private static final long MAX_BYTES = 1L << 30;

  private PictureReader() {}

  /** Reads a picture or says in one sentence why not. */
  static Picture read(Path file) {
    return decode(file.toString(), bytes(file));
  }

  private static byte[] bytes(Path file) {
    String name = file.toString();
    try {
      if (!Files.isRegularFile(file)) {
        throw refuse(name, "there is no such file", "check the path");
      }
      if (Files.size(file) > MAX_BYTES) {
        throw refuse(name, "the file is larger than 1 GiB", "save the picture as JPEG or PNG");
      }
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw refuse(name, "the file cannot be read", "check that it is a file you may read");
    }
  }

  static Picture decode(String name, byte[] b) {
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
        Mat raw = new Mat(1, b.length, org.bytedeco.opencv.global.opencv_core.CV_8U, p)) {
      Mat m = opencv_imgcodecs.imdecode(raw, opencv_imgcodecs.IMREAD_COLOR);
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

  private static InputException refuse(String name, String found, String mend) {
    return new InputException(Problem.of(name, found, mend));
  }
}
