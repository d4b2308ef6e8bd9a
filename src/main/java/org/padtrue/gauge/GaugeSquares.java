package org.padtrue.gauge;

import org.padtrue.gauge.GaugeAnova.Line;

/**
 * Mean squares of a balanced study, and what follows from them.
 *
 * @param parts number of parts
 * @param operators number of operators
 * @param repeats readings a cell
 * @param msPart mean square of parts
 * @param msOperator of operators
 * @param msInteraction of their interaction
 * @param dfSession degrees of freedom of sessions within operators, less those that turning used; 0
 *     where sessions cannot be told
 * @param msSession their mean square
 * @param dfWithin degrees of freedom within cells; where sessions are told, of what is left of them
 * @param msWithin their mean square
 * @param operatorWeight by how much the error weighs more in operator means than in means of all
 *     repeats, because turned readings only serve to find the bias; 1 without turning
 */
record GaugeSquares(
    int parts,
    int operators,
    int repeats,
    double msPart,
    double msOperator,
    double msInteraction,
    double dfSession,
    double msSession,
    double dfWithin,
    double msWithin,
    double operatorWeight) {

  /**
   * From readings.
   *
   * @param y readings by part, operator, repeat; the same number of repeats everywhere
   * @param sessions true when the k-th repeat of an operator is one session for all parts
   * @param turning degrees of freedom that taking off the effect of turning has used
   * @param operatorWeight see the record
   */
  static GaugeSquares of(double[][][] y, boolean sessions, int turning, double operatorWeight) {
    int p = y.length;
    int o = y[0].length;
    int r = y[0][0].length;
    GaugeCellMeans m = GaugeCellMeans.of(y);
    double ssPart = 0;
    double ssOperator = 0;
    double ssInteraction = 0;
    double ssError = 0;
    double ssSession = 0;
    for (int i = 0; i < p; i++) {
      ssPart += o * r * sq(m.part()[i] - m.grand());
    }
    for (int j = 0; j < o; j++) {
      ssOperator += p * r * sq(m.operator()[j] - m.grand());
      for (int k = 0; k < r; k++) {
        ssSession += p * sq(sessionMean(y, j, k) - m.operator()[j]);
      }
    }
    for (int i = 0; i < p; i++) {
      for (int j = 0; j < o; j++) {
        ssInteraction += r * sq(m.cell()[i][j] - m.part()[i] - m.operator()[j] + m.grand());
        for (double v : y[i][j]) {
          ssError += sq(v - m.cell()[i][j]);
        }
      }
    }
    boolean split = sessions && p > 1 && r > 1;
    double dfSession = split ? o * (r - 1) - turning : 0;
    double dfWithin = split ? (double) (p - 1) * o * (r - 1) : (double) p * o * (r - 1) - turning;
    double ssWithin = split ? Math.max(0, ssError - ssSession) : ssError;
    return new GaugeSquares(
        p,
        o,
        r,
        ms(ssPart, p - 1),
        ms(ssOperator, o - 1),
        ms(ssInteraction, (p - 1) * (o - 1)),
        Math.max(0, dfSession),
        ms(ssSession, dfSession),
        dfWithin,
        ms(ssWithin, dfWithin),
        operatorWeight);
  }

  private static double sessionMean(double[][][] y, int operator, int k) {
    double s = 0;
    for (double[][] part : y) {
      s += part[operator][k];
    }
    return s / y.length;
  }

  GaugeAnova anova() {
    Line session = Line.of(dfSession, msSession, msWithin, dfWithin);
    boolean split = session.p() < GaugeAnova.SPLIT_BELOW;
    Line error = split || dfSession == 0 ? within() : together();
    double dfInteraction = (parts - 1) * (operators - 1);
    Line interaction =
        Line.of(dfInteraction, msInteraction, error.meanSquare(), error.degreesOfFreedom());
    boolean pooled =
        dfInteraction > 0
            && (error.degreesOfFreedom() <= 0 || interaction.p() > GaugeAnova.POOL_ABOVE);
    if (pooled) {
      error = pool(error, dfInteraction);
    }
    double registration = split ? Math.max(0, (msSession - error.meanSquare()) / parts) : 0;
    double e = error.meanSquare();
    boolean kept = dfInteraction > 0 && !pooled;
    Line against = kept ? interaction : error;
    double underOperators =
        operatorWeight * (e + parts * registration) + (kept ? msInteraction - e : 0);
    Line part = Line.of(parts - 1, msPart, against.meanSquare(), against.degreesOfFreedom());
    Line operator =
        Line.of(
            operators - 1,
            msOperator,
            underOperators,
            split ? dfSession : against.degreesOfFreedom());
    GaugeComponents c =
        new GaugeComponents(
            Math.sqrt(e + registration),
            Math.sqrt(registration),
            root(operators, (msOperator - underOperators) / (parts * repeats)),
            kept ? root(2, (msInteraction - e) / repeats) : 0,
            root(parts, (msPart - against.meanSquare()) / (operators * repeats)));
    return new GaugeAnova(
        part,
        operator,
        interaction,
        session,
        error,
        pooled,
        split,
        split ? satterthwaite(error) : error.degreesOfFreedom(),
        c);
  }

  private Line within() {
    return new Line(dfWithin, msWithin, Double.NaN, Double.NaN);
  }

  /**
   * Sessions and what is left within them as one error. Where turning has used degrees of freedom,
   * they are sessions', so the sessions' mean square stands for all sessions.
   */
  private Line together() {
    double sessions = operators * (repeats - 1);
    double df = sessions + dfWithin;
    return new Line(df, (sessions * msSession + dfWithin * msWithin) / df, Double.NaN, Double.NaN);
  }

  private Line pool(Line error, double dfInteraction) {
    double df = Math.max(0, error.degreesOfFreedom());
    double ss = dfInteraction * msInteraction + (df > 0 ? df * error.meanSquare() : 0);
    return new Line(dfInteraction + df, ss / (dfInteraction + df), Double.NaN, Double.NaN);
  }

  /** Repeatability is error (p - 1)/p + sessions/p. */
  private double satterthwaite(Line error) {
    double a = error.meanSquare() * (parts - 1) / parts;
    double b = msSession / parts;
    return sq(a + b) / (sq(a) / error.degreesOfFreedom() + sq(b) / dfSession);
  }

  private static double root(int levels, double variance) {
    return levels > 1 ? Math.sqrt(Math.max(0, variance)) : 0;
  }

  private static double ms(double ss, double df) {
    return df > 0 ? ss / df : Double.NaN;
  }

  private static double sq(double v) {
    return v * v;
  }
}
