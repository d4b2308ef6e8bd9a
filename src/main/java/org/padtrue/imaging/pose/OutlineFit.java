package org.padtrue.imaging.pose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.EdgeLocator;
import org.padtrue.imaging.picture.Matrices;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Rect;
import org.padtrue.quantity.Angles;

/**
 * Fits the pose of a known outline to the edges of a picture.
 *
 * <p>Every edge is cut into short pieces; each piece says how far along its normal the edge is seen
 * ({@link EdgeLocator}); a robust weighted least-squares fit of x, y, rotation, and of small size
 * differences of body and terminations (with a prior: a part is rarely more than a few hundredths
 * off its drawing), joins them. Pieces on silk print, glare or a neighbour fall out as outliers.
 * Iterated with the pieces predicted anew, blur first wide, then as seen.
 */
public final class OutlineFit {
  /** Prior standard deviation of a size difference, each side, mm. */
  private static final double SIZE_PRIOR_MM = 0.03;

  /**
   * How far each side may stand outside the drawing, as a share of the smaller dimension, and at
   * most: half of 0.5 +- 0.05 mm, 0.8 +- 0.1 mm for 0402, 0603 chips (IEC 60115-8, from memory).
   */
  private static final double TOLERANCE = 0.05;

  private static final double TOLERANCE_MM = 0.05;

  /** Terminations of one type differ more in length than bodies do. */
  private static final double ROOT_PRIOR_MM = 0.08;

  /** Standard deviation of a moulded body on its lead frame, mm. */
  private static final double BODY_ON_LEADS_MM = 0.04;

  /** Added to the uncertainty of an edge that looks like print rather than ground, mm. */
  private static final double FOREIGN_MM = 0.1;

  /** Added to the uncertainty of edges that would make the part too large or small, mm. */
  private static final double STRANGE_MM = 0.04;

  /** Edges that would make the part larger or smaller than this many priors are not its own. */
  private static final double SIZE_LIMIT = 2.5;

  /**
   * Shadow, bevel and glare move a whole side of a body that stands up by up to about this share of
   * the blur; the two sides of a part are lit differently.
   */
  private static final double SIDE_LIGHT = 0.09;

  /** Along one side light changes too, which turns a part: likewise. */
  private static final double SIDE_TURN = 0.075;

  /** Steps that nobody could miss, grey levels. */
  private static final double STRONG = 100;

  /** Edges lower than this cast no shadow to speak of, mm. */
  private static final double LOW_MM = 0.2;

  /** A step this noisy may be a sharp one that lies aside of where it was looked for. */
  private static final double ROUGH = 0.2;

  /** From this iteration on steps are halved: a sharp picture can make them swing. */
  private static final int DAMPED_FROM = 6;

  /** Below this share of the part's strong steps a termination's edge is faint. */
  private static final double FAINT = 0.25;

  /** What an edge counts for at least, seen or not, where none can show. */
  private static final double BLIND = 0.25;

  /** The ground's colour is asked for at so many points from the middle to the side. */
  private static final double GROUND_POINTS = 25;

  /** Half of what counts as a body's middle, as a share of it. */
  private static final double MIDDLE = 0.35;

  /** So many rounds with Huber's weights before Tukey's, which need a start. */
  private static final int HUBER = 4;

  /** Less than this between two rounds is nothing, mm or rad. */
  private static final double STILL = 1e-8;

  private static final double PIECE_PX = 6;
  private static final int POSE = 3;

  /** Pixels up to this many sigmas and BAND_PX from an edge are looked at. */
  private static final double BAND_SIGMAS = 2.0;

  private static final double BAND_PX = 1.0;

  /** However sharp the picture, so many pixels to each side are needed for a step. */
  private static final double MIN_BAND_PX = 2.6;

  private static final double MIN_SIGMA_PX = 0.45;

  /**
   * Result of a fit.
   *
   * @param pose panel frame
   * @param covariance of x mm, y mm, rotation rad, from the fit alone
   * @param support share of the outline, by length, at which an edge was seen where the fit says
   * @param strength likewise a share, faint edges counting for less
   * @param shown the same share of what can show: terminations on solder or land hardly count
   * @param sigmaPx blur that fits best
   * @param misfit root of chi-square per degree of freedom, at least 1 is expected
   * @param converged whether the last step was below 0.01 px
   * @param pieces what was used
   * @param sizes how far edges stand outside nominal
   * @param landsShow whether edges of lands are seen beside the part
   */
  public record Result(
      Pose pose,
      double[][] covariance,
      double support,
      double strength,
      double shown,
      double sigmaPx,
      double misfit,
      boolean converged,
      List<Piece> pieces,
      Map<Outline.Group, Size> sizes,
      boolean landsShow) {
    public Result {
      pieces = List.copyOf(pieces);
      sizes = Collections.unmodifiableMap(new EnumMap<>(sizes));
    }

    Result at(Pose finer, double[][] itsCovariance) {
      return new Result(
          finer,
          itsCovariance,
          support,
          strength,
          shown,
          sigmaPx,
          misfit,
          converged,
          pieces,
          sizes,
          landsShow);
    }
  }

