package org.padtrue.door;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Job;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.panel.mistake.MistakeWords;
import org.padtrue.panel.mistake.Reading;
import org.padtrue.panel.mistake.Reading.Kind;
import org.padtrue.problem.AsIs;
import org.padtrue.problem.Question;
import org.padtrue.problem.QuestionException;

/**
 * Asks about articles that look like a usual mistake.
 *
 * <p>Another reading must explain an article better by a factor of e^{@value #MUCH} and more for
 * every further twenty placements, so that what the model leaves out does not add up; another unit,
 * which changes nothing but magnitudes, by e^{@value #SMALLER} or e^{@value #LARGER}. Else the
 * article is asked about where as given it needs a shift beyond the longest part, a turn beyond 5
 * degrees or a scale beyond 3000 ppm. The shift is taken where it is least: a panel that is turned
 * about its origin by an honest degree is shifted by millimetres at its far end.
 *
 * <p>At most {@value #MOST_ROWS} placements of a panel are looked at, and all readings are tried
 * for at most {@value #MOST_PANELS} panels and for those that stand out.
 */
public final class Door {
  private static final double MUCH = 11;
  private static final double EACH = 0.05;

  /** Values written in a smaller unit than they were read in: they look too large. */
  private static final double SMALLER = 10;

  /** Values written in a larger unit: they look too small, which honest ones never do. */
  private static final double LARGER = 3;

  /** Readings that differ by a factor below e^4 are not told apart. */
  private static final double ALIKE = 4;

  private static final int MOST_ROWS = 400;
  private static final int MOST_PANELS = 8;
  private static final double STANDS_OUT = 3;

  private static final int LEAST_ROWS = 3;
  private static final double SAME_MM = 1e-3;
  private static final double MOST_TURN_DEG = 5;
  private static final double MOST_SCALE_PPM = 3000;
  private static final double SURE = 4;
  private static final double LEAST_DF = 8;

  private static final double TELLS_DF = 24;
  private static final double MOST_ROWS_FIT = 0.75;

  /** Six free parameters fit few placements by chance. */
  private static final double FEW = 150;

  /** Fewer rows cannot tell readings apart: round numbers of three look like any unit. */
  private static final int ENOUGH_ROWS = 6;

  private static final double HUNDRED = 100;

  private Door() {}

  /**
   * Lets articles in.
   *
   * @param job what they are articles of
   * @param articles what was measured
   * @param asIs what was answered before
   * @throws QuestionException for the first that looks like a mistake
   */
  public static void require(Job job, List<Article> articles, AsIs asIs) {
    Optional<Question> q =
        MachineValues.question(job, asIs).or(() -> PanelValues.question(job, asIs));
    for (Article a : articles) {
      q = q.isPresent() ? q : question(job, a, asIs);
    }
    if (q.isPresent()) {
      throw new QuestionException(q.get());
    }
  }

  /** What is asked about an article, if anything is. */
  public static Optional<Question> question(Job job, Article article, AsIs asIs) {
    if (asIs.all() || article.measured().isEmpty()) {
      return Optional.empty();
    }
    return Optional.ofNullable(new Looking(job, article, asIs).question());
  }

  /** One article. */
  private static final class Looking {
    private final Job job;
    private final Article article;
    private final AsIs asIs;
    private final MistakeWords words;
    private final List<List<Measured>> panels;

    /** True when what explains a panel best was said not to be so: it is taken as it is. */
    private boolean answered;

    Looking(Job job, Article article, AsIs asIs) {
      this.job = job;
      this.article = article;
      this.asIs = asIs;
      words = new MistakeWords(article.file(), article.poses(), article.unit(), job.side());
      Map<String, List<Measured>> by = new LinkedHashMap<>();
      article.measured().forEach(m -> by.computeIfAbsent(m.panel(), k -> new ArrayList<>()).add(m));
      panels = by.values().stream().map(Looking::some).toList();
    }

    private static List<Measured> some(List<Measured> all) {
      if (all.size() <= MOST_ROWS) {
        return all;
      }
      List<Measured> s = new ArrayList<>(MOST_ROWS);
      Random chance = new Random(1);
      int left = all.size();
      for (Measured m : all) {
        if (chance.nextInt(left--) < MOST_ROWS - s.size()) {
          s.add(m);
        }
      }
      return s;
    }

    private @Nullable Question unless(Question q) {
      return asIs.answers(q.key()) ? null : q;
    }

