package org.padtrue.imaging.reader;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.imaging.map.PanelToPicture;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.Plane;
import org.padtrue.imaging.pose.BareLands;
import org.padtrue.imaging.pose.CoarseSearch;
import org.padtrue.imaging.pose.HalfTurn;
import org.padtrue.imaging.pose.Outline;
import org.padtrue.imaging.pose.OutlineFit;
import org.padtrue.imaging.pose.PartPose;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;
import org.padtrue.imaging.pose.Refinement;
import org.padtrue.imaging.pose.SizeDoubt;
import org.padtrue.imaging.pose.TerminationLook;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.imaging.taught.TaughtReader;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Pose;
import org.padtrue.quantity.Angles;

/**
 * Measures one part: looks around the predicted pose, then fits the outline. A part that fits badly
 * as predicted is also tried turned by quarters, and held against the look of bare lands.
 */
public final class PoseReader {
  /** How far off a part may be, mm. */
  public static final double REACH_MM = 0.5;

  /** Share of the outline that must be seen for a part to count as found. */
  private static final double FOUND = 0.6;

  /** Below this nothing was found. */
  private static final double DOUBTFUL = 0.42;

  /** A fit this good needs no second opinion. */
  private static final double SURE = 0.8;

  /**
   * And is mistaken, if at all, for one beside it, not for one turned by more, degrees: a straight
   * outline does not show in one that crosses it.
   */
  private static final double SURE_DEG = 5;

  /** Better fits than this are refined on the pixels themselves. */
  private static final double FINE = 0.5;

  /** A fit that edges and pixels agree on may look so much worse than one they do not. */
  private static final double AS_GOOD = 0.1;

  private static final double BARE = PlacementReading.LANDS_SEEN;

  /** A part that is truly turned by a quarter shows its outline so well, in a sharp picture. */
  private static final double CLEAR_TURN = 0.9;

  /** Of its outline as placed, a turned part shows less than this share by chance. */
  private static final double RIVAL = 0.4;

  /** Terminations that do not look alike cost a fit so much. */
  private static final double UNLIKE = 0.25;

  /** Share of an outline that may lie on solder or on a land of its own colour, unseen. */
  private static final double BLIND = 0.15;

  /** Parts so far off are rare: that needs more of the outline than a small offset does, mm. */
  private static final double FAR_MM = 0.3;

  private static final double FAR_NEEDS = 0.2;

  /** What standing off by the whole reach costs a trial beside others. */
  private static final double FAR_COSTS = 0.2;

  /** A fit this good is not looked for elsewhere. */
  private static final double CERTAIN = 0.9;

  /** How far from the predicted place a fit that starts there may reach, px beside the blur. */
  private static final double NEAR_START_PX = 1;

  private final Picture picture;
  private final PanelToPicture map;
  private final double reachMm;

  /**
   * @param reachMm how far off to look, mm: {@link #REACH_MM} unless the map is still rough
   */
  public PoseReader(Picture picture, PanelToPicture map, double reachMm) {
    this.picture = picture;
    this.map = map;
    this.reachMm = reachMm;
  }

  /** A fit with what it is worth. */
  private record Trial(
      OutlineFit.Result fit, double quality, double quarterDeg, boolean unlike, Closer closer) {
    /**
     * Of several places on one part. Texture and shadow make faint edges anywhere: where a chip's
     * ends are mistaken for each other only faint ones speak for the wrong place.
     */
    double worth() {
      return quality + 0.3 * closer.score() + fit.strength() - 0.3 * closer.uneven();
    }

    Trial with(OutlineFit.Result finer) {
      return new Trial(finer, quality, quarterDeg, unlike, closer);
    }

    /** A part turned by a quarter is rare: it must look better in outline and in colours. */
    boolean beats(Trial o) {
      return quality > 0.7
          && quality > o.quality + 0.05
          && closer.score() > o.closer.score() + 0.02
          && quality + closer.score() > o.quality + o.closer.score() + 0.15;
    }
  }

  /** What one place is looked at for only beside others: most parts have but one. */
  private final class Closer {
    private final PartType type;
    private final CoarseSearch coarse;
    private final Pose pose;
    private double score = Double.NaN;
    private double uneven = Double.NaN;