  /** A size difference and its standard deviation beforehand, mm, each side. */
  record Size(double mm, double priorMm) {}

  /** A short stretch of an edge, and what was seen there in the last iteration. */
  public static final class Piece {
    public final Outline.Edge edge;
    final double x;
    final double y;
    public final double lengthMm;

    /** How much of the edge its pieces cover, mm. */
    final double spanMm;

    /** Below 1 where the edge looks like print or would make the part too large. */
    double trust = 1;

    public EdgeLocator.Seen seen = EdgeLocator.Seen.NOTHING;
    double pxPerMm = 1;
    double residualMm = Double.NaN;
    public double weight;

    Piece(Outline.Edge edge, double x, double y, double lengthMm, double spanMm) {
      this.edge = edge;
      this.x = x;
      this.y = y;
      this.lengthMm = lengthMm;
      this.spanMm = spanMm;
    }
  }

  private final Plane plane;
  private final PanelToPicture map;
  private final Outline outline;
  private final List<Outline.Group> sizes;
  private final Map<Outline.Group, Integer> column;
  private final boolean[] strange;

  /** Edges of the lands in the panel frame: {x, y, nx, ny, half length}. */
  private final List<double[]> landEdges;

  private double landStep;
  private double @Nullable [] ground;
  private boolean groundKnown;
  private double landStepSd = 1;

  /**
   * @param plane brightness of the surroundings
   * @param map panel to picture
   * @param outline what to fit
   * @param lands lands in the part frame; empty when nothing is known or to be seen of them
   * @param nominal where the lands are: the nominal pose
   */
  public OutlineFit(
      Plane plane, PanelToPicture map, Outline outline, List<Rect> lands, Pose nominal) {
    this.landEdges = landEdges(lands, nominal);
    this.plane = plane;
    this.map = map;
    this.outline = outline;
    this.sizes = outline.edges().stream().map(Outline.Edge::group).distinct().toList();
    this.column = new EnumMap<>(Outline.Group.class);
    this.strange = new boolean[sizes.size()];
    for (int i = 0; i < sizes.size(); i++) {
      column.put(sizes.get(i), POSE + i);
    }
  }

  /**
   * Fits from a start.
   *
   * @param start predicted pose, panel frame, within about startSigmaPx + 1 px
   * @param startSigmaPx blur of the first iterations, px
   * @param sigmaPx expected blur, px
   * @return the fit, or null when too few edges are seen
   */
  public @Nullable Result fit(Pose start, double startSigmaPx, double sigmaPx) {
    double ppm = map.scaleAt(start.xMm(), start.yMm());
    State s = new State(start, new double[sizes.size()]);
    Arrays.fill(strange, false);
    groundKnown = false;
    double sigma = Math.max(startSigmaPx, sigmaPx);
    boolean settled = false;
    @Nullable Step last = null;
    for (int i = 0; i < 14; i++) {
      boolean narrow = sigma <= sigmaPx * 1.3;
      landStep = 0;
      if (narrow) {
        findLandStep(s.pose, sigma, ppm);
      }
      List<Piece> pieces = pieces(ppm, sigma);
      boolean judge = sigma <= sigmaPx * 1.01 || i > 2;
      look(pieces, s, sigma, judge);
      Step step = solve(pieces, s, ppm, i < 3, i < DAMPED_FROM ? 1 : 0.5);
      if (step == null) {
        return null;
      }
      last = step;
      s = step.state;
      double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
      double moved = ppm * (Math.hypot(step.dx, step.dy) + Math.abs(step.dRad) * arm);
      double next = nextSigma(pieces, sigma, sigmaPx, judge);
      settled = moved < (i < 8 ? 0.01 : 0.05) && Math.abs(next - sigma) < 0.08 * sigma;
      if (settled) {
        break;
      }
      // Late iterations keep the blur, so that pose and blur do not chase each other.
      sigma = i < 8 ? next : sigma;
    }
    return last == null ? null : result(last, ppm, sigma, settled);
  }

  /** Where the iteration stands: pose and size differences by group, mm. */
  private record State(Pose pose, double[] sizes) {}

  private record Step(
      State state,
      double dx,
      double dy,
      double dRad,
      double[][] covariance,
      double misfit,
      List<Piece> pieces) {}