    @Nullable Question question() {
      Question q = nominal();
      q = q != null ? q : readings();
      return q != null ? q : sense();
    }

    private @Nullable Question nominal() {
      List<Measured> all = article.measured();
      if (all.size() < LEAST_ROWS) {
        return null;
      }
      double tol = article.poses() ? SAME_MM : 0;
      if (all.stream().allMatch(m -> near(m.dxMm(), 0, tol) && near(m.dyMm(), 0, tol))) {
        return unless(words.nominal(all.size()));
      }
      boolean positions =
          !article.poses()
              && all.stream()
                  .allMatch(
                      m ->
                          near(m.dxMm(), m.nominal().xMm(), SAME_MM)
                              && near(m.dyMm(), m.nominal().yMm(), SAME_MM));
      return positions ? unless(words.nominalAsDeviations(all.size())) : null;
    }

    private static boolean near(double a, double b, double tol) {
      return Math.abs(a - b) <= tol;
    }

    private @Nullable Question readings() {
      List<List<Measured>> enough = panels.stream().filter(p -> p.size() >= ENOUGH_ROWS).toList();
      List<Judgement> judged = new ArrayList<>();
      for (List<Measured> p : chosen(enough)) {
        judged.add(Judgement.of(job, p, article.poses(), article.unit()));
      }
      if (!judged.isEmpty()) {
        Question q = best(judged);
        for (Judgement j : judged) {
          q = q != null || judged.size() == 1 ? q : best(List.of(j));
        }
        if (q != null || answered) {
          return q;
        }
      }
      for (List<Measured> p : panels) {
        Question q = p.size() >= ENOUGH_ROWS ? impossible(p) : farOff(p);
        if (q != null) {
          return q;
        }
      }
      return null;
    }

    /** The first panels, and those that scatter far more than the others. */
    private List<List<Measured>> chosen(List<List<Measured>> all) {
      if (all.size() <= MOST_PANELS) {
        return all;
      }
      double[] spread = new double[all.size()];
      for (int i = 0; i < spread.length; i++) {
        spread[i] = Judgement.given(job, all.get(i), article.poses(), article.unit()).spread();
      }
      double[] sorted = spread.clone();
      java.util.Arrays.sort(sorted);
      List<List<Measured>> some = new ArrayList<>();
      for (int i = 0; i < spread.length; i++) {
        if (i < MOST_PANELS || spread[i] > STANDS_OUT * sorted[sorted.length / 2]) {
          some.add(all.get(i));
        }
      }
      return some;
    }

    /** The reading that explains the panels much better, as a question. */
    private @Nullable Question best(List<Judgement> judged) {
      double given = 0;
      double elsewhere = 0;
      int rows = 0;
      for (Judgement j : judged) {
        given += j.givenScore();
        elsewhere += j.elsewhere();
        rows += j.given().size();
      }
      double bestScore = Double.NEGATIVE_INFINITY;
      Reading found = null;
      Map<Kind, Double> scores = new EnumMap<>(Kind.class);
      List<Reading> readings = judged.get(0).readings();
      for (int k = 0; k < readings.size(); k++) {
        double s = 0;
        for (Judgement j : judged) {
          s += j.scores()[k];
        }
        Reading r = readings.get(k);
        scores.merge(r.kind(), s, Math::max);
        if (s > given + needed(r, rows, scatter(judged, k)) && s > bestScore) {
          bestScore = s;
          found = r;
        }
      }
      boolean nowhere = elsewhere > given + MUCH + EACH * rows && elsewhere > bestScore;
      Question best = nowhere ? words.otherBoard() : found == null ? null : named(found, scores);
      boolean so =
          best != null
              && (asIs.answers(best.key())
                  || !nowhere && found != null && asIs.answers(found.kind().key()));
      answered |= so;
      return so ? null : best;
    }

    /** Deviations that are swapped or mirrored often look alike: then both are named. */
    private Question named(Reading found, Map<Kind, Double> scores) {
      double swapped = scores.getOrDefault(Kind.SWAPPED, Double.NEGATIVE_INFINITY);
      double mirrored = scores.getOrDefault(Kind.MIRRORED_X, Double.NEGATIVE_INFINITY);
      boolean either = found.kind() == Kind.SWAPPED || found.kind() == Kind.MIRRORED_X;
      return !article.poses() && either && Math.abs(swapped - mirrored) < ALIKE
          ? words.swappedOrMirrored()
          : words.reading(found);
    }

