package org.padtrue.door;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.padtrue.SyntheticPanel;
import org.padtrue.panel.Board;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.Article;

/**
 * Simulated articles, honest and with a usual mistake; a seed is an article.
 *
 * <p>Honest: 1 to 6 boards, 8 placements and up, types at one to four turns, shifts to 0.5 mm,
 * turns to 1 degree, scales to 1000 ppm, squareness to 1 mrad, scatter 8 to 40 um, type offsets of
 * 40 um (SD) or, in every third article, anywhere to 0.3 mm; one placement in twenty is a gross
 * error.
 */
final class DoorArticles {
  final Job job;
  final List<Measured> rows;
  final boolean poses;

  DoorArticles(Job job, List<Measured> rows, boolean poses) {
    this.job = job;
    this.rows = rows;
    this.poses = poses;
  }

  static DoorArticles honest(long seed) {
    return honest(seed, false);
  }

  /** Honest, with one placement in ten a gross error and one part type off by 0.3 to 1 mm. */
  static DoorArticles hard(long seed) {
    return honest(seed, true);
  }

  /** Honest and trimmed by a fine machine: scatter 3 to 12 um, all else within a few um. */
  static DoorArticles trimmed(long seed) {
    SyntheticPanel s = new SyntheticPanel(seed);
    Random q = s.random;
    s.perBoard = 8 + (int) Math.floor(Math.exp(q.nextDouble() * Math.log(150)));
    s.types = 1 + q.nextInt(8);
    s.boardX = 25 + 100 * q.nextDouble();
    s.boardY = 20 + 80 * q.nextDouble();
    s.scatter = 0.003 * Math.exp(q.nextDouble() * Math.log(4));
    s.rotationScatter = 0.05 + 0.1 * q.nextDouble();
    s.typeSd = 0.003;
    s.typeRotationSd = 0.03;
    s.shiftX = 0.005 * q.nextGaussian();
    s.shiftY = 0.005 * q.nextGaussian();
    s.uncertainty = q.nextBoolean() ? 0.003 : Double.NaN;
    s.draw();
    List<Measured> rows = new ArrayList<>();
    for (Measured m : s.article("trimmed").measured()) {
      rows.add(with(m, round(m.dxMm()), round(m.dyMm())));
    }
    return new DoorArticles(s.job(), rows, false);
  }

  /** The same without rotations. */
  DoorArticles withoutRotations() {
    List<Measured> bare = new ArrayList<>();
    for (Measured m : rows) {
      bare.add(at(m, m.board(), m.nominal(), m.dxMm(), m.dyMm(), Double.NaN));
    }
    return new DoorArticles(job, bare, poses);
  }

  private static DoorArticles honest(long seed, boolean hard) {
    SyntheticPanel s = new SyntheticPanel(seed);
    Random q = s.random;
    int[][] arrays = {{1, 1}, {1, 1}, {2, 1}, {1, 3}, {2, 2}, {3, 2}};
    int[] a = arrays[q.nextInt(arrays.length)];
    s.columns = a[0];
    s.rows = a[1];
    int boards = a[0] * a[1];
    int total = 8 + (int) Math.floor(Math.exp(q.nextDouble() * Math.log(150)));
    s.perBoard = Math.max(3, (total + boards - 1) / boards);
    s.types = 1 + q.nextInt(8);
    s.turns = q.nextInt(4) == 0 ? 1 : q.nextInt(3) == 0 ? 2 : 4;
    s.boardX = 25 + 100 * q.nextDouble();
    s.boardY = 20 + 80 * q.nextDouble();
    s.scatter = 0.008 + 0.032 * q.nextDouble();
    double r = 0.5 * q.nextDouble();
    double w = 2 * Math.PI * q.nextDouble();
    s.shiftX = r * Math.cos(w);
    s.shiftY = r * Math.sin(w);
    s.rotationDeg = 2 * q.nextDouble() - 1;
    s.scaleX = 1e-3 * (2 * q.nextDouble() - 1);
    s.scaleY = 1e-3 * (2 * q.nextDouble() - 1);
    s.squareness = 1e-3 * (2 * q.nextDouble() - 1);
    s.columnX = boards > 1 ? 0.03 * q.nextGaussian() : 0;
    s.rowY = boards > 1 ? 0.03 * q.nextGaussian() : 0;
    s.draw();
    boolean farTypes = q.nextInt(3) == 0;
    if (farTypes) {
      for (double[] o : s.offset.values()) {
        double d = 0.3 * q.nextDouble();
        double t = 2 * Math.PI * q.nextDouble();
        o[0] = d * Math.cos(t);
        o[1] = d * Math.sin(t);
      }
    }
    if (hard) {
      double d = 0.3 + 0.7 * q.nextDouble();
      double t = 2 * Math.PI * q.nextDouble();
      double[] o = s.offset.get("part T0");
      o[0] = d * Math.cos(t);
      o[1] = d * Math.sin(t);
    }
    Article article = s.article("honest");
    List<Measured> rows = new ArrayList<>();
    List<Measured> all = new ArrayList<>(article.measured());
    boolean some = q.nextBoolean();
    for (Measured m : all) {
      if (some && all.size() > 30 && q.nextInt(3) == 0) {
        continue;
      }
      Measured k = m;
      if (q.nextDouble() < (hard ? 0.1 : 0.05)) {
        k = gross(m, q);
      }
      rows.add(with(k, round(k.dxMm()), round(k.dyMm())));
    }
    return new DoorArticles(s.job(), rows, q.nextBoolean());
  }

