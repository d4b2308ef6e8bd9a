package org.padtrue.load.bill;

/**
 * What a bill says of a ref.
 *
 * @param part part type or part number, empty when not given
 * @param packageName package, empty when not given
 * @param value value, empty when not given
 * @param notes further words of the row that may say 'not fitted', such as of a status column
 * @param fitted false when a column says that it is not fitted
 * @param line line in the bill
 */
public record BillLine(
    String part, String packageName, String value, String notes, boolean fitted, int line) {

  /** The part type as a placement list would have it: package, else part, else value. */
  public String type() {
    return !packageName.isEmpty() ? packageName : !part.isEmpty() ? part : value;
  }

  boolean sameAs(BillLine o) {
    return part.equals(o.part) && packageName.equals(o.packageName) && fitted == o.fitted;
  }
}
