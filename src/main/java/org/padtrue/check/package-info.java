/**
 * Did the trims do what they promised: a second article held against the prediction of the first,
 * and what most likely happened to each trim.
 *
 * <p>mm and degrees (ppm and mrad for scale and squareness). Entry class: {@link
 * org.padtrue.check.TrimCheck}. Imports firstarticle, mixed, fit, numeric, panel.
 */
@NullMarked
package org.padtrue.check;

import org.jspecify.annotations.NullMarked;