    Closer(PartType type, CoarseSearch coarse, Pose pose) {
      this.type = type;
      this.coarse = coarse;
      this.pose = pose;
    }

    /** How much of the outline shows. */
    double score() {
      if (Double.isNaN(score)) {
        score = coarse.scoreAt(pose);
      }
      return score;
    }

    /** How little it looks like itself turned by half. */
    double uneven() {
      if (Double.isNaN(uneven)) {
        uneven = HalfTurn.unevenness(picture, map, type, pose);
      }
      return uneven;
    }
  }

  /**
   * Measures a part.
   *
   * @param type geometry
   * @param nominal predicted pose, panel frame
   * @param sigmaPx expected blur, px
   */
  public PartPose read(PartType type, Pose nominal, double sigmaPx) {
    if (!Outline.known(type)) {
      return PartPose.none(
          ReadingStatus.NO_GEOMETRY, 0, "the type has neither body nor terminations");
    }
    Outline outline = Outline.of(type);
    if (!inside(outline, nominal)) {
      return PartPose.none(ReadingStatus.OUT_OF_PICTURE, 0, "");
    }
    Plane plane = window(outline, nominal);
    Trial placed = trial(type, outline, plane, nominal, sigmaPx, 0);
    Trial best = turned(placed, type, outline, plane, nominal, sigmaPx);
    boolean rival = rival(best, placed);
    double sigma = best == null ? sigmaPx : best.fit.sigmaPx();
    BareLands lands = BareLands.at(plane, map, type, nominal, Math.min(sigma, 1.5 * sigmaPx));
    double bare = lands.share();
    boolean empty = lands.colouredGroundBetween();
    if (empty && (bare >= BARE || best == null || best.fit.support() < FOUND)) {
      return PartPose.none(ReadingStatus.MISSING, bare, "bare ground shows between the lands");
    }
    if (best != null && best.quality > FINE) {
      best = refined(type, outline, plane, nominal, best, sigmaPx);
      best = best.with(SizeDoubt.added(best.fit));
    }
    PartPose p = judge(type, outline, nominal, best, bare);
    if (p.status() != ReadingStatus.FOUND) {
      return p;
    }
    String doubt =
        rival
            ? "it looks turned by a quarter, and half as it should be too"
            : doubt(p, type, nominal, plane);
    doubt =
        doubt == null && empty ? "an outline is seen, but bare ground between the lands" : doubt;
    return doubt == null ? p : p.doubtful(doubt);
  }

  /** Silk beside a chip with a square middle looks like its ends when the picture is not sharp. */
  private static boolean rival(@Nullable Trial best, @Nullable Trial placed) {
    return best != null
        && placed != null
        && best != placed
        && best.quality < CLEAR_TURN
        && placed.fit.support() > RIVAL;
  }

  /** The best of the turns by quarters where the part as placed is not sure. */
  private @Nullable Trial turned(
      @Nullable Trial placed,
      PartType type,
      Outline outline,
      Plane plane,
      Pose nominal,
      double sigmaPx) {
    Trial best = placed;
    if (best == null || best.quality < SURE) {
      int turns = 4 / Math.max(outline.symmetry(), type.symmetry());
      for (int q = 1; q < turns; q++) {
        double quarter = turns == 2 ? 90 : 90 * q;
        Trial t = trial(type, outline, plane, nominal, sigmaPx, quarter);
        if (t != null && (best == null || t.beats(best))) {
          best = t;
        }
      }
    }
    return best;
  }

  /** What speaks against a part that was found; null when nothing does. */
  private @Nullable String doubt(PartPose p, PartType type, Pose nominal, Plane plane) {
    if (p.pose() == null) {
      return null;
    }
    if (HalfTurn.contradicts(picture, map, type, p.pose(), nominal)) {
      return "its two halves match about another middle than its edges do";
    }
    return type.lands().isEmpty() && BareLands.within(plane, map, type, p.pose())
        ? "an outline is seen, but its middle has the colour of the ground"
        : null;
  }

  /** Whether a part of known outline stands within the picture. */
  boolean shows(PartType type, Pose nominal) {
    return inside(Outline.of(type), nominal);
  }

  /** Measures a part by its taught look where it has one. */
  public PartPose read(PartType type, @Nullable TaughtLook look, Pose nominal, double sigmaPx) {
    return look == null
        ? read(type, nominal, sigmaPx)
        : new TaughtReader(picture, map, reachMm).read(type, look, nominal);
  }