  private static double nextSigma(
      List<Piece> pieces, double sigma, double expected, boolean judge) {
    if (!judge) {
      return Math.max(expected, sigma * 0.5);
    }
    double sharper = 0;
    double blunter = 0;
    for (Piece p : pieces) {
      if (p.weight > 0 && p.seen.usable()) {
        sharper += p.seen.sharper();
        blunter += p.seen.blunter();
      }
    }
    // Parabola through (log sigma, misfit) at 0.8, 1, 1.25 times sigma.
    double curve = sharper + blunter;
    double shift = curve > 0 ? 0.5 * (sharper - blunter) / curve : sharper < blunter ? -1 : 1;
    double f = Math.pow(1.25, Math.max(-1.5, Math.min(1.5, shift)));
    return Math.max(MIN_SIGMA_PX, Math.min(6, sigma * f));
  }

  private List<Piece> pieces(double ppm, double sigma) {
    List<Piece> out = new ArrayList<>();
    for (Outline.Edge e : outline.edges()) {
      double len = e.lengthMm();
      double margin = Math.min(1.2 * sigma / ppm, 0.25 * len);
      double use = len - 2 * margin;
      int n = Math.max(1, (int) Math.ceil(use * ppm / PIECE_PX));
      for (int i = 0; i < n; i++) {
        double t = -use / 2 + use * (i + 0.5) / n;
        out.add(new Piece(e, e.xMm() - t * e.ny(), e.yMm() + t * e.nx(), use / n, use));
      }
    }
    return out;
  }

  private void look(List<Piece> pieces, State s, double sigma, boolean judge) {
    double c = Angles.cosDeg(s.pose.rotationDeg());
    double sn = Angles.sinDeg(s.pose.rotationDeg());
    double band = Math.max(MIN_BAND_PX, BAND_SIGMAS * sigma + BAND_PX);
    for (Piece p : pieces) {
      double size = s.sizes[column(p.edge) - POSE];
      double x = p.x + size * p.edge.nx();
      double y = p.y + size * p.edge.ny();
      double px = s.pose.xMm() + c * x - sn * y;
      double py = s.pose.yMm() + sn * x + c * y;
      double[] q = map.at(px, py, p.edge.heightMm());
      double[] j = map.jacobian(px, py, p.edge.heightMm());
      double nx = c * p.edge.nx() - sn * p.edge.ny();
      double ny = sn * p.edge.nx() + c * p.edge.ny();
      // Tangent in the picture; the normal stands on it, pointing the same way as the panel's.
      double tx = j[0] * -ny + j[1] * nx;
      double ty = j[2] * -ny + j[3] * nx;
      double tl = Math.hypot(tx, ty);
      double wx = j[0] * nx + j[1] * ny;
      double wy = j[2] * nx + j[3] * ny;
      double mx = -ty / tl;
      double my = tx / tl;
      double along = wx * mx + wy * my;
      if (along < 0) {
        mx = -mx;
        my = -my;
        along = -along;
      }
      p.pxPerMm = along;
      double before = Math.min(band, Math.max(1.5, 0.5 * p.edge.innerGapMm() * along));
      double beyond = Math.min(band, Math.max(1.5, 0.5 * p.edge.outerGapMm() * along));
      EdgeLocator.Where where =
          new EdgeLocator.Where(
              q[0],
              q[1],
              mx,
              my,
              Math.max(0.5, p.lengthMm * tl / 2),
              before,
              beyond,
              landStep != 0 ? landBeyond(px, py, nx, ny, p.lengthMm, band, along) : Double.NaN,
              landStep,
              landStepSd);
      p.seen = EdgeLocator.locate(plane, where, sigma, judge);
      if (p.seen.usable() && p.seen.noise() > ROUGH * p.seen.contrast()) {
        p.seen = EdgeLocator.aside(plane, where, sigma, judge, p.seen);
      }
    }
  }

  private static List<double[]> landEdges(List<Rect> lands, Pose nominal) {
    double c = Angles.cosDeg(nominal.rotationDeg());
    double s = Angles.sinDeg(nominal.rotationDeg());
    List<double[]> out = new ArrayList<>();
    for (Rect r : lands) {
      for (int side = 0; side < 4; side++) {
        double nx = side == 0 ? 1 : side == 1 ? -1 : 0;
        double ny = side == 2 ? 1 : side == 3 ? -1 : 0;
        double x = r.xMm() + nx * r.lengthMm() / 2;
        double y = r.yMm() + ny * r.widthMm() / 2;
        out.add(
            new double[] {
              nominal.xMm() + c * x - s * y,
              nominal.yMm() + s * x + c * y,
              c * nx - s * ny,
              s * nx + c * ny,
              (nx != 0 ? r.widthMm() : r.lengthMm()) / 2
            });
      }
    }
    return out;
  }

