package org.padtrue.web.bench;

import java.time.Instant;

/**
 * One thing that a person said of an article, in the order in which it was said. A later entry of
 * the same placement takes the place of an earlier one, which stays in the journal.
 *
 * @param sequence 1-based place in the journal
 * @param at when it was written down
 * @param kind what it says
 * @param placement panel/column/row/ref, or what else it is about
 * @param dxMm measured minus nominal, mm; NaN not measured
 * @param dyMm the same in y
 * @param dRotationDeg the same for rotation, degrees; NaN not measured
 * @param uMm standard uncertainty of dx and dy, mm; NaN none stated
 * @param uRotationDeg standard uncertainty of the rotation, degrees; NaN none stated
 * @param text as typed, or what else it says
 */
public record Entry(
    long sequence,
    Instant at,
    Kind kind,
    String placement,
    double dxMm,
    double dyMm,
    double dRotationDeg,
    double uMm,
    double uRotationDeg,
    String text) {

  /** What an entry says. */
  public enum Kind {
    /** A placement was measured. */
    MEASURED,
    /** What was measured of a placement is withdrawn. */
    CLEARED,
    /** The placement is to be measured; {@code text} is its place in the walk. */
    PLANNED,
    /** The placement has a fault and stays out of the fit; {@code text} is the fault's key. */
    LEFT_OUT,
    /** It goes into the fit again. */
    TAKEN_IN
  }

  /** Typed: no uncertainty of its own. */
  public static Entry measured(
      String placement, double dx, double dy, double dRotation, String text) {
    return measured(placement, dx, dy, dRotation, Double.NaN, Double.NaN, text);
  }

  /** Measured with a stated uncertainty. */
  public static Entry measured(
      String placement,
      double dx,
      double dy,
      double dRotation,
      double u,
      double uRotation,
      String text) {
    return new Entry(
        0, Instant.EPOCH, Kind.MEASURED, placement, dx, dy, dRotation, u, uRotation, text);
  }

  public static Entry of(Kind kind, String placement, String text) {
    double none = Double.NaN;
    return new Entry(0, Instant.EPOCH, kind, placement, none, none, none, none, none, text);
  }

  /** True when another entry says the same of the same placement. */
  boolean sameValue(Entry other) {
    return kind == other.kind
        && placement.equals(other.placement)
        && Double.compare(dxMm, other.dxMm) == 0
        && Double.compare(dyMm, other.dyMm) == 0
        && Double.compare(dRotationDeg, other.dRotationDeg) == 0
        && (kind != Kind.LEFT_OUT || text.equals(other.text));
  }

  Entry numbered(long n, Instant when) {
    return new Entry(n, when, kind, placement, dxMm, dyMm, dRotationDeg, uMm, uRotationDeg, text);
  }
}
