package org.padtrue.plan;

import java.util.Arrays;
import java.util.List;
import org.padtrue.plan.model.MeasuringPlanModel;
import org.padtrue.plan.model.MeasuringPlanTerm;

/**
 * Worst and median standard error over terms.
 *
 * @param worst largest, in the unit of the response
 * @param median median
 * @param worstTerm name of the largest
 */
record MeasuringPlanSummary(double worst, double median, String worstTerm) {

  static MeasuringPlanSummary of(double[] variances, List<MeasuringPlanTerm> terms) {
    double[] sd = Arrays.stream(variances).map(v -> Math.sqrt(Math.max(v, 0))).toArray();
    int at = 0;
    for (int j = 1; j < sd.length; j++) {
      if (sd[j] > sd[at] * (1 + MeasuringPlanScore.TIE)) {
        at = j;
      }
    }
    double[] sorted = sd.clone();
    Arrays.sort(sorted);
    int n = sorted.length;
    double median = n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
    return new MeasuringPlanSummary(sd[at], median, terms.get(at).name());
  }

  /** NaN for a standard error that only the wide spread holds: nothing is known of the term yet. */
  static double known(double standardError) {
    return standardError > MeasuringPlanModel.WIDE / 10 ? Double.NaN : standardError;
  }
}
