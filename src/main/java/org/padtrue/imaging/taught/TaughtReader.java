package org.padtrue.imaging.taught;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PixelSampler;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.imaging.pose.BareLands;
import org.padtrue.imaging.pose.CoarseSearch;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.PartPose;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/** Measures parts by a taught look: coarse search, fit, and whether to believe it. */
public final class TaughtReader {
  /** A look this well seen is the part. */
  private static final double FOUND = 0.75;

  /** Below this nothing was found. */
  private static final double DOUBTFUL = 0.5;

  /** Each quarter of the look must be seen to this share. */
  private static final double SIDE = 0.55;

  /** A part turned by a quarter or more must be seen so much better than one as predicted. */
  private static final double BETTER = 0.08;

  /** A fit this good is not looked for elsewhere. */
  private static final double CERTAIN = 0.9;

  /** Coarse likeness below which nothing is worth a fit. */
  private static final double LEAST_LIKENESS = 0.35;

  /** Places and turns so much less alike than the best are not fitted. */
  private static final double WORSE = 0.2;

  /** Cells across beyond which a look is first fitted at half the resolution. */
  private static final int LARGE = 36;

  /** Turns that differ by less cannot be told apart. */
  private static final double SAME = 0.03;

  /** Parts darker or lighter than taught by more are others, ratio. */
  private static final double GAIN = 2;

  /** Grey levels, all channels together, by which a part must stand out from its ground. */
  private static final double LEAST_CONTRAST = 30;

  /** Share of what the part differs from its ground within which a colour is still the ground's. */
  private static final double GROUND = 0.4;

  /** Share of the part's pixels that look like ground where there is no part. */
  private static final double GROUND_SHARE = 0.35;

  /** What light, sharpness and pixels do beyond the noise, px of the coarser picture. */
  private static final double FLOOR_PX = 0.03;

  /** The same where no like of the sample told what of its picture is the part. */
  private static final double ALONE_PX = 0.1;

  /**
   * So much more of that acts on the rotation: glare wanders over metal as a part lies otherwise
   * under the lamp, unevenly from end to end.
   */
  private static final double TURNING = 4;

  private final Picture picture;
  private final PanelToPicture map;
  private final double reachMm;

  public TaughtReader(Picture picture, PanelToPicture map, double reachMm) {
    this.picture = picture;
    this.map = map;
    this.reachMm = reachMm;
  }

  /** A fit, the quarter turn that it started from, and the score by which trials are compared. */
  private record Trial(TaughtFit.Result fit, double quarterDeg, double score) {}

  /**
   * Measures a part.
   *
   * @param type for symmetry and height
   * @param look what it looks like
   * @param nominal predicted pose, panel frame
   */
  public PartPose read(PartType type, TaughtLook look, Pose nominal) {
    if (!inside(look, nominal)) {
      return PartPose.none(ReadingStatus.OUT_OF_PICTURE, 0, "");
    }
    double height = heightMm(type);
    PixelSampler pixels = new PixelSampler(window(look, nominal));
    double pixel = 1 / map.scaleAt(nominal.xMm(), nominal.yMm());
    double extent = Math.max(look.lengthMm(), look.widthMm());
    TaughtGrid fine =
        TaughtGrid.of(look, Math.max(Math.max(pixel, 1 / look.pxPerMm()), extent / 300));
    TaughtSearch search = new TaughtSearch(look, pixel, reachMm);
    // Which place and turn is settled on a grid of half the resolution: a quarter of the work.
    boolean large = Math.min(fine.width, fine.height) > LARGE;
    TaughtGrid rough = large ? TaughtGrid.of(look, 2 * fine.cellMm) : fine;
    TaughtFit fitter = new TaughtFit(pixels, map, rough, height);
    Trial best = null;
    Trial second = null;
    List<List<TaughtSearch.Candidate>> found = new ArrayList<>();
    double top = LEAST_LIKENESS;
    for (int q = 0; q < 4 / type.symmetry(); q++) {
      Pose start =
          new Pose(nominal.xMm(), nominal.yMm(), Angles.wrap(nominal.rotationDeg() + 90.0 * q));
      found.add(search.find(pixels, map, start, height, CoarseSearch.REACH_DEG, 3));
      top = Math.max(top, found.get(q).isEmpty() ? 0 : found.get(q).get(0).score());
    }
    for (int q = 0; q < found.size(); q++) {
      Trial t = trial(found.get(q), top - WORSE, fitter, 90.0 * q);
      if (t == null) {
        continue;
      }
      double needs = best != null && best.quarterDeg == 0 ? BETTER : 0;
      if (best == null || t.score > best.score + needs) {
        second = better(second, best);
        best = t;
      } else {
        second = better(second, t);
      }
    }
    if (best != null && large && best.score >= DOUBTFUL) {
      TaughtFit.Result r = new TaughtFit(pixels, map, fine, height).fit(best.fit.pose());
      best = r == null ? null : new Trial(r, best.quarterDeg, best.score);
    }
    if (best == null
        || best.fit.score() < DOUBTFUL
        || best.fit.score() < FOUND && groundShows(fine, pixels, nominal, height)) {
      return absent(pixels, fine, type, nominal, height, best);
    }
    return judge(type, look, fine, pixels, nominal, best, second);
  }

