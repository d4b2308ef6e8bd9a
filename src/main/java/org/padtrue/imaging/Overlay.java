package org.padtrue.imaging;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.IntPointer;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgcodecs;
import org.bytedeco.opencv.global.opencv_imgproc;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Point;
import org.bytedeco.opencv.opencv_core.Rect;
import org.bytedeco.opencv.opencv_core.Scalar;
import org.bytedeco.opencv.opencv_core.Size;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.MarkReport;
import org.padtrue.imaging.picture.NativeLibraries;
import org.padtrue.imaging.picture.OpenPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureReader;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.panel.Job;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Pictures for a person to judge by: the whole with every outline as measured, and a sheet of
 * crops, worst first. Colours are told apart by colour-blind eyes (blue found, orange doubtful,
 * vermilion not found, grey missing) and each also has its own line style or word.
 */
public final class Overlay {
  private static final int MAX_SIDE = 4000;
  private static final int CELL = 220;
  private static final int TITLE = 34;

  /** Between crops, so that neighbours do not look like one picture. */
  private static final int GAP = 5;

  private Overlay() {}

  /**
   * Draws every reading of one picture onto it, and a sheet of crops, rejected ones first, then by
   * falling doubt.
   *
   * @param open where the picture is read, unless it is there already
   * @param picture the file that was measured
   * @param index its place among the pictures of the result
   * @param count at most so many crops
   * @param whole JPEG or PNG to write; replaced only when complete
   * @param sheet likewise
   */
  public static void both(
      Job job,
      DetectionResult r,
      OpenPicture open,
      Path picture,
      int index,
      int count,
      Path whole,
      Path sheet)
      throws IOException {
    Picture p = open.read(picture);
    together(() -> whole(job, r, p, index, whole), () -> sheet(job, r, p, index, count, sheet));
  }

  /** Something that writes. */
  @FunctionalInterface
  private interface Writing {
    void run() throws IOException;
  }

  /** Two at once: most of either is compressing. Both have ended when this returns or throws. */
  private static void together(Writing one, Writing other) throws IOException {
    CompletableFuture<@Nullable IOException> beside =
        CompletableFuture.supplyAsync(
            () -> {
              try {
                one.run();
                return null;
              } catch (IOException e) {
                return e;
              }
            });
    try {
      other.run();
    } finally {
      // The picture must stay open until the other one is done with it, whatever happened here.
      beside.handle((done, fault) -> done).join();
    }
    IOException failed = beside.join();
    if (failed != null) {
      throw failed;
    }
  }

  private static void whole(Job job, DetectionResult r, Picture p, int index, Path to)
      throws IOException {
    try (Mat canvas = new Mat()) {
      double f = Math.min(1, MAX_SIDE / (double) Math.max(p.width(), p.height()));
      Size size = new Size((int) Math.round(p.width() * f), (int) Math.round(p.height() * f));
      opencv_imgproc.resize(p.mat(), canvas, size, 0, 0, opencv_imgproc.INTER_AREA);
      Frame frame = new Frame(r.maps().get(index), f, 0, 0);
      for (PlacementReading q : r.readings()) {
        if (q.picture() == index && q.status() != ReadingStatus.NO_GEOMETRY) {
          draw(canvas, Shape.of(job, r, q), q, frame, true);
        }
      }
      for (MarkReport m : r.maps().get(index).marks()) {
        mark(canvas, r, index, m, frame);
      }
      write(canvas, to);
    }
  }

  private static void sheet(Job job, DetectionResult r, Picture p, int index, int count, Path to)
      throws IOException {
    List<PlacementReading> all =
        r.worstFirst().stream().filter(q -> q.picture() == index).limit(count).toList();
    try (Mat sheet = empty(all.size())) {
      for (int i = 0; i < all.size(); i++) {
        cell(sheet, p, job, r, all.get(i), i, all.size());
      }
      write(sheet, to);
    }
  }

