package org.padtrue.imaging;

import java.io.IOException;
import java.nio.file.Path;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Size;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureReader;

/**
 * A copy of a picture that a browser shows: JPEG, made smaller where it is large.
 *
 * @param width of the picture itself, px
 * @param height of the picture itself, px
 */
public record PictureCopy(int width, int height) {
  /**
   * Writes the copy.
   *
   * @param picture the picture
   * @param maxSide longest side of the copy, px
   * @param to where to, a name that ends with .jpg; replaced only when complete
   * @return the picture's own size
   * @throws org.padtrue.problem.InputException when the file is no picture that can be read
   */
  public static PictureCopy write(Path picture, int maxSide, Path to) throws IOException {
    try (Picture p = PictureReader.read(picture);
        Mat copy = new Mat()) {
      double f = Math.min(1, maxSide / (double) Math.max(p.width(), p.height()));
      Size size = new Size((int) Math.round(p.width() * f), (int) Math.round(p.height() * f));
      opencv_imgproc.resize(p.mat(), copy, size, 0, 0, opencv_imgproc.INTER_AREA);
      Overlay.write(copy, to);
      return new PictureCopy(p.width(), p.height());
    }
  }
}
