package org.padtrue.panel;

/**
 * How the machine locates a panel, and how well that usually repeats from panel to panel (common
 * practice: fiducials 5 to 20 um, edges and pins 50 to 150 um).
 */
public enum PanelLocation {
  FIDUCIALS("fiducials", 0.012),
  EDGES("edges", 0.080),
  PINS("pins", 0.080);

  private final String key;
  private final double usualMm;

  PanelLocation(String key, double usualMm) {
    this.key = key;
    this.usualMm = usualMm;
  }

  /** The word used in job files. */
  public String key() {
    return key;
  }

  /** Usual standard deviation of the panel offset from panel to panel, per axis, mm. */
  public double usualMm() {
    return usualMm;
  }
}
