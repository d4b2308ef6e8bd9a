package org.padtrue.firstarticle.decide;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.Xy;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.land.risk.ExpectedOutside;

/**
 * No sheet is written whose own forecast is worse than that of leaving everything alone.
 *
 * <p>Every trim lowers the mean square by itself; together, rounded to coarse steps of the machine,
 * they need not. Then everything is left: a trim is {@link Decision#LEAVE} with one sentence. What
 * the machine does not accept keeps its decision, since it is on no sheet; so does a whole turn,
 * which is exact.
 */
public final class SheetGuard {
  static final String BEGINS = "nothing is trimmed: with all trims entered";

  /** Finest digit that is shown, mm: what is worse by less is not worse. */
  private static final double SHOWN_MM = 1e-4;

  private SheetGuard() {}

  /**
   * The sentence, or null where the forecast is no worse.
   *
   * @param p forecast of the mean square
   * @param alone expected number outside when nothing is changed, null when nothing is judged
   * @param trimmed the same with the trims entered
   */
  public static @Nullable String reason(
      Prediction p, @Nullable ExpectedOutside alone, @Nullable ExpectedOutside trimmed) {
    if (!(p.nextTrimmed() > p.nextUntrimmed() + SHOWN_MM)) {
      return null;
    }
    String rms =
        String.format(
            Locale.ROOT,
            "%s the next panel is expected %.1f um off (RMS) instead of %.1f um",
            BEGINS,
            1e3 * p.nextTrimmed(),
            1e3 * p.nextUntrimmed());
    if (alone == null || trimmed == null) {
      return rms;
    }
    double error = Math.max(alone.integrationError(), trimmed.integrationError());
    return trimmed.perPanel() > alone.perPanel() + error
        ? String.format(
            Locale.ROOT,
            "%s, and %.2g placements outside instead of %.2g",
            rms,
            trimmed.perPanel(),
            alone.perPanel())
        : null;
  }

  /** The sentence of an analysis, if everything was left for it. */
  public static Optional<String> said(List<String> notes) {
    return notes.stream().filter(n -> n.startsWith(BEGINS)).findFirst();
  }

  /** The batch with every trim left. */
  static BatchTrim left(BatchTrim b, String reason) {
    return new BatchTrim(
        left(b.shift(), reason),
        left(b.rotation(), reason),
        b.scale().decision() == Decision.TRIM
            ? new BatchTrim.Scale(0, 0, 0, Decision.LEAVE, reason)
            : b.scale(),
        b.array().decision() == Decision.TRIM
            ? new BatchTrim.ArrayTrim(List.of(), Decision.LEAVE, reason)
            : b.array(),
        left(b.common(), reason),
        left(b.rotationZero(), reason));
  }

  private static BatchTrim.Shift left(BatchTrim.Shift s, String reason) {
    return s.decision() == Decision.TRIM ? new BatchTrim.Shift(Xy.ZERO, Decision.LEAVE, reason) : s;
  }

  private static BatchTrim.Angle left(BatchTrim.Angle a, String reason) {
    return a.decision() == Decision.TRIM ? new BatchTrim.Angle(0, Decision.LEAVE, reason) : a;
  }

  /** A level's trim left; its turn stays. */
  static TrimValue left(TrimValue v, String reason) {
    if (v.decision() != Decision.TRIM) {
      return v;
    }
    return v.turn() == 0
        ? new TrimValue(Xyr.ZERO, Decision.LEAVE, reason)
        : new TrimValue(Xyr.ZERO, v.turn(), Decision.TRIM, v.reason() + "; beside it " + reason);
  }
}