  /** How bright the ground is beyond a land's edge, less the land, where the part hides neither. */
  private void findLandStep(Pose pose, double sigma, double ppm) {
    double c = Angles.cosDeg(pose.rotationDeg());
    double s = Angles.sinDeg(pose.rotationDeg());
    double clear = (2.5 * sigma + 1) / ppm;
    double reach = 2 * sigma + 1;
    List<Double> steps = new ArrayList<>();
    for (double[] e : landEdges) {
      double half = e[4] / 4;
      for (int k = -1; k <= 1; k += 2) {
        double x = e[0] - k * 2 * half * e[3];
        double y = e[1] + k * 2 * half * e[2];
        double u = c * (x - pose.xMm()) + s * (y - pose.yMm());
        double v = -s * (x - pose.xMm()) + c * (y - pose.yMm());
        if (covered(u, v, clear + half)) {
          continue;
        }
        double[] q = map.at(x, y);
        double[] j = map.jacobian(x, y, 0);
        double tx = j[0] * -e[3] + j[1] * e[2];
        double ty = j[2] * -e[3] + j[3] * e[2];
        double tl = Math.hypot(tx, ty);
        double sign = (j[0] * e[2] + j[1] * e[3]) * -ty + (j[2] * e[2] + j[3] * e[3]) * tx;
        double f = Math.signum(sign) / tl;
        EdgeLocator.Seen seen =
            EdgeLocator.locate(
                plane,
                new EdgeLocator.Where(
                    q[0], q[1], -ty * f, tx * f, half * tl, reach, reach, Double.NaN, 0, 1),
                sigma,
                false);
        if (seen.usable() && Math.abs(seen.offsetPx()) < 0.1 * ppm + 0.5) {
          steps.add(seen.step());
        }
      }
    }
    if (steps.size() < 2) {
      return;
    }
    double[] b = steps.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    landStep = b[b.length / 2];
    double[] d = Arrays.stream(b).map(v -> Math.abs(v - landStep)).sorted().toArray();
    landStepSd = Math.max(8, Math.max(0.15 * Math.abs(landStep), 1.4826 * d[d.length / 2]));
  }

  private boolean covered(double u, double v, double marginMm) {
    for (Rect r : outline.rects()) {
      if (Math.abs(u - r.xMm()) < r.lengthMm() / 2 + marginMm
          && Math.abs(v - r.yMm()) < r.widthMm() / 2 + marginMm) {
        return true;
      }
    }
    return false;
  }

  /**
   * Where a land ends just beyond a piece, px along its normal; NaN when none does within the band.
   * A termination, a strip of paste and then mask make two steps, and taking them for one would
   * draw the part towards its land.
   */
  private double landBeyond(
      double x, double y, double nx, double ny, double lengthMm, double band, double pxPerMm) {
    double best = Double.NaN;
    for (double[] e : landEdges) {
      if (nx * e[2] + ny * e[3] < 0.94) {
        continue;
      }
      double across = ((e[0] - x) * nx + (e[1] - y) * ny) * pxPerMm;
      double along = Math.abs((e[0] - x) * -ny + (e[1] - y) * nx);
      boolean near = across > -1 && across < band && along < e[4] + 0.25 * lengthMm;
      if (near && !(Math.abs(across) > Math.abs(best))) {
        best = across;
      }
    }
    return best;
  }

  private int column(Outline.Edge e) {
    return java.util.Objects.requireNonNull(column.get(e.group()));
  }

  /** One row of the linear model, in the part's own axes. */
  private double[] row(Piece p) {
    double[] r = new double[POSE + sizes.size()];
    r[0] = p.edge.nx();
    r[1] = p.edge.ny();
    r[2] = p.x * p.edge.ny() - p.y * p.edge.nx();
    r[column(p.edge)] = 1;
    return r;
  }

