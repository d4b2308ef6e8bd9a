package org.padtrue.imaging.taught;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.padtrue.panel.Pose;

/**
 * What is to be taught, as a person writes it: {@code REF} or {@code COLUMN/ROW/REF}, then
 * {@code @LENGTHxWIDTH} in mm where the part type does not say how large it is, then {@code
 * =DX,DY,DROTATION,U} where it is known where the sample stands: deviations as in an article, mm
 * and degrees, standard uncertainty in mm.
 */
public final class TeachText {
  private static final String NUMBER = "([-+]?\\d*\\.?\\d+)";
  private static final Pattern FORM =
      Pattern.compile(
          "(?:(\\d{1,4})/(\\d{1,4})/)?([^/@=\\s]+)(?:@([\\d.]+)[xX]([\\d.]+))?(?:="
              + NUMBER
              + ","
              + NUMBER
              + ","
              + NUMBER
              + ","
              + NUMBER
              + "(?:,"
              + NUMBER
              + ")?)?");

  /** Uncertainty of a rotation that comes without one, degrees per mm of that of the position. */
  private static final double DEG_PER_MM = 20;

  private TeachText() {}

  /** Reads one; empty when it is not of that form. */
  public static Optional<TeachRequest> read(String text) {
    Matcher m = FORM.matcher(text.strip());
    if (!m.matches()) {
      return Optional.empty();
    }
    try {
      double length = m.group(4) == null ? Double.NaN : Double.parseDouble(m.group(4));
      double width = m.group(4) == null ? Double.NaN : Double.parseDouble(m.group(5));
      boolean known = m.group(6) != null;
      double u = known ? Double.parseDouble(m.group(9)) : Double.NaN;
      double uTurn =
          m.group(10) == null ? DEG_PER_MM * u : known ? Double.parseDouble(m.group(10)) : u;
      if (length <= 0 || width <= 0 || length > 200 || width > 200 || u < 0 || uTurn < 0) {
        return Optional.empty();
      }
      Pose off =
          known
              ? new Pose(
                  Double.parseDouble(m.group(6)),
                  Double.parseDouble(m.group(7)),
                  Double.parseDouble(m.group(8)))
              : null;
      int column = m.group(1) == null ? 1 : Integer.parseInt(m.group(1));
      int row = m.group(1) == null ? 1 : Integer.parseInt(m.group(2));
      return Optional.of(new TeachRequest(column, row, m.group(3), length, width, off, u, uTurn));
    } catch (NumberFormatException e) {
      return Optional.empty();
    }
  }
}
