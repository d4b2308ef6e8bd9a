package org.padtrue.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.LongFunction;
import org.junit.jupiter.api.Test;
import org.padtrue.Study;
import org.padtrue.SyntheticPanel;
import org.padtrue.panel.article.DeviationTable;

/**
 * Every kind of gross error is planted in 20 articles of 80 placements (40 in full; scatter 0.02
 * mm, 6 types) and has to get its name; nothing else may be accused more often than a clean article
 * is.
 */
class ScreeningKindsTest {
  private static final int ARTICLES = Study.runs("screening", 20, 40);

  /** At least 95 % are named as planted. */
  private static final int SURE = (int) Math.ceil(0.95 * ARTICLES);

  /**
   * The same where another slip of the pen gives nearly the same number, or where the true value
   * lies two scatters from what the others expect: a name is given only if it is ten times as
   * likely as none. Measured: 31 to 36 of 40.
   */
  private static final int AMBIGUOUS = (int) Math.ceil(0.7 * ARTICLES);

  private static final LongFunction<SpoiledArticle> POSES = SpoiledArticle::poses;
  private static final LongFunction<SpoiledArticle> DEVIATIONS = SpoiledArticle::deviations;

  /** Spoils one row and says which others take part in it. */
  private interface Spoil {
    List<Integer> at(SpoiledArticle a, int i);
  }

  private static List<Integer> alone(SpoiledArticle changed) {
    assertNotNull(changed);
    return List.of();
  }

  private static void assertNamed(
      Finding.Kind kind, int least, LongFunction<SpoiledArticle> make, Spoil spoil) {
    int named = 0;
    int others = 0;
    List<String> wrong = new ArrayList<>();
    for (long seed = 1; seed <= ARTICLES; seed++) {
      SpoiledArticle a = make.apply(seed);
      int i = (int) (7 * seed % a.size());
      List<Integer> with = spoil.at(a, i);
      ScreeningResult r = a.screen();
      for (int k = 0; k < a.size(); k++) {
        Finding f = r.findings()[k];
        if (k == i || with.contains(k)) {
          if (f != null && f.kind() == kind) {
            named += k == i ? 1 : 0;
          } else {
            wrong.add("seed " + seed + ": " + (f == null ? "nothing" : f.sentence()));
          }
        } else if (f != null) {
          others++;
        }
      }
    }
    assertTrue(named >= least, kind + " named " + named + " times: " + wrong);
    // One clean article in fifty loses a placement: of 40, 0.8 are expected, and more than 4 in one
    // case of 700; of 20, 0.4, and more than 3 in one of 1,300 (Poisson).
    assertTrue(others <= (ARTICLES < 40 ? 3 : 4), kind + ": others accused " + others + " times");
  }

  @Test
  void quarterTurn() {
    assertNamed(Finding.Kind.QUARTER_TURN, SURE, POSES, (a, i) -> alone(a.turn(i, 90)));
    assertNamed(Finding.Kind.QUARTER_TURN, SURE, DEVIATIONS, (a, i) -> alone(a.turn(i, -90)));
  }

  @Test
  void halfTurn() {
    assertNamed(Finding.Kind.HALF_TURN, SURE, POSES, (a, i) -> alone(a.turn(i, 180)));
    assertNamed(Finding.Kind.HALF_TURN, SURE, DEVIATIONS, (a, i) -> alone(a.turn(i, 180)));
  }

  /** The next placement whose nominal rotation is the same, or is another. */
  private static int partner(SpoiledArticle a, int i, boolean same) {
    double theta = a.row(i).nominal().rotationDeg();
    for (int k = 1; k < a.size(); k++) {
      int j = (i + k) % a.size();
      if ((a.row(j).nominal().rotationDeg() == theta) == same) {
        return j;
      }
    }
    throw new IllegalStateException("no partner");
  }

  private static List<Integer> exchanged(SpoiledArticle a, int i, boolean same) {
    int j = partner(a, i, same);
    a.exchange(i, j);
    return List.of(j);
  }

  @Test
  void swappedRefs() {
    assertNamed(Finding.Kind.SWAPPED_REFS, SURE, POSES, (a, i) -> exchanged(a, i, true));
  }

  /** The rotations travel with the records, which must not pass for turned parts. */
  @Test
  void swappedRefsOfDifferentRotation() {
    assertNamed(Finding.Kind.SWAPPED_REFS, SURE, POSES, (a, i) -> exchanged(a, i, false));
  }

  @Test
  void swappedXY() {
    Spoil s = (a, i) -> alone(a.record(i, a.y(i), a.x(i)));
    assertNamed(Finding.Kind.SWAPPED_XY, SURE, POSES, s);
    assertNamed(Finding.Kind.SWAPPED_XY, SURE, DEVIATIONS, s);
  }

  @Test
  void signFlip() {
    Spoil one = (a, i) -> alone(a.record(i, -a.x(i), a.y(i)));
    Spoil both = (a, i) -> alone(a.record(i, -a.x(i), -a.y(i)));
    assertNamed(Finding.Kind.SIGN_FLIP, SURE, POSES, one);
    assertNamed(Finding.Kind.SIGN_FLIP, SURE, DEVIATIONS, one);
    assertNamed(Finding.Kind.SIGN_FLIP, SURE, POSES, both);
    assertNamed(Finding.Kind.SIGN_FLIP, SURE, DEVIATIONS, both);
  }

  private static double in(double mm, double unit, double step) {
    return Math.rint(mm / unit / step) * step;
  }

