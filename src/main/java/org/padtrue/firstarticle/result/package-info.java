/**
 * What an analysis found, as records for reports and pages. mm, degrees, ppm, mrad; NaN means
 * unknown; the frame is named at every value. Imports panel and numeric records only.
 */
@NullMarked
package org.padtrue.firstarticle.result;

import org.jspecify.annotations.NullMarked;