  private static @Nullable Trial better(@Nullable Trial a, @Nullable Trial b) {
    return a == null || b != null && b.score > a.score ? b : a;
  }

  public static double heightMm(PartType type) {
    return Outline.known(type) || type.envelope() != null ? Outline.bodyHeight(type) : 0;
  }

  private static @Nullable Trial trial(
      List<TaughtSearch.Candidate> found, double least, TaughtFit fitter, double quarterDeg) {
    Trial best = null;
    for (TaughtSearch.Candidate c : found) {
      if (c.score() < least) {
        break;
      }
      TaughtFit.Result r = fitter.fit(c.pose());
      if (r != null && (best == null || r.score() > best.score)) {
        best = new Trial(r, quarterDeg, r.score());
      }
      if (best != null && best.score > CERTAIN) {
        break;
      }
    }
    return best;
  }

  private PartPose judge(
      PartType type,
      TaughtLook look,
      TaughtGrid fine,
      PixelSampler pixels,
      Pose nominal,
      Trial t,
      @Nullable Trial second) {
    TaughtFit.Result f = t.fit;
    boolean noPolarity =
        second != null
            && second.score > t.score - SAME
            && Math.abs(Angles.wrap(second.quarterDeg - t.quarterDeg)) == 180;
    int symmetry = noPolarity ? Math.max(2, type.symmetry()) : type.symmetry();
    double turn = Angles.wrap(f.pose().rotationDeg() - nominal.rotationDeg(), symmetry);
    Pose pose = new Pose(f.pose().xMm(), f.pose().yMm(), Angles.wrap(nominal.rotationDeg() + turn));
    double floor =
        (look.compared() ? FLOOR_PX : ALONE_PX)
            * Math.max(fine.cellMm, 1 / map.scaleAt(nominal.xMm(), nominal.yMm()));
    double[][] v = f.covariance();
    double u = Math.sqrt((v[0][0] + v[1][1]) / 2 + floor * floor);
    double arm = Math.max(look.lengthMm(), look.widthMm()) / 2;
    double uTurn = Math.toDegrees(Math.sqrt(v[2][2] + Math.pow(TURNING * floor / arm, 2)));
    if (look.placeKnown()) {
      u = Math.hypot(u, look.uMm());
      uTurn = Math.hypot(uTurn, look.uRotationDeg());
    }
    String note = "by taught sample";
    if (noPolarity) {
      note += "; rotation known modulo 180 degrees: the sample shows no polarity";
    }
    PartPose p = new PartPose(ReadingStatus.FOUND, pose, u, uTurn, f.score(), 1, note);
    String why = doubt(fine, pixels, type, nominal, t, second, u, uTurn);
    return why.isEmpty() ? p : p.doubtful(why);
  }

  private String doubt(
      TaughtGrid fine,
      PixelSampler pixels,
      PartType type,
      Pose nominal,
      Trial t,
      @Nullable Trial second,
      double u,
      double uTurn) {
    TaughtFit.Result f = t.fit;
    double off = Math.hypot(f.pose().xMm() - nominal.xMm(), f.pose().yMm() - nominal.yMm());
    if (f.score() < FOUND) {
      return "it looks only partly like the taught sample";
    }
    if (fine.contrast < LEAST_CONTRAST) {
      return "the taught sample hardly stands out from its ground";
    }
    if (f.worstSide() < SIDE) {
      return "one side of it does not look like the taught sample";
    }
    for (double g : f.gains()) {
      if (!(g > 1 / GAIN && g < GAIN)) {
        return "its colours are not those of the taught sample";
      }
    }
    if (groundShows(fine, pixels, f.pose(), heightMm(type))) {
      return "the ground shows where the taught sample shows the part";
    }
    if (off > reachMm + 0.1) {
      return "the nearest likeness is further off than was looked for";
    }
    if (!f.converged() || u > 0.06 || uTurn > 8) {
      return "it looks too faint to place it";
    }
    if (second != null
        && second.score > t.score - SAME
        && Math.abs(Angles.wrap(second.quarterDeg - t.quarterDeg)) == 90) {
      return "it fits the taught sample nearly as well turned by 90 degrees";
    }
    return "";
  }

