/**
 * Articles of one analysis as one table, screened and fitted, the tests of every family of terms,
 * and what cannot be told apart.
 *
 * <p>mm and degrees, panel frame unless said otherwise. Entry class: {@link
 * org.padtrue.firstarticle.fitted.Fits}. Imports fit, mixed, land, firstarticle.result.
 */
@NullMarked
package org.padtrue.firstarticle.fitted;

import org.jspecify.annotations.NullMarked;
