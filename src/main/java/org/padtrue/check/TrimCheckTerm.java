package org.padtrue.check;

import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.Xyr;

/**
 * One trimmed term: what should remain of it, and what the second article shows. mm and degrees;
 * for {@code scale} x and y are ppm and rotation is squareness in mrad; NaN where an axis does not
 * apply or is not known.
 *
 * @param term shift, rotation, scale, arrayColumn, arrayRow, common, rotationZero, or factor and
 *     level
 * @param count placements of the second article that show it
 * @param promised old estimate plus trim; for shift at the panel origin
 * @param seen estimate from the second article alone for this term, not shrunk
 * @param z seen minus promised in standard errors, of which those of both articles, the scatter and
 *     the registration from panel to panel
 * @param turn the whole turn that was trimmed with it; null for none
 * @param finding what became of it, of its turn first
 * @param kept false when the article contradicts the promise, also where it cannot tell why
 * @param sentence the same in words
 */
public record TrimCheckTerm(
    String term,
    int count,
    Xyr promised,
    Xyr seen,
    Xyr z,
    @Nullable Turn turn,
    TrimCheckFinding finding,
    boolean kept,
    String sentence) {

  /**
   * A whole turn of a part type, degrees, modulo symmetry.
   *
   * @param trim what was to be ADDED: 90, 180 or 270
   * @param promised how the type should then stand against its nominal rotation
   * @param seen how most of the type stand; empty when no such turn shows
   * @param finding what became of it
   */
  public record Turn(int trim, int promised, OptionalInt seen, TrimCheckFinding finding) {}
}
