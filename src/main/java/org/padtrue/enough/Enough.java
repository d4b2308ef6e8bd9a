package org.padtrue.enough;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.NumberWords;
import org.padtrue.panel.Job;
import org.padtrue.panel.Level;
import org.padtrue.panel.term.TermFamily;

/**
 * Whether measuring the rest of a panel is going to change what to do.
 *
 * <p>For every number of the trim sheet the estimate to come, with every placement measured, is
 * drawn around the present one (variance se(now)^2 - se(all)^2; the scatter itself is uncertain by
 * its degrees of freedom), put through the same test, shrinkage, dead band and rounding as the
 * analysis uses, and compared with what stands today. Levels not measured at all count with offset
 * 0 and the spread of their factor. Draws are seeded: the same article gives the same answer.
 *
 * <p>What the machine does not accept counts too, for it comes as corrected coordinates. Whether an
 * offset that all parts share is entered once or with every part type does not count as a change:
 * parts land in the same place.
 *
 * @param enough true when no number has more than {@link #EACH} chance to change by more than its
 *     dead band, and all together no more than {@link #TOGETHER}
 * @param sentence the answer in one sentence
 * @param chance probability that any number changes by more than its dead band; NaN while too
 *     little is measured to say
 * @param measured placements used
 * @param left placements not measured
 * @param terms one entry per number, for display
 * @param open what keeps it from being enough, likeliest first; empty when it is enough or while
 *     too little is measured to say
 */
