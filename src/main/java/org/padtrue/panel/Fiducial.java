package org.padtrue.panel;

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
  /** What a fiducial locates. */
  public enum Scope {
    PANEL,
    BOARD
  }
}
