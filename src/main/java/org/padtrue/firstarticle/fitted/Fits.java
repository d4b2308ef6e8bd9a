package org.padtrue.firstarticle.fitted;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.padtrue.fit.Apart;
import org.padtrue.fit.Finding;
import org.padtrue.fit.Screening;
import org.padtrue.fit.ScreeningResult;
import org.padtrue.mixed.BatchRegistration;
import org.padtrue.mixed.Contribution;
import org.padtrue.mixed.FactorEffect;
import org.padtrue.mixed.FrameChoice;
import org.padtrue.mixed.OffsetFit;
import org.padtrue.mixed.OffsetOptions;
import org.padtrue.mixed.PanelEstimate;
import org.padtrue.mixed.PanelFamily;
import org.padtrue.mixed.RotationFit;
import org.padtrue.mixed.RotationModel;
import org.padtrue.panel.Board;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.Level;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.Machine;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.panel.Reference;
import org.padtrue.panel.article.DeviationTable;
import org.padtrue.panel.term.TermFamily;
import org.padtrue.quantity.Angles;

/**
 * Screening and the fits of positions and rotations.
 *
 * @param screening findings by row of the full table
 * @param used rows that took part
 * @param usedRow for each used row its row in the full table
 * @param position fit of positions
 * @param rotation fit of rotations, or null when none was measured
 * @param panels one estimate per panel
 * @param shiftX registration at the centroid, x
 * @param shiftY registration at the centroid, y
 * @param turn registration rotation, degrees
 * @param factors factors asked for
 * @param frames in which frame each factor acts, and how that was told
 * @param scaleVisible false when the reference hides scale and array
 * @param zero part types that are turned as a whole, with the turn in degrees
 */
