package org.padtrue.load.names;

/** In which unit a file's chip codes are, such as 0603. */
public enum ChipCodes {
  /** Nobody has said. */
  UNKNOWN,
  /** Hundredths of an inch: 0603 is 1.6 x 0.8 mm. */
  INCH,
  /** Tenths of a millimetre: 0603 is 0.6 x 0.3 mm. */
  METRIC
}