  /**
   * A sheet of crops from many pictures, such as close-ups: rejected ones first, then by falling
   * doubt.
   *
   * @param pictures the files that were measured, in the result's order
   * @param from the first crop of this sheet, from 0 for the worst
   * @param count at most so many crops
   */
  public static void sheet(
      Job job, DetectionResult r, List<Path> pictures, int from, int count, Path to)
      throws IOException {
    List<PlacementReading> all =
        r.worstFirst().stream().filter(q -> q.picture() >= 0).skip(from).limit(count).toList();
    NativeLibraries.load();
    try (Mat sheet = empty(all.size())) {
      for (int i = 0; i < all.size(); i++) {
        try (Picture p = PictureReader.read(pictures.get(all.get(i).picture()))) {
          cell(sheet, p, job, r, all.get(i), i, all.size());
        }
      }
      write(sheet, to);
    }
  }

  private static int columns(int crops) {
    return Math.max(1, Math.min(8, (int) Math.ceil(Math.sqrt(crops))));
  }

  private static Mat empty(int crops) {
    int columns = columns(crops);
    int rows = Math.max(1, (crops + columns - 1) / columns);
    Scalar paper = new Scalar(245, 245, 245, 0);
    return new Mat(rows * (CELL + TITLE), columns * CELL, opencv_core.CV_8UC3, paper);
  }

  /** How panel directions lie on a canvas: around a reading's own picture position. */
  private record Frame(MapReport map, double factor, double x0, double y0) {
    Point at(PlacementReading q, double dxMm, double dyMm) {
      double k = map.pxPerMm() * factor;
      double c = Angles.cosDeg(map.rotationDeg()) * k;
      double s = Angles.sinDeg(map.rotationDeg()) * k;
      double sx = map.mirrored() ? -1 : 1;
      // A mirrored view counts its direction the other way round.
      double x = map.mirrored() ? c * dxMm - sx * -s * dyMm : c * dxMm - s * dyMm;
      double y = map.mirrored() ? s * dxMm - c * dyMm : s * dxMm + c * dyMm;
      return new Point(
          (int) Math.round((q.xPx() - x0) * factor + x),
          (int) Math.round((q.yPx() - y0) * factor - y));
    }
  }

  private static void cell(
      Mat sheet, Picture p, Job job, DetectionResult r, PlacementReading q, int i, int of) {
    int x = (i % columns(of)) * CELL;
    int y = (i / columns(of)) * (CELL + TITLE);
    MapReport map = r.maps().get(q.picture());
    Shape o = Shape.of(job, r, q);
    double half = (o.reachMm * 1.5 + 0.5) * map.pxPerMm();
    int a = (int) Math.max(0, Math.min(p.width() - 2.0, q.xPx() - half));
    int b = (int) Math.max(0, Math.min(p.height() - 2.0, q.yPx() - half));
    int w = (int) Math.min(p.width() - a, 2 * half);
    int h = (int) Math.min(p.height() - b, 2 * half);
    if (w > 1 && h > 1) {
      int side = CELL - GAP;
      double f = side / (2 * half);
      try (Mat crop = p.mat().apply(new Rect(a, b, w, h));
          Mat large = new Mat()) {
        int lw = Math.max(1, Math.min(side, (int) Math.round(w * f)));
        int lh = Math.max(1, Math.min(side, (int) Math.round(h * f)));
        int how = f > 1 ? opencv_imgproc.INTER_CUBIC : opencv_imgproc.INTER_AREA;
        opencv_imgproc.resize(crop, large, new Size(lw, lh), 0, 0, how);
        draw(large, o, q, new Frame(map, f, a, b), false);
        try (Mat to = sheet.apply(new Rect(x, y + TITLE, lw, lh))) {
          large.copyTo(to);
        }
      }
    }
    title(sheet, q, x, y);
  }

