package org.padtrue.load.bill;

/**
 * A bill that a job names, and what it says of refs that are not in it.
 *
 * @param bill the bill
 * @param unlisted what to do with refs of the placement list that the bill does not name
 */
public record BillOption(Bill bill, Unlisted unlisted) {
  /** What becomes of refs that the bill does not name. */
  public enum Unlisted {
    /** The user is asked. */
    ASK,
    /** They are not fitted. */
    LEAVE_OUT,
    /** They are placed, each as a part type of its own. */
    KEEP
  }
}
