/**
 * The engine behind the models: linear mixed models by restricted maximum likelihood, whatever the
 * factors.
 *
 * <p>{@link org.padtrue.mixed.reml.CrossProducts} gathers the rows, {@link
 * org.padtrue.mixed.reml.RandomEffects} fits any set of crossed factors, {@link
 * org.padtrue.mixed.reml.ExactNull} and {@link org.padtrue.mixed.reml.VarianceUncertainty} say how
 * sure the variances are. Knows no panel: units are those of the response. Imports numeric; Commons
 * Math stays inside.
 */
@NullMarked
package org.padtrue.mixed.reml;

import org.jspecify.annotations.NullMarked;
