package org.padtrue.drift.cause;

import java.util.Arrays;
import org.padtrue.numeric.Regression;

/**
 * What moves a series, as one linear model: its slow part, temperature, warm-up.
 *
 * <p>Values are in the unit of the series; columns are days, degrees Celsius or pure numbers; the
 * criterion has no unit.
 *
 * @param slow slow part, whose columns come first
 * @param temperature whether temperature is in it
 * @param minutes time constant of the warm-up; NaN without one
 * @param fit the model fitted: slow columns, temperature, warm-up
 * @param columns its columns
 * @param criterion the smaller the better
 */
@SuppressWarnings("ArrayRecordComponent") // made and read within the analysis of one series
public record CauseModel(
    SlowPart slow,
    boolean temperature,
    double minutes,
    Regression fit,
    double[][] columns,
    double criterion) {
  public boolean warmUp() {
    return !Double.isNaN(minutes);
  }

  public boolean sameAs(CauseModel o) {
    return slow.kind() == o.slow.kind()
        && Arrays.equals(slow.starts(), o.slow.starts())
        && temperature == o.temperature
        && warmUp() == o.warmUp();
  }

  /** What temperature and warm-up add to each point. */
  public double[] environment() {
    double[] sum = new double[fit.n];
    for (int j = slow.columns().length; j < columns.length; j++) {
      for (int i = 0; i < sum.length; i++) {
        sum[i] += fit.beta[j] * columns[j][i];
      }
    }
    return sum;
  }

  /** Columns without one. */
  public double[][] without(int j) {
    double[][] others = new double[columns.length - 1][];
    System.arraycopy(columns, 0, others, 0, j);
    System.arraycopy(columns, j + 1, others, j, others.length - j);
    return others;
  }
}
