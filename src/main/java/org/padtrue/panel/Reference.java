package org.padtrue.panel;

/** Against what the parts were measured. */
public enum Reference {
  /** The part relative to the copper: board stretch and axis scale give the same number. */
  LANDS,
  /** A camera or scanner mapped by fiducials. */
  FIDUCIALS,
  /** The machine's own camera and axes: errors of the axes cancel and cannot be seen. */
  MACHINE
}
