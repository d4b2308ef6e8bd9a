package org.padtrue.panel;

/** The side of the board that is placed. */
public enum Side {
  TOP,
  BOTTOM
}
