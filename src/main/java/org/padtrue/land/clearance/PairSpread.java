package org.padtrue.land.clearance;

import org.padtrue.land.risk.DeviationDistribution;

/**
 * How two neighbours scatter against each other on a panel yet to be placed: normal, panel frame.
 *
 * @param varX variance of the distance from a to b along panel x, mm^2; what both share (the
 *     panel's registration) does not count
 * @param varY the same along y, mm^2
 * @param covXY covariance of both, mm^2
 * @param varRotationA variance of a's rotation, deg^2
 * @param varRotationB variance of b's rotation, deg^2
 */
public record PairSpread(
    double varX, double varY, double covXY, double varRotationA, double varRotationB) {

  public PairSpread {
    varX = DeviationDistribution.notNegative(varX);
    varY = DeviationDistribution.notNegative(varY);
    varRotationA = DeviationDistribution.notNegative(varRotationA);
    varRotationB = DeviationDistribution.notNegative(varRotationB);
  }
}
