package org.padtrue.gauge;

/**
 * Means of a balanced study.
 *
 * @param cell by part and operator
 * @param part by part
 * @param operator by operator
 * @param grand of all
 */
@SuppressWarnings("ArrayRecordComponent") // inside the package, never compared
record GaugeCellMeans(double[][] cell, double[] part, double[] operator, double grand) {

  static GaugeCellMeans of(double[][][] y) {
    int p = y.length;
    int o = y[0].length;
    double[][] cell = new double[p][o];
    double[] part = new double[p];
    double[] operator = new double[o];
    double grand = 0;
    for (int i = 0; i < p; i++) {
      for (int j = 0; j < o; j++) {
        for (double v : y[i][j]) {
          cell[i][j] += v / y[i][j].length;
        }
        part[i] += cell[i][j] / o;
        operator[j] += cell[i][j] / p;
        grand += cell[i][j] / (p * o);
      }
    }
    return new GaugeCellMeans(cell, part, operator, grand);
  }
}