  private @Nullable Step solve(
      List<Piece> pieces, State s, double ppm, boolean early, double damping) {
    double quiet = quietNoise(pieces);
    List<Piece> used =
        pieces.stream()
            .filter(p -> p.seen.usable())
            .filter(p -> p.seen.noise() < 0.2 * Math.abs(p.seen.contrast()) + 2 * quiet)
            .toList();
    if (used.size() < 4) {
      return null;
    }
    double floor = (early ? 0.3 : 0.03) / ppm;
    double[] sd = new double[used.size()];
    double[][] rows = new double[used.size()][];
    double[] y = new double[used.size()];
    for (int i = 0; i < sd.length; i++) {
      Piece p = used.get(i);
      sd[i] =
          Math.hypot(Math.sqrt(p.seen.variance()) / p.pxPerMm, Math.hypot(floor, slack(p.edge)));
      rows[i] = row(p);
      y[i] = p.seen.offsetPx() / p.pxPerMm;
    }
    double[] w = new double[sd.length];
    Arrays.fill(w, 1);
    if (!early && !groundKnown) {
      // Once: the pose hardly moves any more, and the ground does not change.
      ground = groundStep(s.pose, false);
      groundKnown = true;
    }
    for (int i = 0; i < sd.length; i++) {
      Piece p = used.get(i);
      double plain = sd[i];
      if (!early && ground != null && p.edge.body() && !alike(p.seen, ground)) {
        sd[i] += FOREIGN_MM;
      }
      if (strange[column(p.edge) - POSE]) {
        sd[i] += STRANGE_MM;
      }
      p.trust = plain * plain / (sd[i] * sd[i]);
    }
    double[] x = new double[POSE + sizes.size()];
    int[] group = new int[sd.length];
    for (int i = 0; i < group.length; i++) {
      group[i] = column(used.get(i).edge) - POSE;
    }
    double[] scale = new double[sizes.size()];
    Arrays.fill(scale, 1);
    double[][] inverse = null;
    for (int k = 0; k < 12; k++) {
      double[][] n = new double[x.length][x.length];
      double[] r = new double[x.length];
      prior(n, r, s);
      for (int i = 0; i < sd.length; i++) {
        Matrices.accumulate(n, r, rows[i], y[i], w[i] / Math.pow(sd[i] * scale[group[i]], 2));
      }
      inverse = Matrices.inverse(n);
      if (inverse == null) {
        return null;
      }
      double[] next = Matrices.times(inverse, r);
      boolean still = k > HUBER && still(x, next);
      x = next;
      scale = reweight(rows, y, sd, group, x, w, k < HUBER);
      if (still) {
        break;
      }
    }
    for (int i = 0; i < sd.length; i++) {
      used.get(i).residualMm = y[i] - dot(rows[i], x);
      used.get(i).weight = w[i];
    }
    return step(s, x, java.util.Objects.requireNonNull(inverse), scale, pieces, early, damping);
  }

  /**
   * Colour of the bare ground around the part less that of its body, then the ground's own: six
   * numbers, blue, green, red each; null when there is none.
   *
   * @param betweenLands take only what of the body lies between the lands
   */
  double @Nullable [] groundStep(Pose pose, boolean betweenLands) {
    return groundStep(pose, betweenLands, MIDDLE);
  }

  /**
   * The same with another middle.
   *
   * @param along half of what counts as the middle, as a share of the body's length
   */
  double @Nullable [] groundStep(Pose pose, boolean betweenLands, double along) {
    int[][] inside = new int[3][256];
    int[][] around = new int[3][256];
    double reach = Math.max(outline.halfLengthMm(), outline.halfWidthMm()) + 0.6;
    double step = Math.max(1.0 / map.scaleAt(pose.xMm(), pose.yMm()), reach / GROUND_POINTS);
    int ins = 0;
    int out = 0;
    double c = Angles.cosDeg(pose.rotationDeg());
    double s = Angles.sinDeg(pose.rotationDeg());
    Rect body = outline.rects().get(outline.rects().size() - 1);
    for (double v = -reach; v <= reach; v += step) {
      for (double u = -reach; u <= reach; u += step) {
        boolean in =
            Math.abs(u - body.xMm()) < along * body.lengthMm()
                && Math.abs(v - body.yMm()) < MIDDLE * body.widthMm();
        double x = pose.xMm() + c * u - s * v;
        double y = pose.yMm() + s * u + c * v;
        if (!in && (covered(u, v, 0.12) || onLand(x, y, 0.1))
            || in && betweenLands && onLand(x, y, 0.04)) {
          continue;
        }
        double[] q = map.at(x, y);
        int px = (int) Math.round(q[0]);
        int py = (int) Math.round(q[1]);
        if (!plane.holds(px, py)) {
          continue;
        }
        int k = 3 * ((py - plane.y0()) * plane.width() + px - plane.x0());
        int[][] h = in ? inside : around;
        for (int ch = 0; ch < 3; ch++) {
          h[ch][plane.values()[k + ch] & 0xFF]++;
        }
        ins += in ? 1 : 0;
        out += in ? 0 : 1;
      }
    }
    if (ins < 4 || out < 8) {
      return null;
    }
    return new double[] {
      median(around[0], out) - median(inside[0], ins),
      median(around[1], out) - median(inside[1], ins),
      median(around[2], out) - median(inside[2], ins),
      median(around[0], out),
      median(around[1], out),
      median(around[2], out)
    };
  }

  private static int median(int[] histogram, int n) {
    int sum = 0;
    for (int i = 0; i < histogram.length; i++) {
      sum += histogram[i];
      if (2 * sum >= n) {
        return i;
      }
    }
    return 255;
  }

  private boolean onLand(double x, double y, double marginMm) {
    // Edges come four to a land: right, left, upper, lower.
    for (int i = 0; i + 3 < landEdges.size(); i += 4) {
      boolean inside = true;
      for (int k = 0; k < 4; k++) {
        double[] e = landEdges.get(i + k);
        inside &= (x - e[0]) * e[2] + (y - e[1]) * e[3] < marginMm;
      }
      if (inside) {
        return true;
      }
    }
    return false;
  }

