package org.padtrue.plan;

import java.util.List;
import org.padtrue.panel.Job;
import org.padtrue.plan.model.MeasuringPlanOptions;

/**
 * Which few placements to measure so that every trim is known, and how well.
 *
 * <p>A trim here is what can be entered: shift at the centroid of the panel, rotation, scale,
 * squareness, array steps, common offset, the offset of each type with the common one in it, what a
 * nozzle, feeder or head differs from its fellows. All are standard errors of one panel's estimate;
 * registration that varies from panel to panel comes on top (see {@code notes}).
 *
 * @param candidates placements that could be measured
 * @param searched of them, those that the search looked at (see {@code notes} when fewer)
 * @param basis why it is this many
 * @param lines what to measure, in walking order
 * @param walkMm length of the walk, mm
 * @param halfDiagonalMm distance at which rotation, scale and squareness are taken, mm
 * @param worstMm largest standard error over the terms, mm; NaN while some panel term rests on
 *     nothing
 * @param medianMm their median, mm
 * @param worstTerm name of the worst
 * @param terms standard error of each trim of position
 * @param rotationTerms standard error of each trim of rotation, degrees; the panel's rotation and
 *     the zero count together, for parts cannot tell them apart
 * @param keeps share of what deciding from every placement takes out of the next panel's mean
 *     square that this plan takes out at least on 95 % of panels, if terms are as large as assumed;
 *     1 = all of it
 * @param enough the smallest number found that keeps 95 % of it
 * @param curve share kept, worst and median against the number measured, as a greedy choice grows;
 *     the plan itself is then improved by exchange and is a little better than the curve at its
 *     number
 * @param aliases terms that cannot be told apart whatever is measured
 * @param undecided what this plan will not be able to decide and what would make it decidable, one
 *     sentence each; empty when nothing
 * @param summary what is measured and how well the trims are then known, in sentences
 * @param notes what a reader should know, one sentence each
 */
public record MeasuringPlan(
    int candidates,
    int searched,
    Basis basis,
    List<PlanLine> lines,
    double walkMm,
    double halfDiagonalMm,
    double worstMm,
    double medianMm,
    String worstTerm,
    List<Term> terms,
    List<Term> rotationTerms,
    double keeps,
    int enough,
    List<CurvePoint> curve,
    List<PlanAlias> aliases,
    List<String> undecided,
    List<String> summary,
    List<String> notes) {

  public MeasuringPlan {
    lines = List.copyOf(lines);
    terms = List.copyOf(terms);
    rotationTerms = List.copyOf(rotationTerms);
    curve = List.copyOf(curve);
    aliases = List.copyOf(aliases);
    undecided = List.copyOf(undecided);
    summary = List.copyOf(summary);
    notes = List.copyOf(notes);
  }

  /**
   * Makes a plan. The same job and options give the same plan.
   *
   * @param job the job
   * @param options assumptions and aim
   * @throws org.padtrue.problem.InputException when there is nothing to measure
   */
  public static MeasuringPlan of(Job job, MeasuringPlanOptions options) {
    return new MeasuringPlanner(job, options).plan();
  }

  /** Why the plan has the number of placements it has. */
  public enum Basis {
    /** The number was given. */
    COUNT,
    /** The smallest number found that reaches the wanted uncertainty. */
    WITHIN,
    /** The wanted uncertainty cannot be reached; the number that is enough to decide by. */
    WITHIN_NOT_REACHABLE,
    /** Neither was given: the number that is enough to decide by. */
    ENOUGH
  }

  /**
   * One placement to measure.
   *
   * @param order 1-based place in the walk
   * @param column board column
   * @param row board row
   * @param ref reference designator
   * @param part part type
   * @param x nominal, panel frame, mm
   * @param y nominal, panel frame, mm
   * @param rotation nominal, panel frame, degrees
   */
  public record PlanLine(
      int order,
      int column,
      int row,
      String ref,
      String part,
      double x,
      double y,
      double rotation) {}

  /**
   * How well one trim is known.
   *
   * @param name in the trade's words
   * @param factor shift, rotation, scale x, scale y, squareness, array step, common, part, nozzle,
   *     feeder or head
   * @param standardError with this plan; mm (rotation, scale, squareness: at the half diagonal), or
   *     degrees for rotation terms
   * @param everything the same with every placement measured, in the same unit
   * @param ownUnits standard error in the unit in which the trim is entered
   * @param unit that unit: mm, deg, ppm or mrad
   * @param foundFrom size from which an offset of this kind is found nine times in ten, should it
   *     be the only one; in the unit of the standard error; NaN while nothing is known of it
   * @param everythingFoundFrom the same with every placement measured, in the same unit
   * @param matters size that ought to be found: three times the scatter of one placement
   * @param chosen placements of the plan that show it
   * @param available placements of the panel that show it
   */
  public record Term(
      String name,
      String factor,
      double standardError,
      double everything,
      double ownUnits,
      String unit,
      double foundFrom,
      double everythingFoundFrom,
      double matters,
      int chosen,
      int available) {}

  /**
   * One point of the curve.
   *
   * @param count placements measured
   * @param worstMm largest standard error, mm; NaN while some panel term rests on nothing
   * @param medianMm median standard error, mm; NaN likewise
   * @param worstTerm name of the worst
   * @param keeps share of the gain kept, as {@link MeasuringPlan#keeps}
   */
  public record CurvePoint(
      int count, double worstMm, double medianMm, String worstTerm, double keeps) {}

  /**
   * Terms that no choice of placements tells apart.
   *
   * @param terms their names; a single one cannot be seen at all
   * @param sentence what that means
   */
  public record PlanAlias(List<String> terms, String sentence) {
    public PlanAlias {
      terms = List.copyOf(terms);
    }
  }
}
