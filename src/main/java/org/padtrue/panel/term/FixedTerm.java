package org.padtrue.panel.term;

import java.util.Arrays;
import java.util.Optional;

/** Terms of the panel and of the machine as a whole, in the order of reports. */
public enum FixedTerm implements Term {
  SHIFT_X("shiftX", "shift x", "mm", TermFamily.SHIFT),
  SHIFT_Y("shiftY", "shift y", "mm", TermFamily.SHIFT),
  ROTATION("rotation", "rotation", "deg", TermFamily.ROTATION),
  SCALE_X("scaleXPpm", "scale x", "ppm", TermFamily.SCALE),
  SCALE_Y("scaleYPpm", "scale y", "ppm", TermFamily.SCALE),
  SQUARENESS("squarenessMrad", "squareness", "mrad", TermFamily.SCALE),
  ROTATION_ZERO("rotationZero", "rotationZero", "deg", TermFamily.ROTATION_ZERO),
  SCATTER_X("scatterX", "scatter x", "mm", TermFamily.SCATTER),
  SCATTER_Y("scatterY", "scatter y", "mm", TermFamily.SCATTER);

  private final String series;
  private final String label;
  private final String unit;
  private final TermFamily family;

  FixedTerm(String series, String label, String unit, TermFamily family) {
    this.series = series;
    this.label = label;
    this.unit = unit;
    this.family = family;
  }

  @Override
  public String series() {
    return series;
  }

  /** As in results and plans: "shift x". */
  public String label() {
    return label;
  }

  @Override
  public String unit() {
    return unit;
  }

  /** What it is decided with. */
  public TermFamily family() {
    return family;
  }

  /** True for what belongs to how a panel is located, and so to a job. */
  public boolean registration() {
    return family == TermFamily.SHIFT || family == TermFamily.ROTATION;
  }

  @Override
  public boolean trimmed() {
    return family != TermFamily.SCATTER;
  }

  /** True for the name of a term of registration. */
  public static boolean isRegistration(String series) {
    return parse(series).filter(FixedTerm::registration).isPresent();
  }

  /** The term of a name in the log. */
  public static Optional<FixedTerm> parse(String series) {
    return Arrays.stream(values()).filter(t -> t.series.equals(series)).findFirst();
  }
}
