package org.padtrue.panel;

/** What the parts sat on when they were measured. */
public enum Stage {
  /** A dry article on adhesive tape: lands are hidden, parts drag otherwise than on paste. */
  TAPE,
  /** On wet paste, before reflow. */
  PASTE,
  /** After reflow: parts that self-centre show the lands, not the placement. */
  REFLOWED
}
