package org.padtrue.firstarticle.decide;

import java.util.Locale;
import org.padtrue.fit.Apart;
import org.padtrue.panel.Factor;

/** What is said of a level that stands apart from the others of its factor. */
final class ApartWords {
  private ApartWords() {}

  /** Enough placements agree: systematic. */
  static String systematic(Apart a) {
    return a.level()
        + " "
        + off(a)
        + " on all "
        + a.count()
        + (a.factor() == Factor.PART
            ? ": " + (a.position() ? "origin in the library, or unit?" : "zero in the library?")
            : ": look at this " + a.factor().key());
  }

  /** One or two placements are all that is known: asked about. */
  static String question(Apart a) {
    return (a.count() == 1
            ? "the only placement of " + a.level() + " that was measured "
            : "both placements of " + a.level() + " that were measured ")
        + (a.count() == 1 ? off(a) : off(a).replaceFirst("^sits", "sit").replaceFirst("^is", "are"))
        + " from where the others lead one to expect "
        + (a.count() == 1 ? "it" : "them")
        + ": the type's own offset, or a gross error? Measure "
        + (a.count() == 1 ? "two more placements" : "one more placement")
        + " of this type, or look at "
        + (a.count() == 1 ? "the part" : "the parts");
  }

  private static String off(Apart a) {
    if (!a.position()) {
      return String.format(Locale.ROOT, "is turned %+.1f degrees", a.rotationDeg());
    }
    return String.format(Locale.ROOT, "sits %s off", length(Math.hypot(a.xMm(), a.yMm())))
        + String.format(
            Locale.ROOT,
            " (x %+.3f mm, y %+.3f mm, measured minus nominal, in the %s's own axes)",
            a.xMm(),
            a.yMm(),
            a.factor().frame().key());
  }

  private static String length(double mm) {
    return mm < 0.1
        ? String.format(Locale.ROOT, "%.0f um", 1e3 * mm)
        : String.format(Locale.ROOT, mm < 1 ? "%.2f mm" : "%.1f mm", mm);
  }
}
