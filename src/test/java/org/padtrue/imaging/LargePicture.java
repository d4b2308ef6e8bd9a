package org.padtrue.imaging;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgcodecs;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Rect;
import org.bytedeco.opencv.opencv_core.Scalar;
import org.padtrue.imaging.picture.NativeLibraries;
import org.padtrue.imaging.picture.OpenPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureReader;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardArray;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;

/**
 * A panel of twelve boards and 624 placements in one picture of 58 megapixels, and what it costs to
 * measure it beside merely decoding it. Run with the picture, in a process of its own.
 */
final class LargePicture {
  private static final int PX_PER_MM = 36;
  private static final int COLUMNS = 4;
  private static final int ROWS = 3;
  private static final int PITCH_X = 62;
  private static final int PITCH_Y = 60;
  private static final double SCATTER_MM = 0.03;
  private static final int ROUNDS = 5;

  private LargePicture() {}

  /** Twelve of the small mixed boards, with three fiducials of the panel. */
  static Job job() {
    Job one = TestPanels.mixed();
    List<Board> boards = new ArrayList<>();
    for (int row = 1; row <= ROWS; row++) {
      for (int column = 1; column <= COLUMNS; column++) {
        Pose at = new Pose((column - 1.0) * PITCH_X, (row - 1.0) * PITCH_Y, 0);
        boards.add(new Board(new BoardIndex(column, row), at, true));
      }
    }
    List<Fiducial> f = new ArrayList<>();
    double[][] moved = {{0, 0}, {(COLUMNS - 1.0) * PITCH_X, 0}, {0, (ROWS - 1.0) * PITCH_Y}};
    for (int i = 0; i < moved.length; i++) {
      Fiducial g = one.fiducials().get(i);
      f.add(TestPanels.fiducial(g.name(), g.xMm() + moved[i][0], g.yMm() + moved[i][1]));
    }
    return TestPanels.job(
        one.placements(),
        f,
        new BoardArray(COLUMNS, ROWS, boards, Set.of(), Double.NaN),
        one.parts().values().toArray(new PartType[0]));
  }

  private static Map<String, Pose> small() {
    return TestPanels.scattered(TestPanels.mixed(), SCATTER_MM, 0.5, 5);
  }

  /** The true poses: the same parts on every board. */
  static Map<String, Pose> truth() {
    Map<String, Pose> out = new HashMap<>();
    Map<String, Pose> one = small();
    for (Board b : job().array().boards()) {
      one.forEach(
          (id, p) ->
              out.put(
                  b.index() + id.substring(id.indexOf('/', id.indexOf('/') + 1)),
                  p.seenFrom(b.origin())));
    }
    return out;
  }

  /** Renders one board and lays it out as the panel. */
  static void write(Path to) throws IOException {
    RenderSettings s = RenderSettings.at(PX_PER_MM).noise(2).margin(4);
    try (Picture tile = PanelRenderer.render(TestPanels.mixed(), small(), s).picture();
        Mat whole =
            new Mat(
                ROWS * PITCH_Y * PX_PER_MM,
                COLUMNS * PITCH_X * PX_PER_MM,
                opencv_core.CV_8UC3,
                new Scalar(48, 92, 24, 0))) {
      for (int row = 0; row < ROWS; row++) {
        for (int column = 0; column < COLUMNS; column++) {
          Rect r =
              new Rect(
                  column * PITCH_X * PX_PER_MM + 90,
                  row * PITCH_Y * PX_PER_MM + 90,
                  tile.width(),
                  tile.height());
          try (Mat part = new Mat(whole, r)) {
            tile.mat().copyTo(part);
          }
        }
      }
      if (!opencv_imgcodecs.imwrite(to.toString(), whole)) {
        throw new IOException("cannot write " + to);
      }
    }
  }

  /** Largest resident memory of this process so far, MB. */
  private static double peakMb() throws IOException {
    return Files.readAllLines(Path.of("/proc/self/status")).stream()
        .filter(l -> l.startsWith("VmHWM"))
        .mapToDouble(l -> Double.parseDouble(l.replaceAll("\\D", "")) / 1024)
        .findFirst()
        .orElse(Double.NaN);
  }

  /** Times by stage, medians, as ratios to decoding; then memory. */
  public static void main(String[] args) throws IOException {
    Path file = Path.of(args[0]);
    Job job = job();
    NativeLibraries.load();
    double before = peakMb();
    double[] decode = new double[ROUNDS];
    double pixels = 0;
    for (int i = 0; i < ROUNDS; i++) {
      long t = System.nanoTime();
      try (Picture p = PictureReader.read(file)) {
        decode[i] = (System.nanoTime() - t) * 1e-9;
        pixels = p.width() * (double) p.height();
      }
    }
    double decoded = peakMb();
    double[][] stage = new double[4][ROUNDS];
    DetectionResult r = null;
    for (int i = 0; i < ROUNDS; i++) {
      long[] at = new long[2];
      long t = System.nanoTime();
      try (OpenPicture open = new OpenPicture()) {
        r =
            PictureDetection.overview(
                job,
                List.of(file),
                DetectionOptions.withDefaults().cameraDistance(Double.POSITIVE_INFINITY),
                (done, all) -> at[0] = at[0] == 0 ? System.nanoTime() : at[0],
                open);
        long end = System.nanoTime();
        Path whole = file.resolveSibling("overlay.png");
        Overlay.both(job, r, open, file, 0, 60, whole, file.resolveSibling("sheet.png"));
        stage[0][i] = (at[0] - t) * 1e-9 - decode[i];
        stage[1][i] = (end - at[0]) * 1e-9;
        stage[2][i] = (System.nanoTime() - end) * 1e-9;
        stage[3][i] = (System.nanoTime() - t) * 1e-9;
      }
    }
    Measured m = Measured.of(java.util.Objects.requireNonNull(r), truth());
    double unit = median(decode);
    System.out.printf(
        Locale.ROOT,
        "%.0f megapixels, %d placements, %s%n",
        pixels / 1e6,
        truth().size(),
        m.line(""));
    String[] names = {"laying on", "measuring", "overlay and sheet", "all"};
    System.out.printf(Locale.ROOT, "decoding 1 (%.2f s)%n", unit);
    for (int k = 0; k < names.length; k++) {
      double[] v = stage[k].clone();
      Arrays.sort(v);
      System.out.printf(
          Locale.ROOT,
          "%s %.2f (%.2f to %.2f)%n",
          names[k],
          median(v) / unit,
          v[0] / unit,
          v[ROUNDS - 1] / unit);
    }
    double mb = 3 * pixels / (1 << 20);
    System.out.printf(
        Locale.ROOT,
        "memory: program %.0f MB, decoding to %.0f MB, all to %.0f MB = %.1f times the decoded %.0f"
            + " MB%n",
        before,
        decoded,
        peakMb(),
        peakMb() / mb,
        mb);
  }

  private static double median(double[] v) {
    double[] s = v.clone();
    Arrays.sort(s);
    return s[s.length / 2];
  }
}
