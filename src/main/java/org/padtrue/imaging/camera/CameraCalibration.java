package org.padtrue.imaging.camera;

import java.nio.DoubleBuffer;
import java.nio.FloatBuffer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.bytedeco.opencv.global.opencv_calib3d;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.MatVector;
import org.bytedeco.opencv.opencv_core.Point2f;
import org.bytedeco.opencv.opencv_core.Point2fVector;
import org.bytedeco.opencv.opencv_core.Point2fVectorVector;
import org.bytedeco.opencv.opencv_core.Point3f;
import org.bytedeco.opencv.opencv_core.Point3fVector;
import org.bytedeco.opencv.opencv_core.Point3fVectorVector;
import org.bytedeco.opencv.opencv_core.Size;
import org.bytedeco.opencv.opencv_core.TermCriteria;
import org.padtrue.imaging.map.CameraModel;
import org.padtrue.imaging.picture.NativeLibraries;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureReader;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Camera model from pictures of a chessboard or a circle grid. */
public final class CameraCalibration {
  /** Fewer pictures do not fix a lens. */
  private static final int MIN_VIEWS = 3;

  /** The rational model is taken when it lowers the error by this share and more. */
  private static final double RATIONAL_GAIN = 0.1;

  /** A focal length less sure than this share, one standard error, is said to be. */
  private static final double LOOSE_FOCAL = 0.01;

  /**
   * The outcome.
   *
   * @param model the lens
   * @param rational whether the rational model was needed
   * @param pitchMm grid pitch that was given
   * @param focalSdPx standard error of the focal length, px
   * @param rmsPx root mean square distance of the grid points from where the model has them, px
   * @param meanPx their mean distance, px; never more than rmsPx
   * @param views one for each picture
   * @param notes what a reader should know, one sentence each
   */
  public record Result(
      CameraModel model,
      boolean rational,
      double pitchMm,
      double focalSdPx,
      double rmsPx,
      double meanPx,
      List<View> views,
      List<String> notes) {
    public Result {
      views = List.copyOf(views);
      notes = List.copyOf(notes);
    }
  }

  /**
   * One picture.
   *
   * @param picture file
   * @param found whether the grid was found
   * @param rmsPx its re-projection error, NaN when not found
   * @param distanceMm from the camera to the grid's middle, NaN when not found
   */
  public record View(String picture, boolean found, double rmsPx, double distanceMm) {}

  private final int columns;
  private final int rows;
  private final double pitchMm;

  private CameraCalibration(int columns, int rows, double pitchMm) {
    this.columns = columns;
    this.rows = rows;
    this.pitchMm = pitchMm;
  }

  /**
   * Calibrates.
   *
   * @param pictures of the grid in different attitudes, all of one size; ten and more are good
   * @param columns inner corners, or circles, in a row
   * @param rows rows of them
   * @param pitchMm their distance
   * @throws InputException when too few pictures show the grid
   */
  public static Result calibrate(List<Path> pictures, int columns, int rows, double pitchMm) {
    if (columns < 3 || rows < 3 || !(pitchMm > 0)) {
      throw new IllegalArgumentException(
          "grid " + columns + " x " + rows + ", pitch " + pitchMm + "; expected 3 x 3, > 0");
    }
    return new CameraCalibration(columns, rows, pitchMm).run(pictures);
  }

