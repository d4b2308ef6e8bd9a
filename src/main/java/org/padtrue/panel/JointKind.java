package org.padtrue.panel;

/** Kind of joint, which decides the acceptance limits. */
public enum JointKind {
  CHIP,
  MELF,
  GULL_WING,
  J_LEAD,
  NO_LEAD,
  BALL,
  THROUGH_HOLE,
  OTHER
}
