package org.padtrue.mixed;

import java.util.List;
import org.padtrue.mixed.reml.RandomEffects;
import org.padtrue.mixed.reml.RandomEffectsFit;
import org.padtrue.mixed.reml.VarianceTest;
import org.padtrue.mixed.reml.VarianceUncertainty;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;

/** A fitted model of rotations, degrees. Angles are in degrees, standard errors likewise. */
public final class RotationFit {
  private final List<LevelColumn> factors;
  private final List<Factor> names;
  private final int[] base;
  private final double mean;
  private final RandomEffects model;
  private final RandomEffectsFit fit;
  private final VarianceUncertainty uncertainty;
  private final double measuringSd;
  private final TypeScatter scatter;

  RotationFit(
      List<LevelColumn> factors,
      int[] base,
      double mean,
      RandomEffects model,
      RandomEffectsFit fit,
      VarianceUncertainty uncertainty,
      double measuringSd,
      TypeScatter scatter) {
    this.factors = List.copyOf(factors);
    names = factors.stream().map(LevelColumn::factor).toList();
    this.base = base;
    this.mean = mean;
    this.model = model;
    this.fit = fit;
    this.uncertainty = uncertainty;
    this.measuringSd = measuringSd;
    this.scatter = scatter;
  }

  /** Rotation that all parts share, degrees. */
  public double zero() {
    return mean + fit.fixed()[0];
  }

  /** Its standard error, without that of the panel's rotation. */
  public double zeroSe() {
    int k = fit.random().length;
    return uncertainty.se[k];
  }

  /** Its degrees of freedom. */
  public double zeroDf() {
    return uncertainty.df[fit.random().length];
  }

  /** Residual standard deviation, measuring included, degrees. */
  public double residualSd() {
    return fit.residualSd();
  }

  /** Scatter of one rotation by part type, measuring included, deg^2. */
  public TypeScatter scatter() {
    return scatter;
  }

  /** The factors in the model. */
  public List<Factor> factors() {
    return names;
  }

  /** Standard deviation between the levels of a factor, degrees. */
  public double sd(int factor) {
    return fit.sd(factor);
  }

  /** Test of that standard deviation against zero. */
  public VarianceTest test(int factor) {
    return model.test(fit, factor);
  }

  /** Predicted offset of a level (BLUP), degrees. */
  public double offset(int factor, int level) {
    return fit.random()[base[factor] + level];
  }

  /** Its standard error, variance uncertainty included. */
  public double offsetSe(int factor, int level) {
    int j = base[factor] + level;
    return uncertainty.se[j];
  }

  /** Its degrees of freedom. */
  public double offsetDf(int factor, int level) {
    return uncertainty.df[base[factor] + level];
  }

  /** Standard error of level offset plus the common zero. */
  public double combinedSe(int factor, int level) {
    return uncertainty.sumSe[base[factor] + level];
  }

  /** Level of a factor by name, -1 when absent. */
  public int level(int factor, String name) {
    return factors.get(factor).levels().indexOf(name);
  }
}
