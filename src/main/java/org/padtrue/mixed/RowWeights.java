package org.padtrue.mixed;

/**
 * Weights of the rows of the model of positions: inverse relative variances, 1 on average of the
 * variances.
 *
 * @param x weight of dx of each placement; empty for equal weights
 * @param y the same for dy
 */
record RowWeights(double[] x, double[] y) {
  private static final double[] NONE = {};

  static final RowWeights EQUAL = new RowWeights(NONE, NONE);

  /** The same weights for both axes. */
  static RowWeights both(double[] w) {
    return new RowWeights(w, w);
  }

  boolean equal() {
    return x.length == 0;
  }

  /** True when dx and dy weigh differently. */
  boolean axesApart() {
    return x != y;
  }

  double of(int i, int axis) {
    return x.length == 0 ? 1 : axis == 0 ? x[i] : y[i];
  }
}