  private PartPose absent(
      PixelSampler pixels,
      TaughtGrid fine,
      PartType type,
      Pose nominal,
      double height,
      @Nullable Trial best) {
    double score = best == null ? 0 : best.fit.score();
    boolean bare =
        groundShows(fine, pixels, nominal, height)
            || BareLands.at(window(fine, nominal), map, type, nominal, 1).share() > 0.6;
    return bare
        ? PartPose.none(ReadingStatus.MISSING, score, "the ground shows where the part should be")
        : PartPose.none(
            ReadingStatus.NOT_FOUND, score, "nothing here looks like the taught sample");
  }

  /** True when much of the part's shape has the colour of the ground just around it here. */
  private boolean groundShows(TaughtGrid fine, PixelSampler pixels, Pose at, double height) {
    int margin = (int) Math.ceil(0.25 / fine.cellMm) + 2;
    int w = fine.width + 2 * margin;
    int h = fine.height + 2 * margin;
    TaughtWindow seen =
        TaughtWindow.of(
            pixels,
            map,
            at,
            height,
            w,
            h,
            fine.originX + margin,
            fine.originY + margin,
            fine.cellMm);
    double[] here = new double[3];
    for (int c = 0; c < 3; c++) {
      double[] out = new double[w * h];
      int m = 0;
      for (int k = 0; k < w * h; k++) {
        int cell = within(fine, k % w - margin, k / w - margin);
        if ((cell < 0 || fine.weights[cell] == 0) && Double.isFinite(seen.values[c][k])) {
          out[m++] = seen.values[c][k];
        }
      }
      java.util.Arrays.sort(out, 0, m);
      here[c] = m == 0 ? Double.NaN : out[m / 2];
    }
    double like = 0;
    double all = 1e-9;
    for (int k = 0; k < w * h; k++) {
      int cell = within(fine, k % w - margin, k / w - margin);
      if (cell < 0 || !fine.own[cell]) {
        continue;
      }
      double taught = 0;
      double off = 0;
      for (int c = 0; c < 3; c++) {
        taught += Math.pow(fine.values[c][cell] - fine.ground[c], 2);
        off += Math.pow(seen.values[c][k] - here[c], 2);
      }
      if (taught > LEAST_CONTRAST * LEAST_CONTRAST) {
        all++;
        like += off < GROUND * GROUND * taught ? 1 : 0;
      }
    }
    return like > GROUND_SHARE * all;
  }

  /** Cell of the look, or -1 outside it. */
  private static int within(TaughtGrid g, int i, int j) {
    return i >= 0 && j >= 0 && i < g.width && j < g.height ? j * g.width + i : -1;
  }

  private boolean inside(TaughtLook look, Pose at) {
    double c = Math.abs(Angles.cosDeg(at.rotationDeg()));
    double s = Math.abs(Angles.sinDeg(at.rotationDeg()));
    double hx = (c * look.lengthMm() + s * look.widthMm()) / 2;
    double hy = (s * look.lengthMm() + c * look.widthMm()) / 2;
    for (int i = 0; i < 4; i++) {
      double[] q = map.at(at.xMm() + (i % 2 == 0 ? hx : -hx), at.yMm() + (i < 2 ? hy : -hy));
      if (!picture.holds(q[0], q[1])) {
        return false;
      }
    }
    return true;
  }

  private Plane window(TaughtLook look, Pose at) {
    return window(Math.hypot(look.widthPx(), look.heightPx()) / look.pxPerMm(), at);
  }

  private Plane window(TaughtGrid g, Pose at) {
    return window(Math.hypot(g.width, g.height) * g.cellMm, at);
  }

  private Plane window(double extentMm, Pose at) {
    double reach = map.scaleAt(at.xMm(), at.yMm()) * (extentMm + 2 * reachMm + 0.6) + 12;
    double[] q = map.at(at.xMm(), at.yMm());
    return picture.plane(q[0] - reach, q[1] - reach, q[0] + reach, q[1] + reach);
  }
}
