package org.padtrue.panel;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A fiducial of the job.
 *
 * @param name its name
 * @param xMm nominal, mm, in the panel frame (panel scope) or board frame (board scope)
 * @param yMm nominal, mm
 * @param diameterMm mm, NaN when not given
 * @param scope what it locates
 */
public record Fiducial(String name, double xMm, double yMm, double diameterMm, Scope scope) {
  private static final Pattern REF =
      Pattern.compile("(?:FID(?:U|UCIAL)?S?[_-]?\\d*|FD[_-]?\\d+)", Pattern.CASE_INSENSITIVE);
  private static final Pattern PART =
      Pattern.compile("(?<![A-Z])FIDUCIAL", Pattern.CASE_INSENSITIVE);
  private static final Pattern SIZE =
      Pattern.compile("(\\d+(?:\\.\\d+)?) ?mm", Pattern.CASE_INSENSITIVE);

  /** What a fiducial locates. */
  public enum Scope {
    PANEL,
    BOARD
  }

  /** True when a ref (FID1) or a part type (Fiducial_1mm) says that it is a fiducial. */
  public static boolean isLike(String ref, String part) {
    boolean f = !ref.isEmpty() && (ref.charAt(0) == 'F' || ref.charAt(0) == 'f');
    return f && REF.matcher(ref).matches() || PART.matcher(part).find();
  }

  /** The first size in mm that a part name such as FIDUCIAL_1MM_MASK3MM says; NaN when none. */
  public static double sizeIn(String part) {
    Matcher m = SIZE.matcher(part);
    return m.find() ? Double.parseDouble(m.group(1)) : Double.NaN;
  }
}