  private static double round(double v) {
    return Math.rint(v * 1000) / 1000;
  }

  private static Measured gross(Measured m, Random q) {
    return switch (q.nextInt(4)) {
      case 0 -> with(m, 10 * m.dxMm(), m.dyMm());
      case 1 -> with(m, -m.dxMm() + 0.4, m.dyMm());
      case 2 -> with(m, m.dxMm() + 3 * q.nextGaussian(), m.dyMm() + 3 * q.nextGaussian());
      default -> with(m, m.dxMm() + 0.3 * q.nextGaussian(), m.dyMm() + 0.3 * q.nextGaussian());
    };
  }

  static Measured with(Measured m, double dx, double dy) {
    return at(m, m.board(), m.nominal(), dx, dy);
  }

  private static Measured at(Measured m, BoardIndex board, Pose nominal, double dx, double dy) {
    return at(m, board, nominal, dx, dy, m.dRotationDeg());
  }

  private static Measured at(
      Measured m, BoardIndex board, Pose nominal, double dx, double dy, double dRotation) {
    return new Measured(
        m.panel(),
        board,
        m.placement(),
        nominal,
        dx,
        dy,
        dRotation,
        m.uMm(),
        m.uRotationDeg(),
        m.levels(),
        m.order(),
        m.note(),
        m.line());
  }

  /** The same measurements in the other notation. */
  DoorArticles as(boolean otherPoses) {
    return new DoorArticles(job, rows, otherPoses);
  }

  Article article() {
    return new Article("a.csv", rows, List.of(), poses, false, OptionalDouble.empty(), List.of());
  }

  /** The article as somebody gives it who makes a mistake; null where it cannot be made. */
  DoorArticles mistaken(String mistake) {
    List<Measured> out = new ArrayList<>();
    double w = 0;
    double h = 0;
    for (Measured m : rows) {
      w = Math.max(w, m.nominal().xMm());
      h = Math.max(h, m.nominal().yMm());
    }
    boolean boards = mistake.startsWith("board");
    int columns = job.array().columns();
    int boardRows = job.array().rows();
    boolean possible =
        switch (mistake) {
          case "boardColumns" -> columns > 1;
          case "boardRows" -> boardRows > 1;
          case "boardBoth" -> columns > 1 && boardRows > 1;
          case "boardSwapped" -> columns > 1 && columns == boardRows;
          case "boardFrame" -> columns * boardRows > 1;
          default -> true;
        };
    if (!possible) {
      return null;
    }
    Random other = new Random(rows.size());
    for (Measured m : rows) {
      double x = m.nominal().xMm() + m.dxMm();
      double y = m.nominal().yMm() + m.dyMm();
      double u = poses ? x : m.dxMm();
      double v = poses ? y : m.dyMm();
      double ww = poses ? w : 0;
      double hh = poses ? h : 0;
      int c = m.board().column();
      int r = m.board().row();
      BoardIndex b = m.board();
      switch (mistake) {
        case "um" -> {
          u *= 1000;
          v *= 1000;
        }
        case "mil" -> {
          u = Math.rint(u / 0.0254 * 100) / 100;
          v = Math.rint(v / 0.0254 * 100) / 100;
        }
        case "inch" -> {
          u = Math.rint(u / 25.4 * 1e5) / 1e5;
          v = Math.rint(v / 25.4 * 1e5) / 1e5;
        }
        case "swapped" -> {
          double k = u;
          u = v;
          v = k;
        }
        case "turned90" -> {
          double k = u;
          u = hh - v;
          v = k;
        }
        case "turned180" -> {
          u = ww - u;
          v = hh - v;
        }
        case "turned270" -> {
          double k = u;
          u = v;
          v = ww - k;
        }
        case "mirrored" -> u = ww - u;
        case "bottom" -> u = -u;
        case "flipped" -> v = hh - v;
        case "poses" -> {
          u = x;
          v = y;
        }
        case "deviations" -> {
          u = m.dxMm();
          v = m.dyMm();
        }
        case "boardFrame" -> {
          Pose o = job.array().find(b).orElseThrow().origin();
          u -= o.xMm();
          v -= o.yMm();
        }
        case "boardColumns" -> b = new BoardIndex(columns + 1 - c, r);
        case "boardRows" -> b = new BoardIndex(c, boardRows + 1 - r);
        case "boardBoth" -> b = new BoardIndex(columns + 1 - c, boardRows + 1 - r);
        case "boardSwapped" -> b = new BoardIndex(r, c);
        case "otherBoard" -> {
          u = w * other.nextDouble();
          v = h * other.nextDouble();
        }
        case "nominal" -> {
          u = poses ? m.nominal().xMm() : 0;
          v = poses ? m.nominal().yMm() : 0;
        }
        case "nominalAsDeviations" -> {
          u = m.nominal().xMm();
          v = m.nominal().yMm();
        }
        default -> throw new IllegalArgumentException(mistake);
      }
      Board board = job.array().find(b).orElse(null);
      if (board == null) {
        return null;
      }
      Pose nominal =
          boards && !mistake.equals("boardFrame")
              ? m.placement().pose().seenFrom(board.origin())
              : m.nominal();
      out.add(at(m, b, nominal, poses ? u - nominal.xMm() : u, poses ? v - nominal.yMm() : v));
    }
    return new DoorArticles(job, out, poses);
  }
}
