package org.padtrue.load.standard;

import java.util.regex.Pattern;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Side;

/**
 * A fiducial that the file names as one.
 *
 * @param side the side on which it is seen
 * @param fiducial place seen from the top, mm
 */
public record StandardMark(Side side, Fiducial fiducial) {
  private static final Pattern LIKE =
      Pattern.compile("^FID(?:UCIAL)?S?[_-]?\\d* |(?<![A-Z])FIDUCIAL", Pattern.CASE_INSENSITIVE);

  /** True when a ref (FID1) or a part type (Fiducial_1mm) says that it is a fiducial. */
  public static boolean isLike(String ref, String part) {
    return LIKE.matcher(ref + " " + part).find();
  }
}