  @Test
  void wrongUnit() {
    assertNamed(
        Finding.Kind.WRONG_UNIT,
        SURE,
        POSES,
        (a, i) -> alone(a.record(i, in(a.x(i), 25.4, 1e-4), in(a.y(i), 25.4, 1e-4))));
    assertNamed(
        Finding.Kind.WRONG_UNIT,
        SURE,
        POSES,
        (a, i) -> alone(a.record(i, in(a.x(i), 0.0254, 0.1), in(a.y(i), 0.0254, 0.1))));
    assertNamed(
        Finding.Kind.WRONG_UNIT,
        SURE,
        DEVIATIONS,
        (a, i) -> alone(a.record(i, in(a.x(i), 1e-3, 1), in(a.y(i), 1e-3, 1))));
  }

  @Test
  void decimalSlip() {
    Spoil less = (a, i) -> alone(a.record(i, a.x(i) / 10, a.y(i)));
    assertNamed(Finding.Kind.DECIMAL_SLIP, SURE, POSES, less);
    assertNamed(Finding.Kind.DECIMAL_SLIP, SURE, DEVIATIONS, less);
    assertNamed(
        Finding.Kind.DECIMAL_SLIP, SURE, POSES, (a, i) -> alone(a.record(i, a.x(i), a.y(i) * 10)));
    // 4.03 for 0.403 is also 0.43 with two digits swapped: one article in ten is called that.
    assertNamed(
        Finding.Kind.DECIMAL_SLIP,
        AMBIGUOUS,
        DEVIATIONS,
        (a, i) -> alone(a.record(i, a.x(i) * 10, a.y(i))));
  }

  /** Swaps the first pair of neighbouring digits that moves the number by more than 0.15 mm. */
  private static double digitsSwapped(double v) {
    String s = String.format(Locale.ROOT, "%.3f", v);
    for (int k = s.indexOf('.') + 1; k >= 0; k--) {
      int b = s.charAt(k + 1) == '.' ? k + 2 : k + 1;
      if (!Character.isDigit(s.charAt(k))) {
        continue;
      }
      char[] c = s.toCharArray();
      c[k] = s.charAt(b);
      c[b] = s.charAt(k);
      double w = Double.parseDouble(new String(c));
      if (Math.abs(w - v) > 0.15) {
        return w;
      }
    }
    return Double.NaN;
  }

  private static List<Integer> transposed(SpoiledArticle a, int i) {
    double x = digitsSwapped(a.x(i));
    double y = digitsSwapped(a.y(i));
    if (!Double.isNaN(x)) {
      a.record(i, x, a.y(i));
    } else {
      a.record(i, a.x(i), y);
    }
    return List.of();
  }

  @Test
  void transposedDigits() {
    // 23.388 with tenths and hundredths swapped is 23.838; other readings of it are as near.
    assertNamed(Finding.Kind.TRANSPOSED_DIGITS, AMBIGUOUS, POSES, ScreeningKindsTest::transposed);
    assertNamed(
        Finding.Kind.TRANSPOSED_DIGITS, AMBIGUOUS, DEVIATIONS, ScreeningKindsTest::transposed);
  }

  /** Off in both axes by what no slip explains: no name is made up. */
  @Test
  void gross() {
    Spoil s = (a, i) -> alone(a.record(i, a.x(i) + 0.37, a.y(i) - 0.61));
    assertNamed(Finding.Kind.GROSS, SURE, POSES, s);
    assertNamed(Finding.Kind.GROSS, SURE, DEVIATIONS, s);
  }

  /** A sign flip of a deviation near zero cannot be told from scatter and is not claimed. */
  @Test
  void flippedSignOfASmallDeviationIsNotClaimed() {
    int claimed = 0;
    for (long seed = 1; seed <= ARTICLES; seed++) {
      SpoiledArticle a = SpoiledArticle.poses(seed);
      int i = (int) (7 * seed % a.size());
      double nx = a.row(i).nominal().xMm();
      a.record(i, nx - a.row(i).dxMm(), a.y(i));
      Finding f = a.screen().findings()[i];
      claimed += f != null && f.kind() == Finding.Kind.SIGN_FLIP ? 1 : 0;
    }
    assertEquals(0, claimed);
  }

  /**
   * Clean articles: positions and rotations are each held to one article in a hundred, so two in a
   * hundred lose a placement; of 600 articles 12, and three standard errors more: 22.
   */
  @Test
  void cleanArticlesKeepTheirPlacements() {
    int each = Study.runs("clean", 80, 200);
    int lost = 0;
    for (int[] size : new int[][] {{80, 6}, {20, 3}, {40, 6}}) {
      for (long seed = 1001; seed <= 1000 + each; seed++) {
        SyntheticPanel p = new SyntheticPanel(seed);
        p.perBoard = size[0];
        p.types = size[1];
        p.shiftX = 0.06;
        p.rotationDeg = 0.03;
        DeviationTable t =
            new DeviationTable(p.draw().article("a").measured(), Double.NaN, Double.NaN);
        int[] symmetry = new int[t.size()];
        java.util.Arrays.fill(symmetry, 1);
        boolean any = false;
        for (Finding f : Screening.screen(t, symmetry, true).findings()) {
          any |= f != null;
        }
        lost += any ? 1 : 0;
      }
    }
    int n = 3 * each;
    assertTrue(
        lost <= n * (0.02 + 3 * Study.error(0.02, n)), "articles that lost a placement: " + lost);
  }
}