    private double needed(Reading r, int rows, double scatterMm) {
      if (r.kind() != Kind.UNIT) {
        return MUCH + EACH * rows;
      }
      double factor = r.unit().mm() / article.unit().mm();
      if (factor <= 1) {
        return SMALLER;
      }
      // Small deviations are no proof of inches: a panel that was trimmed shows such.
      boolean asked =
          article.poses()
              || factor > HUNDRED
              || TooSteady.is(job, scatterMm / factor, article.measured());
      return asked ? LARGER : Double.POSITIVE_INFINITY;
    }

    /** The most that scatter may be under one reading, all panels together, mm. */
    private static double scatter(List<Judgement> judged, int k) {
      return Math.sqrt(
          judged.stream().mapToDouble(j -> j.scatters()[k] * j.scatters()[k]).average().orElse(0));
    }

    /** A transform that no panel needs. */
    private @Nullable Question impossible(List<Measured> rows) {
      DoorFit given = Judgement.given(job, rows, article.poses(), article.unit());
      DoorFit free = Judgement.free(job, rows, article.poses(), article.unit());
      double body = Body.longest(job, rows);
      // Types that were measured once leave a transform free: then only what is far beyond.
      double far = free.degreesOfFreedom() < LEAST_DF ? 10 : 1;
      boolean better = free.scoreAnywhere() > given.scoreAnywhere() + MUCH + FEW / rows.size();
      // Given is fitted under a prior wide enough to give way a little beyond the limits: with
      // enough placements the estimate itself tells, its error as if types were off as in given.
      boolean tells = free.leastDegreesOfFreedom() >= TELLS_DF && free.share() >= MOST_ROWS_FIT;
      if (better || tells) {
        double turn = free.turnDeg();
        double sx = free.scalePpm(true);
        double sy = free.scalePpm(false);
        double ratio = better ? free.ratio() : Math.max(free.ratio(), given.ratio());
        boolean turned = Math.abs(turn) > far * MOST_TURN_DEG + SURE * free.turnSeDeg(ratio);
        if (turned && !asIs.answers("turned")) {
          return words.turn(turn);
        }
        double limit = far * MOST_SCALE_PPM;
        boolean scaled =
            Math.abs(sx) > limit + SURE * free.scaleSePpm(true, ratio)
                || Math.abs(sy) > limit + SURE * free.scaleSePpm(false, ratio);
        if (scaled && !turned && !asIs.answers("scale")) {
          Question q = article.poses() ? null : likelier(rows);
          return q != null ? q : words.scale(sx, sy);
        }
      }
      boolean shifted = given.leastShift() > body + SURE * given.shiftSe();
      return shifted ? unless(words.shift(given.shift()[0], given.shift()[1], body)) : null;
    }

    /**
     * The reading that explains deviations likelier than an impossible stretch does: a turn of a
     * degree, measured along axes that are turned or swapped, is a stretch of 17,000 ppm.
     */
    private @Nullable Question likelier(List<Measured> rows) {
      Judgement j = Judgement.of(job, rows, article.poses(), article.unit());
      Map<Kind, Double> scores = new EnumMap<>(Kind.class);
      Reading found = null;
      double best = j.givenScore() + ALIKE;
      for (int k = 0; k < j.scores().length; k++) {
        Reading r = j.readings().get(k);
        scores.merge(r.kind(), j.scores()[k], Math::max);
        boolean axes =
            r.kind() == Kind.SWAPPED || r.kind() == Kind.TURNED_90 || r.kind() == Kind.MIRRORED_X;
        if (axes && j.scores()[k] > best && !asIs.answers(r.kind().key())) {
          best = j.scores()[k];
          found = r;
        }
      }
      return found == null ? null : unless(named(found, scores));
    }

    /** Too few for a fit: only what no part could be. */
    private @Nullable Question farOff(List<Measured> rows) {
      double body = Math.max(Body.longest(job, rows), 5);
      Measured least =
          rows.stream()
              .min(Comparator.comparingDouble(m -> Math.hypot(m.dxMm(), m.dyMm())))
              .orElseThrow();
      return Math.hypot(least.dxMm(), least.dyMm()) > body
          ? unless(words.shift(least.dxMm(), least.dyMm(), body))
          : null;
    }

    private @Nullable Question sense() {
      return article.poses() && RotationSense.reversed(job, article.measured())
          ? unless(words.sense())
          : null;
    }
  }
}