  private static void title(Mat sheet, PlacementReading q, int x, int y) {
    String head = q.id() + "  " + q.status().words();
    text(sheet, head, x + 4, y + 14, colour(q.status()), fitting(head, 0.42));
    Pose p = q.pose();
    if (p != null) {
      String s =
          String.format(
              Locale.ROOT,
              "%+d %+d um %+.2f deg  u %.0f um",
              Math.round(1000 * (p.xMm() - q.nominal().xMm())),
              Math.round(1000 * (p.yMm() - q.nominal().yMm())),
              Angles.wrap(p.rotationDeg() - q.nominal().rotationDeg()),
              1000 * q.uMm());
      text(sheet, s, x + 4, y + 29, new Scalar(40, 40, 40, 0), fitting(s, 0.36));
    } else {
      String why = q.note().length() > 36 ? q.note().substring(0, 34) + "..." : q.note();
      text(sheet, why, x + 4, y + 29, new Scalar(40, 40, 40, 0), 0.33);
    }
    if (q.status() != ReadingStatus.FOUND) {
      opencv_imgproc.rectangle(
          sheet,
          new Rect(x + 1, y + TITLE, CELL - GAP - 1, CELL - GAP),
          colour(q.status()),
          3,
          opencv_imgproc.LINE_8,
          0);
    }
  }

  /** What is drawn of a part: closed lines in the part frame, mm, and how far they reach. */
  private record Shape(List<List<double[]>> lines, double reachMm) {
    static Shape of(Job job, DetectionResult r, PlacementReading q) {
      TaughtLook look = r.look(q.placement().part());
      if (look != null) {
        return new Shape(look.contours(), Math.max(look.lengthMm(), look.widthMm()) / 2);
      }
      Outline o = Outline.of(job.partType(q.placement().part()));
      List<List<double[]>> lines = new ArrayList<>();
      for (org.padtrue.panel.Rect rect : o.rects()) {
        List<double[]> corner = new ArrayList<>();
        for (int i = 0; i < 4; i++) {
          double u = rect.xMm() + (i == 0 || i == 3 ? -1 : 1) * rect.lengthMm() / 2;
          double v = rect.yMm() + (i < 2 ? -1 : 1) * rect.widthMm() / 2;
          corner.add(new double[] {u, v});
        }
        lines.add(corner);
      }
      return new Shape(lines, Math.max(o.halfLengthMm(), o.halfWidthMm()));
    }
  }

  private static void draw(Mat canvas, Shape shape, PlacementReading q, Frame f, boolean label) {
    Pose p = q.pose() == null ? q.nominal() : q.pose();
    Scalar colour = colour(q.status());
    int thick = label ? Math.max(1, canvas.cols() / 1800) : 1;
    double c = Angles.cosDeg(p.rotationDeg());
    double s = Angles.sinDeg(p.rotationDeg());
    for (List<double[]> line : shape.lines) {
      List<Point> corner = new ArrayList<>();
      line.forEach(v -> corner.add(f.at(q, c * v[0] - s * v[1], s * v[0] + c * v[1])));
      for (int i = 0; i < corner.size(); i++) {
        edge(canvas, corner.get(i), corner.get((i + 1) % corner.size()), q.status(), thick);
      }
    }
    if (q.pose() == null) {
      // Nothing measured: a cross over the place says so without colour.
      double e = shape.reachMm;
      edge(canvas, f.at(q, -e, -e), f.at(q, e, e), q.status(), thick);
      edge(canvas, f.at(q, -e, e), f.at(q, e, -e), q.status(), thick);
    }
    if (label && q.status() != ReadingStatus.FOUND) {
      Point at = f.at(q, 0, 0);
      label(canvas, q.placement().ref(), at.x() + 8, at.y() - 8, colour, 0.4 * thick + 0.2);
    }
  }