public record Enough(
    boolean enough,
    String sentence,
    double chance,
    int measured,
    int left,
    List<EnoughTerm> terms,
    List<EnoughOpen> open) {

  /** Chance to change that one number may have left. */
  public static final double EACH = 0.05;

  /**
   * Chance that any of the numbers changes. A sheet has dozens of numbers: at 5 % each one of them
   * would nearly always change, so the whole is held against a limit of its own.
   */
  public static final double TOGETHER = 0.10;

  /** Degrees of freedom below which the scatter is not known well enough to say anything. */
  static final double LEAST_DF = 4;

  static final int DRAWS = 400;
  static final long SEED = 20_011;
  static final double TWO_SIDED = 1.96;

  public Enough {
    terms = List.copyOf(terms);
    open = List.copyOf(open);
  }

  /**
   * Judges an article that is still being measured.
   *
   * @param r its analysis so far
   * @param job the job
   */
  public static Enough of(FirstArticleResult r, Job job) {
    EnoughPanel panel = new EnoughPanel(r, job);
    if (panel.left == 0) {
      return new Enough(
          true,
          "every placement is measured: there is nothing left to measure",
          0,
          panel.used,
          0,
          new EnoughTerms(r, job, panel)
              .families().stream().flatMap(f -> f.terms().stream()).toList(),
          List.of());
    }
    double df = r.scatter().degreesOfFreedom();
    if (!(df >= LEAST_DF) || !(r.scatter().residualSd() > 0)) {
      return tooFew(panel.used, panel.left);
    }
    return judge(new EnoughTerms(r, job, panel).families(), panel);
  }

  private static Enough tooFew(int used, int left) {
    return new Enough(
        false,
        "not enough yet: with "
            + used
            + (used == 1 ? " placement" : " placements")
            + " measured the scatter is not known; go on measuring",
        Double.NaN,
        used,
        left,
        List.of(),
        List.of());
  }

  private static Enough judge(List<EnoughFamily> families, EnoughPanel panel) {
    double none = 1;
    List<EnoughTerm> terms = new ArrayList<>();
    Map<String, Integer> more = new LinkedHashMap<>();
    for (EnoughFamily f : families) {
      none *= 1 - f.anyChance();
      terms.addAll(f.terms());
      f.more().forEach((k, v) -> more.merge(k, v, Math::max));
    }
    double any = 1 - none;
    boolean enough = any <= TOGETHER && terms.stream().allMatch(t -> t.chance() <= EACH);
    if (enough) {
      return new Enough(
          true,
          String.format(
              Locale.ROOT,
              "enough: further measuring would not change what to do (the chance that any number"
                  + " moves by more than its no-adjustment limit is %s)",
              percent(any)),
          any,
          panel.used,
          panel.left,
          terms,
          List.of());
    }
    List<EnoughOpen> open = open(terms, more, panel);
    return new Enough(
        false,
        String.format(
            Locale.ROOT,
            "not enough yet: the chance that measuring the rest changes what to do is %s; %s",
            percent(any),
            open.get(0).sentence()),
        any,
        panel.used,
        panel.left,
        terms,
        open);
  }

  private static List<EnoughOpen> open(
      List<EnoughTerm> terms, Map<String, Integer> more, EnoughPanel panel) {
    Map<String, EnoughTerm> worst = new LinkedHashMap<>();
    for (EnoughTerm t : terms) {
      worst.merge(t.key(), t, (a, b) -> a.chance() >= b.chance() ? a : b);
    }
    List<EnoughTerm> order =
        worst.values().stream()
            .filter(t -> t.chance() > 0)
            .sorted(Comparator.comparingDouble(EnoughTerm::chance).reversed())
            .toList();
    double rest = 1;
    for (EnoughTerm t : order) {
      rest *= 1 - t.chance();
    }
    List<EnoughOpen> out = new ArrayList<>();
    for (EnoughTerm t : order) {
      // Beside every number above its own limit, as many as bring the whole below its limit.
      if (t.chance() <= EACH && 1 - rest <= TOGETHER && !out.isEmpty()) {
        break;
      }
      rest /= Math.max(1e-9, 1 - t.chance());
      out.add(open(t, more.getOrDefault(t.key(), 1), panel));
    }
    return out;
  }

  private static EnoughOpen open(EnoughTerm t, int more, EnoughPanel panel) {
    Level level = t.level();
    int left = t.available() - t.measured();
    int n = Math.max(1, Math.min(more, left));
    String what =
        level == null ? "spread over the panel" : level.factor().by() + " " + level.words();
    return new EnoughOpen(
        t.key(),
        t.chance(),
        n,
        level,
        String.format(
            Locale.ROOT,
            "%s is known to within %s either way (95 %% interval) and has a chance of %s to change"
                + " by more than its no-adjustment limit (%s): measure %d more %s (of %d left)",
            name(t),
            value(t.halfWidth(), t.unit()),
            percent(t.chance()),
            value(t.deadBand(), t.unit()),
            n,
            what,
            level == null ? panel.left : left));
  }

  private static String name(EnoughTerm t) {
    Level level = t.level();
    return level != null
        ? t.name().replaceFirst("^" + level.factor().key(), level.factor().noun())
        : t.name()
            .replaceFirst(
                "^" + TermFamily.ROTATION_ZERO.key() + ".*", TermFamily.ROTATION_ZERO.words())
            .replaceFirst("^" + TermFamily.SHIFT.key(), TermFamily.SHIFT.words())
            .replaceFirst("^" + TermFamily.ROTATION.key() + "$", TermFamily.ROTATION.words())
            .replaceFirst("^" + TermFamily.COMMON.key(), TermFamily.COMMON.words() + ",");
  }

  private static String value(double v, String unit) {
    return switch (unit) {
      case "mm" -> NumberWords.um(v);
      case "deg" -> String.format(Locale.ROOT, "%.3f deg", v);
      case "ppm" -> String.format(Locale.ROOT, "%.0f ppm", v);
      default -> String.format(Locale.ROOT, "%.3f %s", v, unit);
    };
  }

  private static String percent(double p) {
    return p < 0.005 ? "under 1 %" : String.format(Locale.ROOT, "%.0f %%", 100 * p);
  }

  /** True scatter over estimated scatter: root of df / chi-square (Wilson-Hilferty 1931). */
  static double scatterFactor(Random random, double df) {
    double c = 2 / (9 * df);
    double w = 1 - c + random.nextGaussian() * Math.sqrt(c);
    return 1 / Math.sqrt(Math.max(0.05, w * w * w));
  }
}