  /** Looks for a part as predicted only: no quarter turns, no bare lands. */
  public PartPose glance(PartType type, Pose nominal, double sigmaPx) {
    if (!Outline.known(type)) {
      return PartPose.none(ReadingStatus.NO_GEOMETRY, 0, "");
    }
    Outline outline = Outline.of(type);
    if (!inside(outline, nominal)) {
      return PartPose.none(ReadingStatus.OUT_OF_PICTURE, 0, "");
    }
    Plane plane = window(outline, nominal);
    return judge(type, outline, nominal, trial(type, outline, plane, nominal, sigmaPx, 0), 0);
  }

  private PartPose judge(
      PartType type, Outline outline, Pose nominal, @Nullable Trial t, double bare) {
    if (bare >= BARE && (t == null || t.quality < 0.9)) {
      return PartPose.none(ReadingStatus.MISSING, bare, "the lands lie bare");
    }
    if (t == null || t.fit.support() < DOUBTFUL) {
      return PartPose.none(
          ReadingStatus.NOT_FOUND, t == null ? 0 : t.fit.support(), "no such outline here");
    }
    int symmetry = Math.max(outline.symmetry(), type.symmetry());
    Pose fit = t.fit.pose();
    double turn = Angles.wrap(fit.rotationDeg() - nominal.rotationDeg(), symmetry);
    Pose pose = new Pose(fit.xMm(), fit.yMm(), Angles.wrap(nominal.rotationDeg() + turn));
    double[][] v = t.fit.covariance();
    double u = Math.sqrt((v[0][0] + v[1][1]) / 2);
    double uDeg = Math.toDegrees(Math.sqrt(v[2][2]));
    String note = "";
    if (symmetry > type.symmetry()) {
      note = "rotation known modulo " + 360 / symmetry + " degrees: the outline shows no polarity";
    }
    PartPose p =
        new PartPose(ReadingStatus.FOUND, pose, u, uDeg, t.fit.support(), t.fit.sigmaPx(), note);
    double off = Math.hypot(fit.xMm() - nominal.xMm(), fit.yMm() - nominal.yMm());
    double seen = Math.max(t.fit.support(), Math.min(t.fit.shown(), t.fit.support() + BLIND));
    if (seen < FOUND) {
      return p.doubtful("only part of the outline is seen");
    }
    if (t.unlike) {
      return p.doubtful("its terminations do not look alike");
    }
    double far = Math.min(1, off / FAR_MM);
    if (seen < FOUND + FAR_NEEDS * far * far) {
      return p.doubtful("it would stand far off, and not enough of the outline is seen for that");
    }
    if (off > reachMm + 0.1) {
      return p.doubtful("the nearest outline is further off than was looked for");
    }
    if (u > 0.04 || uDeg > 8) {
      return p.doubtful("its edges are too faint to place it");
    }
    if (bare >= BARE) {
      return p.doubtful("both an outline and bare lands are seen");
    }
    return p;
  }

  private @Nullable Trial trial(
      PartType type,
      Outline outline,
      Plane plane,
      Pose nominal,
      double sigmaPx,
      double quarterDeg) {
    Pose start =
        new Pose(nominal.xMm(), nominal.yMm(), Angles.wrap(nominal.rotationDeg() + quarterDeg));
    double height = leads(type) ? 0.15 : Outline.bodyHeight(type);
    CoarseSearch coarse = new CoarseSearch(picture, map, outline, height, reachMm);
    OutlineFit fitter = new OutlineFit(plane, map, outline, type.lands(), nominal);
    double ppm = map.scaleAt(nominal.xMm(), nominal.yMm());
    // Most parts stand nearly where they should: that place is tried whatever the search says.
    Trial best =
        trial(
            new Look(type, outline, plane, height, coarse),
            fitter.fit(start, NEAR_START_PX + sigmaPx, sigmaPx),
            nominal,
            quarterDeg);
    if (best != null && best.quality > CERTAIN) {
      return best;
    }
    double turned = best != null && best.quality > SURE ? SURE_DEG : CoarseSearch.REACH_DEG;
    List<CoarseSearch.Candidate> found = coarse.find(start, turned, 3);
    for (CoarseSearch.Candidate c : found) {
      if (c.score() < found.get(0).score() - 0.15) {
        break;
      }
      CoarseSearch.Refined r = coarse.refine(c);
      if (best != null && best.quality > SURE && coarse.same(r, best.fit.pose())) {
        continue;
      }
      double blur = Math.max(sigmaPx, 0.6 * ppm * r.cellMm());
      Trial t =
          trial(
              new Look(type, outline, plane, height, coarse),
              fitter.fit(r.pose(), blur, sigmaPx),
              nominal,
              quarterDeg);
      if (t != null && (best == null || t.worth() > best.worth())) {
        best = t;
      }
      if (best != null && best.quality > CERTAIN) {
        break;
      }
    }
    return best;
  }

