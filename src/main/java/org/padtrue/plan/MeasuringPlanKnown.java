package org.padtrue.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.padtrue.plan.MeasuringPlan.Term;
import org.padtrue.plan.model.MeasuringPlanColumn;
import org.padtrue.plan.model.MeasuringPlanCount;
import org.padtrue.plan.model.MeasuringPlanFamilies;
import org.padtrue.plan.model.MeasuringPlanModel;
import org.padtrue.plan.model.MeasuringPlanScatter;
import org.padtrue.plan.model.MeasuringPlanSpread;
import org.padtrue.plan.model.MeasuringPlanTerm;

/**
 * How well each trim is known with a plan, and from what size on an offset is found.
 *
 * @param families how the terms are tested
 * @param count what the plan measures
 * @param scatter of one placement, in the unit of the terms
 */
record MeasuringPlanKnown(
    MeasuringPlanFamilies families, MeasuringPlanCount count, MeasuringPlanScatter scatter) {

  /**
   * Terms of position. Standard errors are those with all terms in the model. An offset is found
   * when its own term comes in, so for that rotation, scale and squareness are seen beside array
   * steps no larger than usual, and array steps likewise.
   *
   * @param model the model for what is assumed of the panel's terms
   * @param terms the trims
   */
  List<Term> position(
      Function<MeasuringPlanSpread, MeasuringPlanModel> model, List<MeasuringPlanTerm> terms) {
    double wide = MeasuringPlanModel.WIDE;
    double usual = MeasuringPlanSpread.USUAL.array();
    MeasuringPlanModel free = model.apply(MeasuringPlanSpread.NONE);
    MeasuringPlanModel linear = model.apply(new MeasuringPlanSpread(wide, wide, usual, wide));
    MeasuringPlanModel array =
        model.apply(new MeasuringPlanSpread(wide, MeasuringPlanSpread.USUAL.linear(), wide, wide));
    double[][] se = {errors(free, terms, false), errors(free, terms, true)};
    double[][] seLinear = {errors(linear, terms, false), errors(linear, terms, true)};
    double[][] seArray = {errors(array, terms, false), errors(array, terms, true)};
    List<Term> list = new ArrayList<>();
    for (int j = 0; j < terms.size(); j++) {
      MeasuringPlanColumn c = free.columns().get(terms.get(j).column());
      double[][] found =
          switch (c.factor().kind()) {
            case ROTATION, SCALE_X, SCALE_Y, SQUARENESS -> seLinear;
            case ARRAY -> seArray;
            default -> se;
          };
      list.add(term(c, se[0][j], se[1][j], found[0][j], found[1][j]));
    }
    return list;
  }

  /** Terms of rotation, degrees. */
  List<Term> rotation(MeasuringPlanModel model, List<MeasuringPlanTerm> terms) {
    double[] se = errors(model, terms, false);
    double[] all = errors(model, terms, true);
    List<Term> list = new ArrayList<>();
    for (int j = 0; j < terms.size(); j++) {
      MeasuringPlanColumn c = model.columns().get(terms.get(j).column());
      list.add(term(c, se[j], all[j], se[j], all[j]));
    }
    return list;
  }

  private double[] errors(
      MeasuringPlanModel model, List<MeasuringPlanTerm> terms, boolean everything) {
    MeasuringPlanDesign d = new MeasuringPlanDesign(model, terms);
    if (everything) {
      d.addAll();
    } else {
      count.picked().forEach(d::add);
      d.refresh();
    }
    double[] v = d.variances();
    for (int j = 0; j < v.length; j++) {
      v[j] = MeasuringPlanSummary.known(Math.sqrt(Math.max(0, v[j])));
    }
    return v;
  }

  private Term term(
      MeasuringPlanColumn c,
      double se,
      double everything,
      double foundSe,
      double everythingFoundSe) {
    double size = families.of(c.factor());
    int chosen = count.chosen(c);
    double one = c.factor().part() ? scatter.of(c.level()) : scatter.sd();
    return new Term(
        c.name(),
        c.factor().word(),
        se,
        everything,
        se * c.unitsPerOne(),
        c.unit(),
        chosen == 0 ? Double.NaN : size * foundSe,
        size * everythingFoundSe,
        MeasuringPlanFamilies.MATTERS * one,
        chosen,
        count.available(c));
  }
}
