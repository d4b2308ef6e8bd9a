package org.padtrue.enough;

import java.util.ArrayList;
import java.util.Arrays;
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
 * its degrees of freedom), put through the same kind of test, shrinkage, dead band and rounding as
 * the analysis uses, and compared with what stands today. Levels not measured at all count with
 * offset 0 and the spread of their factor. Draws are seeded: the same article gives the same
 * answer.
 *
 * <p>A change counts by what it does: by how much the sheet to come would place the parts of the
 * next panel otherwise. Entering today's sheet then costs that much, root mean square beside what
 * scatter and the rest leave; it is enough when this would hardly ever be more than {@link
 * #MATERIAL} of the deviation expected anyway, the share that is too small to be worth typing.
 *
 * @param enough true when the chance is no more than {@link #TOGETHER}
 * @param sentence the answer in one sentence
 * @param chance probability that the sheet of the whole panel would place the next panel's parts
 *     better by more than {@link #MATERIAL}; NaN while too little is measured to say
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

  /**
   * Share of the next panel's deviation (RMS) that is too small to be worth typing; as where trims
   * are folded.
   */
  public static final double MATERIAL = 0.03;

  /** Chance that measuring the rest changes more than that, at which measuring may end. */
  public static final double TOGETHER = 0.10;

  /** Degrees of freedom below which the scatter is not known well enough to say anything. */
  static final double LEAST_DF = 4;

  /**
   * Mean square of what really changes over what the draws change: terms that lean on each other,
   * tests that turn out otherwise. Found by simulation, see {@code EnoughSimulationTest}.
   */
  private static final double BESIDE = 1.2;

  /** Sentences on what to measure next make up this share of what may change. */
  private static final double MOST_OF_IT = 0.8;

  static final int DRAWS = 400;
  static final long SEED = 20_011;

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
          new EnoughTerms(r, job, panel, 0)
              .families().stream().flatMap(f -> f.terms().stream()).toList(),
          List.of());
    }
    double df = r.scatter().degreesOfFreedom();
    if (!(df >= LEAST_DF) || !(r.scatter().residualSd() > 0)) {
      return tooFew(panel.used, panel.left);
    }
    double next = r.prediction().nextTrimmed();
    double expected = Double.isFinite(next) && next > 0 ? next : r.scatter().residualSd();
    double limit = limit(expected);
    return judge(new EnoughTerms(r, job, panel, Math.sqrt(limit) / 2).families(), panel, limit);
  }

  /** Mean square change of placing that makes a deviation larger by the share that counts, mm^2. */
  private static double limit(double expectedMm) {
    double grown = 1 + MATERIAL;
    return (grown * grown - 1) * expectedMm * expectedMm;
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

  private static Enough judge(List<EnoughFamily> families, EnoughPanel panel, double limit) {
    double[] moves = new double[DRAWS];
    List<EnoughTerm> terms = new ArrayList<>();
    Map<String, Integer> more = new LinkedHashMap<>();
    for (EnoughFamily f : families) {
      for (int i = 0; i < DRAWS; i++) {
        moves[i] += f.moves()[i];
      }
      terms.addAll(f.terms());
      f.more().forEach((k, v) -> more.merge(k, v, Math::max));
    }
    double chance = Arrays.stream(moves).filter(m -> BESIDE * m > limit).count() / (double) DRAWS;
    if (chance <= TOGETHER) {
      return new Enough(
          true,
          String.format(
              Locale.ROOT,
              "enough: measuring the rest would hardly change what to do (the chance that it would"
                  + " place the next panel better by more than %.0f %% is %s)",
              100 * MATERIAL,
              percent(chance)),
          chance,
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
            "not enough yet: the chance that measuring the rest would place the next panel better"
                + " by more than %.0f %% is %s%s",
            100 * MATERIAL,
            percent(chance),
            open.isEmpty() ? "" : "; " + open.get(0).sentence()),
        chance,
        panel.used,
        panel.left,
        terms,
        open);
  }

  /** What may change most, as much of it as makes up most of all that may change. */
  private static List<EnoughOpen> open(
      List<EnoughTerm> terms, Map<String, Integer> more, EnoughPanel panel) {
    Map<String, List<EnoughTerm>> byKey = new LinkedHashMap<>();
    for (EnoughTerm t : terms) {
      if (t.available() > t.measured() && t.movesMm() > 0) {
        byKey.computeIfAbsent(t.key(), k -> new ArrayList<>()).add(t);
      }
    }
    List<List<EnoughTerm>> order =
        byKey.values().stream()
            .sorted(Comparator.comparingDouble(Enough::square).reversed())
            .toList();
    double all = order.stream().mapToDouble(Enough::square).sum();
    double told = 0;
    List<EnoughOpen> out = new ArrayList<>();
    for (List<EnoughTerm> of : order) {
      if (told > MOST_OF_IT * all) {
        break;
      }
      told += square(of);
      EnoughTerm worst =
          of.stream().max(Comparator.comparingDouble(EnoughTerm::movesMm)).orElseThrow();
      out.add(open(worst, Math.sqrt(square(of)), more.getOrDefault(worst.key(), 1), panel));
    }
    return out;
  }

  private static double square(List<EnoughTerm> of) {
    return of.stream().mapToDouble(t -> t.movesMm() * t.movesMm()).sum();
  }

  private static EnoughOpen open(EnoughTerm t, double movesMm, int more, EnoughPanel panel) {
    Level level = t.level();
    int left = t.available() - t.measured();
    int n = Math.max(1, Math.min(more, left));
    String what =
        level == null ? "spread over the panel" : level.factor().by() + " " + level.words();
    return new EnoughOpen(
        t.key(),
        movesMm,
        n,
        level,
        String.format(
            Locale.ROOT,
            "%s: known within %s either way (95 %% interval), may still move the next panel's parts"
                + " by %s (RMS); measure %d more %s (%d left)",
            words(t),
            value(t.halfWidth(), t.unit()),
            NumberWords.um(movesMm),
            n,
            what,
            level == null ? panel.left : left));
  }

  /** A number in the trade's words. */
  public static String words(EnoughTerm t) {
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
    return p < 0.005
        ? "under 1 %"
        : p > 0.995 ? "over 99 %" : String.format(Locale.ROOT, "%.0f %%", 100 * p);
  }

  /** True scatter over estimated scatter: root of df / chi-square (Wilson-Hilferty 1931). */
  static double scatterFactor(Random random, double df) {
    double c = 2 / (9 * df);
    double w = 1 - c + random.nextGaussian() * Math.sqrt(c);
    return 1 / Math.sqrt(Math.max(0.05, w * w * w));
  }
}