  /** True when a step across the body's edge is the one from body to ground. */
  private static boolean alike(EdgeLocator.Seen seen, double[] ground) {
    double d =
        Math.abs(seen.blue() - ground[0])
            + Math.abs(seen.green() - ground[1])
            + Math.abs(seen.red() - ground[2]);
    double g = Math.abs(ground[0]) + Math.abs(ground[1]) + Math.abs(ground[2]);
    return d < 60 + 0.6 * g;
  }

  /** A moulded body sits on its leads with a tolerance; where leads are seen they count, mm. */
  private double slack(Outline.Edge e) {
    boolean body = e.group() == Outline.Group.BODY_X || e.group() == Outline.Group.BODY_Y;
    return body && outline.leads() ? BODY_ON_LEADS_MM : 0;
  }

  private void prior(double[][] n, double[] r, State s) {
    // Weak on the pose, so that a chip seen at two edges only stays near the prediction.
    n[0][0] += 1.0;
    n[1][1] += 1.0;
    n[2][2] += 1.0;
    for (int g = 0; g < sizes.size(); g++) {
      double sd = sizePrior(g);
      n[POSE + g][POSE + g] += 1 / (sd * sd);
      r[POSE + g] -= s.sizes[g] / (sd * sd);
    }
  }

  private double sizePrior(int g) {
    if (strange[g]) {
      return 0.01;
    }
    boolean root = sizes.get(g) == Outline.Group.ROOT_X || sizes.get(g) == Outline.Group.ROOT_Y;
    return root ? ROOT_PRIOR_MM : SIZE_PRIOR_MM;
  }

  /** Noise of the quieter pieces, grey levels: what the camera adds, without texture. */
  private static double quietNoise(List<Piece> pieces) {
    double[] n =
        pieces.stream()
            .filter(p -> p.seen.usable())
            .mapToDouble(p -> p.seen.noise())
            .sorted()
            .toArray();
    return n.length == 0 ? 0 : n[n.length / 4];
  }

  private static boolean still(double[] x, double[] next) {
    for (int i = 0; i < x.length; i++) {
      if (Math.abs(x[i] - next[i]) > STILL) {
        return false;
      }
    }
    return true;
  }

  /**
   * New weights from the residuals: Huber at first, then Tukey's biweight. Each group of edges has
   * its own scatter: the end of a termination on paste wavers more than its edge on the body.
   *
   * @return scatter by group, in units of sd, at least 1
   */
  private static double[] reweight(
      double[][] rows,
      double[] y,
      double[] sd,
      int[] group,
      double[] x,
      double[] w,
      boolean huber) {
    double[] z = new double[y.length];
    for (int i = 0; i < z.length; i++) {
      z[i] = Math.abs(y[i] - dot(rows[i], x)) / sd[i];
    }
    double[] scale = new double[x.length - POSE];
    double overall = spread(z, group, -1, 1);
    for (int g = 0; g < scale.length; g++) {
      scale[g] = spread(z, group, g, overall);
    }
    for (int i = 0; i < z.length; i++) {
      double u = z[i] / scale[group[i]];
      if (huber) {
        w[i] = u <= 1.345 ? 1 : 1.345 / u;
      } else {
        double v = 1 - u * u / (4.685 * 4.685);
        w[i] = v <= 0 ? 0 : v * v;
      }
    }
    return scale;
  }

  /** Robust scatter of a group (-1: all), drawn towards a prior worth four pieces. */
  private static double spread(double[] z, int[] group, int g, double prior) {
    double[] own = new double[z.length];
    int n = 0;
    for (int i = 0; i < z.length; i++) {
      if (g < 0 || group[i] == g) {
        own[n++] = z[i];
      }
    }
    if (n == 0) {
      return prior;
    }
    double[] sorted = Arrays.copyOf(own, n);
    Arrays.sort(sorted);
    double mad = 1.4826 * (n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2);
    double pooled = Math.sqrt((n * mad * mad + 4 * prior * prior) / (n + 4));
    return Math.max(1, pooled);
  }

  private static double dot(double[] a, double[] b) {
    double s = 0;
    for (int i = 0; i < a.length; i++) {
      s += a[i] * b[i];
    }
    return s;
  }

