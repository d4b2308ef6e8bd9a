package org.padtrue.quantity;

import java.util.Locale;
import java.util.Optional;

/** Length units that placement and article files use. */
public enum LengthUnit {
  /** Millimetre, the unit inside the program. */
  MM(1.0, "mm"),
  /** Micrometre. */
  UM(1e-3, "um"),
  /** Thousandth of an inch, 25.4 um exactly (international inch, 1959). */
  MIL(0.0254, "mil"),
  /** International inch, 25.4 mm exactly. */
  INCH(25.4, "inch");

  private final double mm;
  private final String label;

  LengthUnit(double mm, String label) {
    this.mm = mm;
    this.label = label;
  }

  /** Millimetres in one of this unit. */
  public double mm() {
    return mm;
  }

  /** The unit's usual short name. */
  public String label() {
    return label;
  }

  /** Recognises mm, millimetre(s), um, micron(s), mil(s), thou, in, inch(es) and the inch mark. */
  public static Optional<LengthUnit> parse(String text) {
    return switch (text.trim().toLowerCase(Locale.ROOT)) {
      case "mm", "millimeter", "millimeters", "millimetre", "millimetres" -> Optional.of(MM);
      case "um",
          "\u00b5m",
          "\u03bcm",
          "micron",
          "microns",
          "micrometre",
          "micrometres",
          "micrometer",
          "micrometers" ->
          Optional.of(UM);
      case "mil", "mils", "thou" -> Optional.of(MIL);
      case "in", "inch", "inches", "\"" -> Optional.of(INCH);
      default -> Optional.empty();
    };
  }
}