  /** The fit to the pixels where it agrees; where it does not, edges get a second chance there. */
  private Trial refined(
      PartType type, Outline outline, Plane plane, Pose nominal, Trial best, double sigmaPx) {
    Refinement.Outcome first = Refinement.of(plane, map, type, outline, nominal, best.fit);
    // What is doubtful for its terminations does not become right by moving it.
    if (first.elsewhere() == null || best.unlike) {
      return best.with(first.fit());
    }
    double height = leads(type) ? 0.15 : Outline.bodyHeight(type);
    Trial other =
        trial(
            new Look(
                type,
                outline,
                plane,
                height,
                new CoarseSearch(picture, map, outline, height, reachMm)),
            new OutlineFit(plane, map, outline, type.lands(), nominal)
                .fit(first.elsewhere(), sigmaPx, sigmaPx),
            nominal,
            best.quarterDeg);
    if (other == null || other.worth() < best.worth() - AS_GOOD) {
      return best.with(first.fit());
    }
    Refinement.Outcome second = Refinement.of(plane, map, type, outline, nominal, other.fit);
    return second.elsewhere() == null ? other.with(second.fit()) : best.with(first.fit());
  }

  /** By what one trial is looked at. */
  private record Look(
      PartType type, Outline outline, Plane plane, double heightMm, CoarseSearch coarse) {}

  private @Nullable Trial trial(
      Look look, OutlineFit.@Nullable Result fit, Pose nominal, double quarterDeg) {
    if (fit == null) {
      return null;
    }
    double off = Math.hypot(fit.pose().xMm() - nominal.xMm(), fit.pose().yMm() - nominal.yMm());
    double far = off / reachMm;
    boolean unlike =
        TerminationLook.differs(look.plane, map, look.type, look.outline, fit.pose(), look.heightMm)
            || TerminationLook.contradicts(fit.pieces())
            || TerminationLook.oneSided(fit.pieces());
    double quality =
        fit.support()
            - FAR_COSTS * far * far
            - (fit.converged() ? 0 : 0.03)
            - (unlike ? UNLIKE : 0);
    Closer closer = new Closer(look.type, look.coarse, fit.pose());
    return new Trial(fit, quality, quarterDeg, unlike, closer);
  }

  private static boolean leads(PartType t) {
    return t.kind() == JointKind.GULL_WING || t.kind() == JointKind.J_LEAD;
  }

  private boolean inside(Outline o, Pose at) {
    double c = Math.abs(Angles.cosDeg(at.rotationDeg()));
    double s = Math.abs(Angles.sinDeg(at.rotationDeg()));
    double hx = c * o.halfLengthMm() + s * o.halfWidthMm();
    double hy = s * o.halfLengthMm() + c * o.halfWidthMm();
    for (int i = 0; i < 4; i++) {
      double[] q = map.at(at.xMm() + (i % 2 == 0 ? hx : -hx), at.yMm() + (i < 2 ? hy : -hy));
      if (!picture.holds(q[0], q[1])) {
        return false;
      }
    }
    return true;
  }

  private Plane window(Outline o, Pose at) {
    double ppm = map.scaleAt(at.xMm(), at.yMm());
    double reach = ppm * (Math.hypot(o.halfLengthMm(), o.halfWidthMm()) + reachMm + 0.6) + 8;
    double[] q = map.at(at.xMm(), at.yMm());
    return picture.plane(q[0] - reach, q[1] - reach, q[0] + reach, q[1] + reach);
  }
}
