package org.padtrue.door;

/**
 * What was recorded of one panel under one reading, as columns of equal length. Not copied.
 *
 * @param x nominal, mm, panel frame
 * @param y nominal, mm
 * @param cos of the nominal rotation
 * @param sin of the nominal rotation
 * @param type number of the part type, from 0
 * @param column of the board, from 0
 * @param row of the board, from 0
 * @param dx measured minus nominal under this reading, mm
 * @param dy measured minus nominal, mm
 */
record ReadRows(
    double[] x,
    double[] y,
    double[] cos,
    double[] sin,
    int[] type,
    int types,
    int[] column,
    int[] row,
    double[] dx,
    double[] dy) {

  int size() {
    return x.length;
  }
}