  private static void mark(Mat canvas, DetectionResult r, int index, MarkReport m, Frame f) {
    if (Double.isNaN(m.xMm())) {
      return;
    }
    // From the nearest reading, whose picture place is known.
    PlacementReading near = null;
    double best = Double.POSITIVE_INFINITY;
    for (PlacementReading q : r.readings()) {
      Pose p = q.pose();
      if (p != null && q.picture() == index) {
        double d = Math.hypot(p.xMm() - m.xMm(), p.yMm() - m.yMm());
        if (d < best) {
          best = d;
          near = q;
        }
      }
    }
    if (near == null || near.pose() == null) {
      return;
    }
    Point at = f.at(near, m.xMm() - near.pose().xMm(), m.yMm() - near.pose().yMm());
    Scalar colour = m.used() ? colour(ReadingStatus.FOUND) : colour(ReadingStatus.NOT_FOUND);
    int radius = (int) Math.max(6, f.map.pxPerMm() * f.factor);
    opencv_imgproc.circle(canvas, at, radius, colour, 2, opencv_imgproc.LINE_AA, 0);
    int right = at.x() + radius + 2;
    int wide = width(m.name(), 0.6);
    // Marks stand near the rim: there the name goes to the other side.
    int x = right + wide < canvas.cols() ? right : at.x() - radius - 2 - wide;
    label(canvas, m.name(), x, at.y(), colour, 0.6);
  }

  private static Scalar colour(ReadingStatus s) {
    return switch (s) {
      case FOUND -> new Scalar(178, 114, 0, 0);
      case DOUBTFUL -> new Scalar(0, 159, 230, 0);
      case NOT_FOUND -> new Scalar(0, 94, 213, 0);
      case MISSING, OUT_OF_PICTURE, NO_GEOMETRY -> new Scalar(70, 70, 70, 0);
    };
  }

  /** What is not simply found is drawn on a white band: seen on any ground. */
  private static void edge(Mat m, Point a, Point b, ReadingStatus s, int thick) {
    if (s != ReadingStatus.FOUND) {
      line(m, a, b, new Scalar(255, 255, 255, 0), 3 * thick);
    }
    line(m, a, b, colour(s), thick);
  }

  private static void line(Mat m, Point a, Point b, Scalar colour, int thick) {
    opencv_imgproc.line(m, a, b, colour, thick, opencv_imgproc.LINE_AA, 0);
  }

  /** A size at which a text does not run into the next cell. */
  private static double fitting(String s, double size) {
    return Math.min(size, size * (CELL - GAP - 4) / Math.max(1, width(s, size)));
  }

  /** How wide a text is drawn, px. */
  private static int width(String s, double size) {
    int[] below = new int[1];
    try (Size box =
        opencv_imgproc.getTextSize(s, opencv_imgproc.FONT_HERSHEY_SIMPLEX, size, 1, below)) {
      return box.width();
    }
  }

  /** Text on a picture, on a white band. */
  private static void label(Mat m, String s, int x, int y, Scalar colour, double size) {
    opencv_imgproc.putText(
        m,
        s,
        new Point(x, y),
        opencv_imgproc.FONT_HERSHEY_SIMPLEX,
        size,
        new Scalar(255, 255, 255, 0),
        4,
        opencv_imgproc.LINE_AA,
        false);
    text(m, s, x, y, colour, size);
  }

  private static void text(Mat m, String s, int x, int y, Scalar colour, double size) {
    opencv_imgproc.putText(
        m,
        s,
        new Point(x, y),
        opencv_imgproc.FONT_HERSHEY_SIMPLEX,
        size,
        colour,
        1,
        opencv_imgproc.LINE_AA,
        false);
  }

  static void write(Mat m, Path to) throws IOException {
    boolean png = to.toString().toLowerCase(Locale.ROOT).endsWith(".png");
    byte[] bytes;
    try (BytePointer out = new BytePointer();
        IntPointer quality = new IntPointer(opencv_imgcodecs.IMWRITE_JPEG_QUALITY, 88);
        IntPointer quick = new IntPointer(opencv_imgcodecs.IMWRITE_PNG_COMPRESSION, 1)) {
      if (png) {
        opencv_imgcodecs.imencode(".png", m, out, quick);
      } else {
        opencv_imgcodecs.imencode(".jpg", m, out, quality);
      }
      bytes = new byte[(int) out.limit()];
      out.get(bytes);
    }
    // Not a temporary file of the system: those are for the user's own eyes.
    Path aside = to.resolveSibling(to.getFileName() + ".part");
    try {
      Files.write(aside, bytes);
      Files.move(aside, to, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(aside);
    }
  }
}