public record Fits(
    ScreeningResult screening,
    DeviationTable used,
    int[] usedRow,
    OffsetFit position,
    @Nullable RotationFit rotation,
    List<PanelEstimate> panels,
    BatchRegistration shiftX,
    BatchRegistration shiftY,
    BatchRegistration turn,
    List<Factor> factors,
    FrameChoice frames,
    boolean scaleVisible,
    Map<String, Integer> zero) {

  /** Fits with everything on offer. */
  public static Fits of(Job job, ArticleSet set, AnalysisOptions o) {
    return of(job, set, o, true);
  }

  /** The same, with the common offset on offer or not. */
  public static Fits of(Job job, ArticleSet set, AnalysisOptions o, boolean offerCommon) {
    DeviationTable all = set.table();
    ScreeningResult screening = Screening.screen(all, set.symmetry(), set.poses());
    RowSlips.name(job, all, screening.findings(), screening.scaleMm());
    boolean[] keep = new boolean[all.size()];
    int n = 0;
    for (int i = 0; i < keep.length; i++) {
      keep[i] = o.keepOutliers() || screening.findings()[i] == null;
      n += keep[i] ? 1 : 0;
    }
    if (n == 0) {
      // Everything looks wrong: fit it all the same, so that the sheet has something to show.
      java.util.Arrays.fill(keep, true);
      n = keep.length;
    }
    int[] usedRow = new int[n];
    for (int i = 0, k = 0; i < keep.length; i++) {
      if (keep[i]) {
        usedRow[k++] = i;
      }
    }
    DeviationTable used = n == all.size() ? all : all.subset(i -> keep[i]);
    boolean scaleVisible = job.measurement().reference() != Reference.MACHINE;
    List<Factor> factors = o.random() != null ? o.random() : Factor.carried();
    FrameChoice frames =
        position(used, o, factors, scaleVisible, offerCommon, apart(screening, o, Apart::position));
    OffsetFit position = frames.fit();
    List<PanelEstimate> panels = new ArrayList<>();
    for (int p = 0; p < used.panels().size(); p++) {
      panels.add(position.panel(p));
    }
    double[] response = response(all, used, usedRow, set, screening, panels);
    RotationFit rotation =
        RotationModel.fit(
            used, response, factors, o.equalScatter(), apart(screening, o, Apart::rotation));
    Machine m = job.machine();
    BatchRegistration[] shift = shift(panels, m);
    BatchRegistration turn = turn(panels, m, reach(job));
    return new Fits(
        screening,
        used,
        usedRow,
        position,
        rotation,
        panels,
        shift[0],
        shift[1],
        turn,
        factors,
        frames,
        scaleVisible,
        zero(all, screening));
  }

  /** Levels that are not held to the others; none where everything is kept. */
  private static Set<Level> apart(
      ScreeningResult screening, AnalysisOptions o, java.util.function.Predicate<Apart> by) {
    Set<Level> free = new TreeSet<>();
    for (Apart a : screening.apart()) {
      if (by.test(a) && !o.keepOutliers()) {
        free.add(new Level(a.factor(), a.level()));
      }
    }
    return free;
  }

  private static Map<String, Integer> zero(DeviationTable all, ScreeningResult screening) {
    Map<String, Integer> zero = new HashMap<>();
    LevelColumn part = all.factors().get(Factor.PART);
    for (int l = 0; part != null && l < part.levels().size(); l++) {
      if (screening.zeroOrientation()[l] != 0) {
        zero.put(part.levels().get(l), screening.zeroOrientation()[l]);
      }
    }
    return zero;
  }

  private static FrameChoice position(
      DeviationTable used,
      AnalysisOptions o,
      List<Factor> factors,
      boolean scaleVisible,
      boolean offerCommon,
      Set<Level> free) {
    PanelFamily family =
        switch (o.transform()) {
          case AUTO -> null;
          case SHIFT -> PanelFamily.SHIFT;
          case RIGID -> PanelFamily.RIGID;
          case SIMILARITY -> scaleVisible ? PanelFamily.SIMILARITY : PanelFamily.RIGID;
          case AFFINE -> scaleVisible ? PanelFamily.AFFINE : PanelFamily.RIGID;
        };
    Set<Factor> panelFrame = OffsetOptions.usualPanelFrame();
    o.frames()
        .forEach(
            (factor, frame) -> {
              panelFrame.remove(factor);
              if (frame == OffsetFrame.PANEL) {
                panelFrame.add(factor);
              }
            });
    OffsetOptions options =
        new OffsetOptions(
            family,
            o.array(),
            o.common(),
            offerCommon,
            scaleVisible,
            factors,
            panelFrame,
            Set.of(),
            o.equalScatter(),
            free);
    Set<Factor> open = new TreeSet<>(o.usualFrames() ? List.of() : factors);
    open.removeIf(f -> !f.frameOpen());
    open.removeAll(o.frames().keySet());
    return FrameChoice.of(used, options, open);
  }

  private static double[] response(
      DeviationTable all,
      DeviationTable used,
      int[] usedRow,
      ArticleSet set,
      ScreeningResult screening,
      List<PanelEstimate> panels) {
    double[] r = new double[used.size()];
    @Nullable LevelColumn part = all.factors().get(Factor.PART);
    for (int k = 0; k < r.length; k++) {
      int i = usedRow[k];
      int level = part == null ? -1 : part.level()[i];
      int zero = level < 0 ? 0 : screening.zeroOrientation()[level];
      double phi = panels.get(used.panel()[k]).rotationDeg();
      double d = all.dr()[i] - zero - phi;
      r[k] = Double.isNaN(d) ? Double.NaN : Angles.wrap(d, set.symmetry()[i]);
    }
    return r;
  }

  private static BatchRegistration[] shift(List<PanelEstimate> panels, Machine m) {
    int n = panels.size();
    double[][] value = new double[2][n];
    double[][] variance = new double[2][n];
    double df = Double.POSITIVE_INFINITY;
    for (int p = 0; p < n; p++) {
      PanelEstimate e = panels.get(p);
      df = Math.min(df, e.centroidDf());
      for (int t = 0; t < 2; t++) {
        value[t][p] = e.centroidShiftMm()[t];
        variance[t][p] = e.centroidCov()[2 * t];
      }
    }
    BatchRegistration[] usual =
        BatchRegistration.pooled(value, variance, m.location().usualMm(), df);
    double[] stated = {m.repeatabilityXMm(), m.repeatabilityYMm()};
    for (int t = 0; t < 2; t++) {
      if (!Double.isNaN(stated[t])) {
        usual[t] = BatchRegistration.stated(value[t], variance[t], stated[t], df);
      }
    }
    return usual;
  }

  private static BatchRegistration turn(List<PanelEstimate> panels, Machine m, double reachMm) {
    int n = panels.size();
    double[] value = new double[n];
    double[] variance = new double[n];
    double df = Double.POSITIVE_INFINITY;
    for (int p = 0; p < n; p++) {
      PanelEstimate e = panels.get(p);
      value[p] = e.rotationDeg();
      variance[p] = e.rotationSeDeg() * e.rotationSeDeg();
      df = Math.min(df, Double.isNaN(e.rotationDf()) ? Double.POSITIVE_INFINITY : e.rotationDf());
    }
    double stated = m.repeatabilityRotationDeg();
    if (!Double.isNaN(stated)) {
      return BatchRegistration.stated(value, variance, stated, df);
    }
    // What locates the panel is off by as much at its far end as its shift is.
    double usual = Math.toDegrees(m.location().usualMm() / reachMm);
    return BatchRegistration.pooled(new double[][] {value}, new double[][] {variance}, usual, df)[
        0];
  }

  /** Distance of the panel's fiducials, or the diagonal of what is placed, mm; at least 10. */
  private static double reach(Job job) {
    List<double[]> at = new ArrayList<>();
    for (Fiducial f : job.fiducials()) {
      if (f.scope() == Fiducial.Scope.PANEL) {
        at.add(new double[] {f.xMm(), f.yMm()});
      }
    }
    if (at.size() < 2) {
      at.clear();
      for (Board b : job.array().boards()) {
        job.placements().stream()
            .map(p -> p.pose().seenFrom(b.origin()))
            .forEach(p -> at.add(new double[] {p.xMm(), p.yMm()}));
      }
    }
    double[] box = {1e9, 1e9, -1e9, -1e9};
    for (double[] p : at) {
      box[0] = Math.min(box[0], p[0]);
      box[1] = Math.min(box[1], p[1]);
      box[2] = Math.max(box[2], p[0]);
      box[3] = Math.max(box[3], p[1]);
    }
    return Math.max(10, Math.hypot(box[2] - box[0], box[3] - box[1]));
  }

  /**
   * One component of a factor's offsets.
   *
   * @param frame the frame in which it acts
   * @param effect its offsets, or null when the model of positions has none
   * @param rotations true when the factor's rotation offsets go with it; they have no frame
   */
  public record Part(OffsetFrame frame, @Nullable FactorEffect effect, boolean rotations) {}

  /** The components of a factor: one as a rule, two where it acts in both frames. */
  public List<Part> parts(Factor factor) {
    List<Part> out = new ArrayList<>();
    for (FactorEffect e : position.effects()) {
      if (e.factor() == factor) {
        OffsetFrame frame = e.partFrame() ? OffsetFrame.PART : OffsetFrame.PANEL;
        out.add(new Part(frame, e, out.isEmpty()));
      }
    }
    if (out.isEmpty()) {
      boolean panel = frames.options().panelFrame().contains(factor);
      out.add(new Part(panel ? OffsetFrame.PANEL : OffsetFrame.PART, null, true));
    }
    return out;
  }

  private static final Set<TermFamily> PANEL =
      EnumSet.of(TermFamily.SHIFT, TermFamily.ROTATION, TermFamily.SCALE, TermFamily.ARRAY);

  /** Contributions of the panel and of a factor's other components. */
  public int[] besides(Factor factor, Part part) {
    List<Contribution> all = position.contributing();
    return IntStream.range(0, all.size())
        .filter(
            k -> {
              FactorEffect e = all.get(k).effect();
              TermFamily f = all.get(k).family();
              return f != null && PANEL.contains(f)
                  || e != null && e.factor() == factor && e != part.effect();
            })
        .toArray();
  }

  /** Finding of a row of the full table, or null. */
  public @Nullable Finding finding(int row) {
    return screening.findings()[row];
  }

  /** How a level stands apart from the others of its factor; null when it does not. */
  public @Nullable Apart apart(Factor factor, String level) {
    for (Apart a : screening.apart()) {
      if (a.factor() == factor && a.level().equals(level)) {
        return a;
      }
    }
    return null;
  }

  /** Zero orientation of a part type, degrees. */
  public int zeroOrientation(String part) {
    return zero.getOrDefault(part, 0);
  }

  /** Rotation deviation of each used row from its type's own zero, degrees, modulo symmetry. */
  public double[] turnFromZero(ArticleSet set) {
    double[] turn = new double[usedRow.length];
    for (int k = 0; k < turn.length; k++) {
      int i = usedRow[k];
      String part = used.rows().get(k).placement().part();
      double d = set.table().dr()[i] - zeroOrientation(part);
      turn[k] = Double.isNaN(d) ? Double.NaN : Angles.wrap(d, set.symmetry()[i]);
    }
    return turn;
  }
}
