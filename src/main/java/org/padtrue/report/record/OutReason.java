package org.padtrue.report.record;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.Excess;
import org.padtrue.land.PartFrame;
import org.padtrue.panel.Job;

/** Why a row of the record is out: the finding of the analysis, then what is beyond which limit. */
final class OutReason {
  private OutReason() {}

  /**
   * What a reader should know of a row.
   *
   * @param e the finding that left the placement out of the fit, or null
   * @param zeroOrientation how the whole type is turned, degrees
   * @param limit half the width of the allowed range; NaN for none
   * @return empty for a row that is not out and of which nothing was found
   */
  static String of(
      Job job,
      PlacementResult p,
      CharacteristicKind kind,
      Conformity conformity,
      @Nullable Excluded e,
      int zeroOrientation,
      double deviation,
      double limit) {
    List<String> reasons = new ArrayList<>();
    if (e != null) {
      reasons.add(e.sentence());
    }
    boolean out =
        conformity == Conformity.OUTSIDE || conformity == Conformity.CONDITIONALLY_OUTSIDE;
    if (out) {
      String beyond =
          kind == CharacteristicKind.LAND_FIT ? landFit(job, p) : axis(kind, deviation, limit);
      if (!beyond.isEmpty()) {
        reasons.add(beyond);
      }
      boolean turned = zeroOrientation != 0 && e == null;
      if (turned && (kind == CharacteristicKind.ROTATION || kind == CharacteristicKind.LAND_FIT)) {
        reasons.add(
            "the whole type "
                + p.part()
                + " is turned by "
                + zeroOrientation
                + " degrees: another zero component orientation (IPC-7351) in its library");
      }
    }
    return String.join("; ", reasons);
  }

  private static String axis(CharacteristicKind kind, double deviation, double limit) {
    boolean angle = kind == CharacteristicKind.ROTATION;
    String unit = angle ? " degrees" : " mm";
    return kind.words()
        + " is off by "
        + Figures.signed(deviation, angle ? 2 : 3)
        + unit
        + (Double.isNaN(limit) ? "" : ", " + Figures.plain(limit) + unit + " allowed either way");
  }

  private static String landFit(Job job, PlacementResult p) {
    Xyr d = p.deviation();
    double theta = p.nominal().rotationDeg();
    return Excess.of(
            job.partType(p.part()),
            AcceptanceLimits.published(),
            job.acceptanceClass(),
            PartFrame.x(d.x(), d.y(), theta),
            PartFrame.y(d.x(), d.y(), theta),
            d.rotation())
        .map(Excess::sentence)
        .orElse("");
  }
}
