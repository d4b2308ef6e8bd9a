package org.padtrue.door;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.mistake.Reading;
import org.padtrue.panel.mistake.Reading.Kind;
import org.padtrue.quantity.LengthUnit;

/**
 * One panel of an article under every reading.
 *
 * @param given the fit as given, within what honest machines need
 * @param givenScore its score
 * @param readings the readings that were tried, in the order of {@code scores}
 * @param scores log densities of what was recorded; negative infinity where not possible
 * @param scatters the most that scatter per axis may be under each, mm; see {@link DoorFit#mostSd}
 * @param elsewhere log density of places anywhere on the panel; NaN for deviations
 */
record Judgement(
    DoorFit given,
    double givenScore,
    List<Reading> readings,
    double[] scores,
    double[] scatters,
    double elsewhere) {

  private static final double CHALLENGE = 3;

  static Judgement of(Job job, List<Measured> rows, boolean poses, LengthUnit unit) {
    Readings all = new Readings(job, rows, poses, unit);
    ReadRows asGiven = all.rows(Reading.of(Kind.AS_GIVEN));
    if (asGiven == null) {
      throw new IllegalStateException("a measured board is not in the job");
    }
    DoorFit given = new DoorFit(asGiven, false, false);
    List<Reading> readings = all.all();
    @Nullable DoorFit best = null;
    double[] scores = new double[readings.size()];
    double[] scatters = new double[readings.size()];
    for (int k = 0; k < scores.length; k++) {
      Reading r = readings.get(k);
      @Nullable ReadRows under = all.rows(r);
      if (under == null) {
        scores[k] = Double.NEGATIVE_INFINITY;
        continue;
      }
      DoorFit f = new DoorFit(under, false, poses && Readings.anyShift(r.kind()));
      scores[k] = f.score() + all.logJacobian(r);
      scatters[k] = f.mostSd();
      if (r.kind() != Kind.UNIT && (best == null || f.score() > best.score())) {
        best = f;
      }
    }
    if (best != null && best.score() > given.score() + CHALLENGE) {
      // A fit may be caught by the wrong rows: what serves the challenger may serve it too.
      double[] everything = new double[rows.size()];
      java.util.Arrays.fill(everything, 1);
      for (double[] start : List.of(best.counted(), everything)) {
        DoorFit again = new DoorFit(asGiven, false, false, start);
        given = again.score() > given.score() ? again : given;
      }
    }
    return new Judgement(
        given, given.score(), readings, scores, scatters, poses ? elsewhere(asGiven) : Double.NaN);
  }

  /** The fit as given. */
  static DoorFit given(Job job, List<Measured> rows, boolean poses, LengthUnit unit) {
    ReadRows asGiven = new Readings(job, rows, poses, unit).rows(Reading.of(Kind.AS_GIVEN));
    if (asGiven == null) {
      throw new IllegalStateException("a measured board is not in the job");
    }
    return new DoorFit(asGiven, false, false);
  }

  /** The free fit: what transform the rows as given would need. */
  static DoorFit free(Job job, List<Measured> rows, boolean poses, LengthUnit unit) {
    ReadRows asGiven = new Readings(job, rows, poses, unit).rows(Reading.of(Kind.AS_GIVEN));
    if (asGiven == null) {
      throw new IllegalStateException("a measured board is not in the job");
    }
    return new DoorFit(asGiven, true, true);
  }

  private static double elsewhere(ReadRows r) {
    double w = range(r.x(), r.dx());
    double h = range(r.y(), r.dy());
    return -r.size() * Math.log((w + 20) * (h + 20));
  }

  private static double range(double[] v, double[] d) {
    double lo = Double.POSITIVE_INFINITY;
    double hi = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < v.length; i++) {
      lo = Math.min(lo, Math.min(v[i], v[i] + d[i]));
      hi = Math.max(hi, Math.max(v[i], v[i] + d[i]));
    }
    return hi - lo;
  }
}
