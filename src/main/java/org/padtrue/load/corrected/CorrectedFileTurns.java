package org.padtrue.load.corrected;

import java.math.BigDecimal;
import java.util.List;
import org.padtrue.load.placement.PlacementRow;

/** The range in which a placement file gives its rotations, so that a corrected one stays in it. */
enum CorrectedFileTurns {
  /** 0 to 360. */
  FROM_0,
  /** -180 to 180. */
  AROUND_0,
  /** Something else: nothing is wrapped. */
  ANY;

  private static final BigDecimal FULL = BigDecimal.valueOf(360);
  private static final BigDecimal HALF = BigDecimal.valueOf(180);

  static CorrectedFileTurns of(List<PlacementRow> rows) {
    double least = 0;
    double most = 0;
    for (PlacementRow r : rows) {
      if (r.fitted()) {
        least = Math.min(least, r.filePose().rotationDeg());
        most = Math.max(most, r.filePose().rotationDeg());
      }
    }
    if (least >= 0 && most <= 360) {
      return FROM_0;
    }
    return least >= -180 && most <= 180 ? AROUND_0 : ANY;
  }

  BigDecimal wrap(BigDecimal deg) {
    return switch (this) {
      case ANY -> deg;
      case FROM_0 -> {
        BigDecimal r = deg.remainder(FULL);
        yield r.signum() < 0 ? r.add(FULL) : r;
      }
      case AROUND_0 -> {
        BigDecimal r = deg.remainder(FULL);
        if (r.compareTo(HALF) > 0) {
          yield r.subtract(FULL);
        }
        yield r.compareTo(HALF.negate()) < 0 ? r.add(FULL) : r;
      }
    };
  }
}