  private Step step(
      State s,
      double[] x,
      double[][] inverse,
      double[] scale,
      List<Piece> pieces,
      boolean settling,
      double damping) {
    double c = Angles.cosDeg(s.pose.rotationDeg());
    double sn = Angles.sinDeg(s.pose.rotationDeg());
    double limit = 0.15;
    double tx = damping * Math.max(-limit, Math.min(limit, x[0]));
    double ty = damping * Math.max(-limit, Math.min(limit, x[1]));
    double dRad = damping * Math.max(-0.1, Math.min(0.1, x[2]));
    double dx = c * tx - sn * ty;
    double dy = sn * tx + c * ty;
    Pose pose =
        new Pose(
            s.pose.xMm() + dx,
            s.pose.yMm() + dy,
            Angles.wrap(s.pose.rotationDeg() + Math.toDegrees(dRad)));
    double[] size = s.sizes.clone();
    for (int g = 0; g < size.length; g++) {
      double next = size[g] + damping * x[POSE + g];
      if (!strange[g] && Math.abs(next) > SIZE_LIMIT * sizePrior(g)) {
        // Print or a shadow along the sides: from now on these edges only count as a pair, by
        // their middle, and little beside others.
        strange[g] |= !settling;
        next = 0;
      }
      size[g] = next;
    }
    double[][] v = new double[3][3];
    double[][] q = {{c, -sn, 0}, {sn, c, 0}, {0, 0, 1}};
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        for (int a = 0; a < 3; a++) {
          for (int b = 0; b < 3; b++) {
            v[i][j] += q[i][a] * inverse[a][b] * q[j][b];
          }
        }
      }
    }
    return new Step(
        new State(pose, size), dx, dy, dRad, v, Arrays.stream(scale).max().orElse(1), pieces);
  }

  /**
   * Adds what texture does: where surfaces are mottled a whole edge wavers together, which the
   * pieces, seen one by one, cannot tell. Its size is the usual scatter over contrast, times blur.
   */
  private double[][] withTexture(Step last, double sigmaMm) {
    double[] ratio =
        last.pieces.stream()
            .filter(p -> p.seen.usable() && p.weight > 0.1)
            .mapToDouble(p -> p.seen.noise() / p.seen.contrast())
            .sorted()
            .toArray();
    double share = ratio.length == 0 ? 1 : ratio[ratio.length / 2];
    double u = share * sigmaMm;
    double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
    double[][] v = new double[3][];
    for (int i = 0; i < 3; i++) {
      v[i] = last.covariance[i].clone();
    }
    for (int i = 0; i < 2; i++) {
      v[i][i] += u * u;
    }
    v[2][2] += u * u / (arm * arm);
    return withLight(outline, last.pieces, last.state.pose, v, sigmaMm, 1);
  }

  /**
   * Adds what light on the sides of a standing body does.
   *
   * @param share of the usual effect
   */
  static double[][] withLight(
      Outline outline,
      List<Piece> pieces,
      Pose pose,
      double[][] covariance,
      double sigmaMm,
      double share) {
    double[][] v = new double[3][];
    for (int i = 0; i < 3; i++) {
      v[i] = covariance[i].clone();
    }
    double arm = Math.hypot(outline.halfLengthMm(), outline.halfWidthMm());
    double c = Angles.cosDeg(pose.rotationDeg());
    double sn = Angles.sinDeg(pose.rotationDeg());
    double ax = share * SIDE_LIGHT * sigmaMm * litShare(pieces, true);
    double ay = share * SIDE_LIGHT * sigmaMm * litShare(pieces, false);
    double both = c * sn * (ax * ax - ay * ay);
    v[0][0] += c * c * ax * ax + sn * sn * ay * ay;
    v[1][1] += sn * sn * ax * ax + c * c * ay * ay;
    v[0][1] += both;
    v[1][0] += both;
    double turn = SIDE_TURN / SIDE_LIGHT * Math.max(ax, ay);
    v[2][2] += turn * turn / (arm * arm);
    return v;
  }

  /** Share, by length, of what places the part along its x or y that is a standing body's side. */
  private static double litShare(List<Piece> pieces, boolean alongX) {
    double all = 0;
    double lit = 0;
    for (Piece p : pieces) {
      if (!p.seen.usable() || (Math.abs(p.edge.nx()) > 0) != alongX) {
        continue;
      }
      double length = p.lengthMm * p.weight;
      all += length;
      boolean side =
          switch (p.edge.group()) {
            case BODY_X, BODY_Y, SIDE_X, SIDE_Y -> p.edge.heightMm() > LOW_MM;
            default -> false;
          };
      lit += side ? length : 0;
    }
    return all > 0 ? lit / all : 0;
  }

  private Result result(Step last, double ppm, double sigma, boolean settled) {
    double near = Math.max(0.5 / ppm, 0.03);
    double[] weight = showing(last, sigma);
    double small = 2 * Math.min(outline.halfLengthMm(), outline.halfWidthMm());
    Map<Outline.Group, Double> wider =
        wider(last.pieces, Math.min(TOLERANCE_MM, TOLERANCE * small));
    double[] all = new double[2];
    double[] good = new double[2];
    double strong = 0;
    for (int i = 0; i < weight.length; i++) {
      Piece p = last.pieces.get(i);
      boolean seen =
          p.seen.usable()
              && Math.abs(p.residualMm - wider.getOrDefault(p.edge.group(), 0.0)) < near;
      all[0] += p.lengthMm;
      all[1] += weight[i] * p.lengthMm;
      good[0] += seen ? p.lengthMm : 0;
      good[1] += seen ? weight[i] * p.lengthMm : 0;
      strong += seen ? p.lengthMm * Math.min(1, Math.abs(p.seen.step()) / STRONG) : 0;
    }
    Map<Outline.Group, Size> size = new EnumMap<>(Outline.Group.class);
    for (int g = 0; g < sizes.size(); g++) {
      size.put(sizes.get(g), new Size(last.state.sizes[g], sizePrior(g)));
    }
    return new Result(
        last.state.pose,
        withTexture(last, sigma / ppm),
        all[0] > 0 ? good[0] / all[0] : 0,
        all[0] > 0 ? strong / all[0] : 0,
        all[1] > 0 ? good[1] / all[1] : 0,
        sigma,
        last.misfit,
        settled,
        last.pieces,
        size,
        landStep != 0);
  }

  /**
   * How far both sides of a group of edges are seen outside where the fit has them, mm: within what
   * sizes may differ from the drawing that is the part's own size, though the fit did not take it
   * for that, and says nothing against the place between them.
   */
  private static Map<Outline.Group, Double> wider(List<Piece> pieces, double mostMm) {
    Map<Outline.Group, double[]> sums = new EnumMap<>(Outline.Group.class);
    for (Piece p : pieces) {
      if (p.seen.usable() && Double.isFinite(p.residualMm)) {
        double[] t = sums.computeIfAbsent(p.edge.group(), g -> new double[4]);
        int side = p.edge.nx() + p.edge.ny() > 0 ? 0 : 2;
        t[side] += p.lengthMm * p.residualMm;
        t[side + 1] += p.lengthMm;
      }
    }
    Map<Outline.Group, Double> out = new EnumMap<>(Outline.Group.class);
    sums.forEach(
        (g, t) -> {
          double each = (t[0] / t[1] + t[2] / t[3]) / 2;
          if (Math.abs(each) < mostMm) {
            out.put(g, each);
          }
        });
    return out;
  }

  /**
   * How much each piece's being seen or not says: a termination on solder or on a land of its own
   * colour shows no edge however well it stands; a body's edge or a root must be seen.
   */
  private double[] showing(Step last, double sigma) {
    double[] contrast = new double[last.pieces.size()];
    for (int i = 0; i < contrast.length; i++) {
      contrast[i] = across(last.pieces.get(i), last.state, sigma);
    }
    double[] sorted = contrast.clone();
    Arrays.sort(sorted);
    double strong = sorted.length == 0 ? 0 : sorted[(int) (0.8 * (sorted.length - 1))];
    for (int i = 0; i < contrast.length; i++) {
      Outline.Edge e = last.pieces.get(i).edge;
      boolean root = e.group() == Outline.Group.ROOT_X || e.group() == Outline.Group.ROOT_Y;
      contrast[i] =
          e.body() || root ? 1 : Math.max(BLIND, Math.min(1, contrast[i] / (FAINT * strong + 1)));
    }
    return contrast;
  }

  /** Mean difference of the channels between the two sides of a piece, grey levels. */
  private double across(Piece p, State s, double sigma) {
    double c = Angles.cosDeg(s.pose.rotationDeg());
    double sn = Angles.sinDeg(s.pose.rotationDeg());
    double size = s.sizes[column(p.edge) - POSE];
    double x = p.x + size * p.edge.nx();
    double y = p.y + size * p.edge.ny();
    double px = s.pose.xMm() + c * x - sn * y;
    double py = s.pose.yMm() + sn * x + c * y;
    double step = 1 / p.pxPerMm;
    double nx = c * p.edge.nx() - sn * p.edge.ny();
    double ny = sn * p.edge.nx() + c * p.edge.ny();
    double[] sum = new double[3];
    for (int k = 0; k < 3; k++) {
      double d = (1 + sigma + k) * step;
      for (int side = -1; side <= 1; side += 2) {
        double[] q = map.at(px + side * d * nx, py + side * d * ny, p.edge.heightMm());
        int ix = (int) Math.round(q[0]);
        int iy = (int) Math.round(q[1]);
        if (!plane.holds(ix, iy)) {
          return 0;
        }
        int at = 3 * ((iy - plane.y0()) * plane.width() + ix - plane.x0());
        for (int ch = 0; ch < 3; ch++) {
          sum[ch] += side * (plane.values()[at + ch] & 0xFF);
        }
      }
    }
    return (Math.abs(sum[0]) + Math.abs(sum[1]) + Math.abs(sum[2])) / 9;
  }
}