  private Result run(List<Path> pictures) {
    NativeLibraries.load();
    List<float[]> image = new ArrayList<>();
    List<String> shown = new ArrayList<>();
    List<String> missed = new ArrayList<>();
    List<Problem> problems = new ArrayList<>();
    int width = 0;
    int height = 0;
    for (Path file : pictures) {
      try (Picture p = PictureReader.read(file)) {
        if (width == 0) {
          width = p.width();
          height = p.height();
        } else if (p.width() != width || p.height() != height) {
          problems.add(
              Problem.of(
                  file.toString(),
                  "the picture is "
                      + p.width()
                      + " x "
                      + p.height()
                      + " px, the first one is "
                      + width
                      + " x "
                      + height,
                  "take all with one setting"));
        }
        float[] corners = problems.isEmpty() ? grid(p) : null;
        if (corners == null) {
          missed.add(file.toString());
        } else {
          twice(image, corners)
              .ifPresent(
                  i ->
                      problems.add(
                          Problem.of(
                              file.toString(),
                              "the grid lies exactly as in " + shown.get(i),
                              "give every picture once")));
          image.add(corners);
          shown.add(file.toString());
        }
      } catch (InputException e) {
        problems.addAll(e.problems());
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    if (shown.size() < MIN_VIEWS) {
      throw new InputException(
          Problem.of(
              pictures.get(0).toString(),
              "the grid of "
                  + columns
                  + " x "
                  + rows
                  + " inner corners or circles was found in "
                  + shown.size()
                  + " of "
                  + pictures.size()
                  + " pictures",
              "give at least 3 that show the whole grid, sharp, from different sides"));
    }
    return solve(image, shown, missed, width, height);
  }

  /** Which picture has its grid where this one has it: noise alone moves the corners. */
  private static OptionalInt twice(List<float[]> image, float[] corners) {
    return IntStream.range(0, image.size())
        .filter(i -> Arrays.equals(image.get(i), corners))
        .findFirst();
  }

  /** Sub-pixel grid points, or null when the grid is not seen whole. */
  private float @org.jspecify.annotations.Nullable [] grid(Picture p) {
    Size size = new Size(columns, rows);
    try (Mat grey = new Mat();
        Mat corners = new Mat()) {
      opencv_imgproc.cvtColor(p.mat(), grey, opencv_imgproc.COLOR_BGR2GRAY);
      if (opencv_calib3d.findChessboardCorners(
          grey,
          size,
          corners,
          opencv_calib3d.CALIB_CB_ADAPTIVE_THRESH
              | opencv_calib3d.CALIB_CB_NORMALIZE_IMAGE
              | opencv_calib3d.CALIB_CB_FAST_CHECK)) {
        int half = Math.max(3, (int) Math.min(11, spacing(corners) / 4));
        opencv_imgproc.cornerSubPix(
            grey,
            corners,
            new Size(half, half),
            new Size(-1, -1),
            new TermCriteria(TermCriteria.EPS | TermCriteria.COUNT, 60, 1e-4));
        return points(corners);
      }
      return opencv_calib3d.findCirclesGrid(grey, size, corners) ? points(corners) : null;
    }
  }

  private static double spacing(Mat corners) {
    FloatBuffer f = corners.createBuffer();
    return Math.hypot(f.get(2) - f.get(0), f.get(3) - f.get(1));
  }

  private float[] points(Mat corners) {
    float[] v = new float[2 * columns * rows];
    corners.<FloatBuffer>createBuffer().get(v);
    return v;
  }

  private Point3fVector target() {
    Point3fVector v = new Point3fVector();
    for (int i = 0; i < columns * rows; i++) {
      v.push_back(
          new Point3f((float) ((i % columns) * pitchMm), (float) ((i / columns) * pitchMm), 0));
    }
    return v;
  }

  /** A fit of one lens model. */
  private record Fit(
      double rms,
      double[] k,
      double[] d,
      double[] perView,
      double[] distance,
      double focalSdPx,
      List<double[]> rotations,
      List<double[]> shifts) {}

  private Result solve(
      List<float[]> image, List<String> shown, List<String> missed, int width, int height) {
    Size size = new Size(width, height);
    // Pixels are square: one focal length, as in the published runs this is checked against.
    int square = opencv_calib3d.CALIB_FIX_ASPECT_RATIO;
    Fit plain = fit(image, size, square);
    Fit rational = fit(image, size, square | opencv_calib3d.CALIB_RATIONAL_MODEL);
    boolean richer = rational.rms < (1 - RATIONAL_GAIN) * plain.rms && shown.size() >= 8;
    Fit f = richer ? rational : plain;
    double[] d = Arrays.copyOf(f.d, 8);
    CameraModel model =
        new CameraModel(
            width, height, f.k[0], f.k[4], f.k[2], f.k[5], d[0], d[1], d[2], d[3], d[4], d[5], d[6],
            d[7]);
    List<View> views = new ArrayList<>();
    for (int i = 0; i < shown.size(); i++) {
      views.add(new View(shown.get(i), true, f.perView[i], f.distance[i]));
    }
    missed.forEach(m -> views.add(new View(m, false, Double.NaN, Double.NaN)));
    double mean = meanError(image, model, f);
    return new Result(
        model, richer, pitchMm, f.focalSdPx, f.rms, mean, views, notes(f, shown, missed));
  }

  private static List<String> notes(Fit f, List<String> shown, List<String> missed) {
    List<String> notes = new ArrayList<>();
    missed.forEach(m -> notes.add("the grid was not found in " + m));
    if (f.focalSdPx > LOOSE_FOCAL * f.k[0]) {
      notes.add(
          String.format(
              java.util.Locale.ROOT,
              "the focal length is known to %.1f %% only: tilt the grid more, this way and that",
              100 * f.focalSdPx / f.k[0]));
    }
    if (shown.size() < 10) {
      notes.add(shown.size() + " pictures show the grid; ten and more fix the lens better");
    }
    double[] s = f.perView.clone();
    Arrays.sort(s);
    for (int i = 0; i < shown.size(); i++) {
      if (f.perView[i] > 2.5 * s[s.length / 2]) {
        notes.add(
            String.format(
                java.util.Locale.ROOT,
                "%s fits badly (%.2f px against %.2f px usual): leave it out",
                shown.get(i),
                f.perView[i],
                s[s.length / 2]));
      }
    }
    return notes;
  }

  private Fit fit(List<float[]> views, Size size, int flags) {
    Point3fVectorVector object = new Point3fVectorVector();
    Point2fVectorVector image = new Point2fVectorVector();
    for (float[] p : views) {
      Point2fVector v = new Point2fVector();
      for (int i = 0; i < p.length; i += 2) {
        v.push_back(new Point2f(p[i], p[i + 1]));
      }
      image.push_back(v);
      object.push_back(target());
    }
    Mat k = Mat.eye(3, 3, opencv_core.CV_64F).asMat();
    Mat d = new Mat();
    MatVector r = new MatVector();
    MatVector t = new MatVector();
    Mat sdIn = new Mat();
    Mat sdEx = new Mat();
    Mat per = new Mat();
    double rms =
        opencv_calib3d.calibrateCameraExtended(
            object,
            image,
            size,
            k,
            d,
            r,
            t,
            sdIn,
            sdEx,
            per,
            flags,
            new TermCriteria(TermCriteria.EPS | TermCriteria.COUNT, 100, 1e-12));
    double[] distance = new double[(int) t.size()];
    List<double[]> rotations = new ArrayList<>();
    List<double[]> shifts = new ArrayList<>();
    for (int i = 0; i < distance.length; i++) {
      distance[i] = Math.abs(numbers(t.get(i))[2]);
      try (Mat turn = new Mat()) {
        opencv_calib3d.Rodrigues(r.get(i), turn);
        rotations.add(numbers(turn));
      }
      shifts.add(numbers(t.get(i)));
    }
    // Of fx, fy, ...; with square pixels only the second is free.
    double[] sd = numbers(sdIn);
    return new Fit(rms, numbers(k), numbers(d), numbers(per), distance, sd[1], rotations, shifts);
  }

  /** Mean distance of the grid points from where the model has them, px. */
  private double meanError(List<float[]> image, CameraModel m, Fit f) {
    double sum = 0;
    int n = 0;
    for (int i = 0; i < f.distance.length; i++) {
      double[] a = f.rotations.get(i);
      double[] t = f.shifts.get(i);
      float[] p = image.get(i);
      for (int j = 0; j < columns * rows; j++) {
        double x = (j % columns) * pitchMm;
        double y = (j / columns) * pitchMm;
        double z = a[6] * x + a[7] * y + t[2];
        double u = m.fxPx() * (a[0] * x + a[1] * y + t[0]) / z + m.cxPx();
        double v = m.fyPx() * (a[3] * x + a[4] * y + t[1]) / z + m.cyPx();
        double[] q = m.distort(u, v);
        sum += Math.hypot(q[0] - p[2 * j], q[1] - p[2 * j + 1]);
        n++;
      }
    }
    return sum / n;
  }

  private static double[] numbers(Mat m) {
    double[] v = new double[(int) m.total() * m.channels()];
    m.<DoubleBuffer>createBuffer().get(v);
    return v;
  }
}
