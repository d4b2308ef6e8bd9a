package org.padtrue.mixed.reml;

/** Criterion by which variances are estimated. */
public enum Estimation {
  /** Restricted maximum likelihood: fixed terms cost degrees of freedom. */
  REML,
  /** Maximum likelihood: used to compare models with different fixed terms. */
  ML
}
