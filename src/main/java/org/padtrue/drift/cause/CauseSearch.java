package org.padtrue.drift.cause;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.numeric.Regression;

/**
 * Chooses what moves a series: nothing, a line in time, steps at times found, steps at known
 * events, temperature, warm-up, and these together, by one criterion on one likelihood (points
 * weighted by what each is worth).
 *
 * <p>The criterion is Schwarz's with the small-sample correction of McQuarrie (1999, Statistics and
 * Probability Letters 44, 79): n ln(rss/n) + n ln(n) m / (n - m - 2). A step at a found time counts
 * three parameters (Zhang and Siegmund 2007, Biometrics 63, 22: its place is chosen among many),
 * and so does every other cause: of two that may explain a series the one that does it better is
 * told, not the one that needs fewer numbers. A step at a known event counts two.
 *
 * <p>States are in the unit of the series, temperatures in degrees Celsius.
 */
public final class CauseSearch {
  private static final int MOST_STEPS = 5;
  private static final int MOST_STEPS_BESIDE_A_LINE = 2;
  private static final int PER_CAUSE = 3;
  private static final int PER_EVENT = 2;
  private static final int FEWEST_FOR_ENVIRONMENT = 8;
  private static final int ROUNDS = 3;

  private final double[] days;
  private final double[] y;
  private final double[] sigma;
  private final double[] temperature;
  private final double[] running;
  private final int[] events;
  private final int n;
  private final int min;
  private final StepSearch steps;
  private final WarmUp.Search settling;
  private final double floor;

  /**
   * Searches one series.
   *
   * @param days time of each point
   * @param y states
   * @param sigma relative standard deviations
   * @param temperature centred, or empty when it is not known or did not vary
   * @param running minutes, NaN where unknown, or empty likewise
   * @param events first points after known events
   */
  public CauseSearch(
      double[] days,
      double[] y,
      double[] sigma,
      double[] temperature,
      double[] running,
      int[] events) {
    this.days = days;
    this.y = y;
    this.sigma = sigma;
    this.n = y.length;
    boolean enough = n >= FEWEST_FOR_ENVIRONMENT;
    this.temperature = enough ? temperature : new double[0];
    this.running = enough ? running : new double[0];
    this.events = events;
    this.min = SlowPart.minSegment(n);
    this.steps = new StepSearch(y, sigma, min);
    this.settling = new WarmUp.Search(this.running, sigma);
    double total = 0;
    for (int i = 0; i < n; i++) {
      total += y[i] * y[i] / (sigma[i] * sigma[i]);
    }
    // what rounding leaves of a series that does not vary at all
    this.floor = Math.max(1e-20 * total, Double.MIN_NORMAL);
  }

  /** The best model. */
  public CauseModel best() {
    CauseModel best = null;
    for (boolean warm : running.length > 0 ? new boolean[] {false, true} : new boolean[] {false}) {
      for (boolean temp :
          temperature.length > 0 ? new boolean[] {false, true} : new boolean[] {false}) {
        for (boolean line :
            days[n - 1] > days[0] ? new boolean[] {false, true} : new boolean[] {false}) {
          best = better(best, fixed(line, new int[0], new int[0], temp, warm));
          if (events.length > 0) {
            best = better(best, fixed(line, new int[0], events, temp, warm));
          }
          best = better(best, stepped(line, temp, warm));
        }
      }
    }
    if (best == null) {
      throw new IllegalStateException("a level alone can always be fitted");
    }
    return best;
  }

  private static @Nullable CauseModel better(@Nullable CauseModel a, @Nullable CauseModel b) {
    return a == null || (b != null && b.criterion() < a.criterion()) ? b : a;
  }

  /** A model whose places are given; null when it has no warm-up that can be told. */
  private @Nullable CauseModel fixed(
      boolean line, int[] found, int[] known, boolean temp, boolean warm) {
    SlowPart slow = SlowPart.of(days, line, found, known);
    double[][] columns = slow.columns();
    if (temp) {
      columns = append(columns, temperature);
    }
    double tau = Double.NaN;
    if (warm) {
      tau = settling.minutes(Regression.fit(columns, y, sigma));
      if (Double.isNaN(tau)) {
        return null;
      }
      columns = append(columns, WarmUp.decay(running, tau));
    }
    int m =
        1
            + PER_CAUSE * ((line ? 1 : 0) + (temp ? 1 : 0) + (warm ? 1 : 0) + found.length)
            + PER_EVENT * known.length;
    if (n - m - 2 <= 0 && m > 1) {
      return null;
    }
    Regression fit = Regression.fit(columns, y, sigma);
    double criterion =
        n * Math.log(Math.max(fit.rss, floor) / n) + n * Math.log(n) * m / Math.max(1, n - m - 2.0);
    return new CauseModel(slow, temp, tau, fit, columns, criterion);
  }

  /** The best with steps at found times. */
  private @Nullable CauseModel stepped(boolean line, boolean temp, boolean warm) {
    int most = Math.min(line ? MOST_STEPS_BESIDE_A_LINE : MOST_STEPS, n / min - 1);
    double[][] plain = base(line, temp, Double.NaN);
    double start = warm ? settling.minutes(Regression.fit(plain, y, sigma)) : Double.NaN;
    // with a warm-up its time constant and the places are found in turn, from either side
    double[] starts =
        Double.isNaN(start) ? new double[] {Double.NaN} : new double[] {Double.NaN, start};
    List<Segmentation> seeds = most < 2 ? List.of() : seeds(plain, most);
    CauseModel best = null;
    int[] fewer = new int[0];
    int worse = 0;
    for (int k = 1; k <= most && worse < 2; k++) {
      int[] seed = k < seeds.size() && k > 1 ? seeds.get(k).starts() : new int[0];
      CauseModel m = null;
      for (double from : starts) {
        double tau = from;
        int[] before = new int[0];
        for (int round = 0; round < (warm ? ROUNDS : 1); round++) {
          int[] at = steps.best(base(line, temp, tau), fewer, seed);
          CauseModel next = at == null ? null : fixed(line, at, new int[0], temp, warm);
          if (next == null) {
            break;
          }
          m = better(m, next);
          tau = next.minutes();
          if (Arrays.equals(at, before)) {
            break;
          }
          before = at;
        }
      }
      if (m == null) {
        break;
      }
      worse = best != null && m.criterion() >= best.criterion() ? worse + 1 : 0;
      best = better(best, m);
      fewer = m.slow().starts();
    }
    return best;
  }

  private double[][] base(boolean line, boolean temp, double tau) {
    double[][] columns = SlowPart.of(days, line, new int[0], new int[0]).columns();
    if (temp) {
      columns = append(columns, temperature);
    }
    return Double.isNaN(tau) ? columns : append(columns, WarmUp.decay(running, tau));
  }

  // The best breaks in the mean once the other columns are taken off as they fit alone.
  private List<Segmentation> seeds(double[][] base, int most) {
    Regression fit = Regression.fit(base, y, sigma);
    double[] rest = new double[n];
    for (int i = 0; i < n; i++) {
      rest[i] = y[i] - fit.fitted[i];
    }
    return Segmentation.fits(rest, sigma, most, min);
  }

  public static double[][] append(double[][] columns, double[] last) {
    double[][] all = Arrays.copyOf(columns, columns.length + 1);
    all[columns.length] = last;
    return all;
  }
}
