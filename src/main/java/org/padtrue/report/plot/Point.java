package org.padtrue.report.plot;

import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Tolerance;
import org.padtrue.quantity.Angles;

/**
 * A measured placement as charts need it.
 *
 * @param result what became of it
 * @param tolerance its type's allowed deviation in the part frame, or null
 * @param ownOffset offset of its type, part frame, mm; 0 when the model has none
 * @param zeroOrientation how the whole type is turned against its library, degrees
 * @param symmetry how often the type looks the same in one turn
 */
record Point(
    PlacementResult result,
    @Nullable Tolerance tolerance,
    Xy ownOffset,
    int zeroOrientation,
    int symmetry) {

  /** Judged by its lands, for want of a tolerance. */
  boolean judgedByLands() {
    return tolerance == null && Double.isFinite(result.margin());
  }

  double x() {
    return result.nominal().xMm();
  }

  double y() {
    return result.nominal().yMm();
  }

  /** A panel-frame vector in the part frame. */
  Xy inPartFrame(Xyr d) {
    double c = Angles.cosDeg(result.nominal().rotationDeg());
    double s = Angles.sinDeg(result.nominal().rotationDeg());
    return new Xy(c * d.x() + s * d.y(), -s * d.x() + c * d.y());
  }

  /** Deviation as a share of the own tolerance along the part's axes; NaN without one. */
  Xy shares(Xyr d) {
    if (tolerance == null) {
      return Xy.UNKNOWN;
    }
    Xy p = inPartFrame(d);
    return new Xy(p.x() / tolerance.xMm(), p.y() / tolerance.yMm());
  }

  /** Rotation deviation modulo the part's symmetry, degrees. */
  double rotation(Xyr d) {
    return Angles.wrap(d.rotation(), symmetry);
  }

  /** The same, counted from the type's own zero where the whole type sits turned. */
  double rotationFromOwnZero(Xyr d) {
    double own = Angles.wrap(d.rotation() - zeroOrientation, symmetry);
    double plain = rotation(d);
    return Math.abs(own) < Math.abs(plain) ? own : plain;
  }

  /** The largest share of tolerance in x, y and rotation; rotation counts where it was measured. */
  double share(Xyr d) {
    if (tolerance == null) {
      return Double.NaN;
    }
    Xy s = shares(d);
    double xy = Math.max(Math.abs(s.x()), Math.abs(s.y()));
    double rotation = Math.abs(rotation(d)) / tolerance.rotationDeg();
    return Double.isNaN(rotation) ? xy : Math.max(xy, rotation);
  }
}
