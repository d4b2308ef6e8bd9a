package org.padtrue.history;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.padtrue.problem.InputException;

/** What every store must do; run on SQLite always and on PostgreSQL where there is a server. */
abstract class ArticleLogContract {
  /** URL of a fresh store of this test. */
  abstract String url();

  @Test
  void anArticleComesBackAsItWas() {
    LoggedTrim trim = new LoggedTrim("shiftX", "mm", -0.02, LoggedTrim.Scope.JOB, "abc");
    LoggedArticle a = Articles.article(3, 7, "M1", "J1", List.of(trim));
    try (ArticleLog log = ArticleLog.open(url())) {
      long id = log.record(a);
      assertThat(log.article(id)).contains(a);
      ArticleEntry e = log.entry(id).orElseThrow();
      assertThat(e.contentHash()).isEqualTo(a.contentHash());
      assertThat(e.recordedBy()).isEqualTo(System.getProperty("user.name"));
      assertThat(e.stands()).isTrue();
    }
    try (ArticleLog log = ArticleLog.openToRead(url())) {
      assertThat(log.machines()).containsExactly("M1");
      assertThat(log.jobs()).containsExactly("J1");
      assertThat(log.articles("M1", "J1")).hasSize(1);
      assertThat(log.articles("M2", null)).isEmpty();
      assertThat(log.article(77)).isEmpty();
    }
  }

  @Test
  void theSameArticleTwiceIsRefusedPolitely() {
    try (ArticleLog log = ArticleLog.open(url())) {
      LoggedArticle a = Articles.article(1, 5);
      long id = log.record(a);
      assertThatThrownBy(() -> log.record(a))
          .isInstanceOf(InputException.class)
          .hasMessageMatching(
              "a1\\.csv: the same article is in the log already as number "
                  + id
                  + " \\(machine M1, measured 2026-01-05T07:10:00\\.000Z, recorded .*Z by .*\\) and"
                  + " nothing was recorded; record a correction of that number if something about"
                  + " it was wrong");
      assertThat(log.articles(null, null)).hasSize(1);
      assertThat(log.contains(a)).isTrue();
      assertThat(log.contains(Articles.article(2, 5))).isFalse();
    }
  }

  @Test
  void aCorrectionIsANewRowThatPointsAtTheOldOne() {
    try (ArticleLog log = ArticleLog.open(url())) {
      LoggedArticle wrong = Articles.article(1, 5, "M1", "J1", List.of());
      LoggedArticle right = Articles.article(1, 5, "M2", "J1", List.of());
      long old = log.record(wrong);
      long id = log.correct(old, right, "wrong machine");
      assertThat(log.article(old)).contains(wrong);
      assertThat(log.entry(old).orElseThrow().correctedBy()).isEqualTo(id);
      ArticleEntry e = log.entry(id).orElseThrow();
      assertThat(e.corrects()).isEqualTo(old);
      assertThat(e.reason()).isEqualTo("wrong machine");
      assertThat(log.series("M1", null)).isEmpty();
      assertThat(log.series("M2", null)).hasSize(3);
      assertThatThrownBy(() -> log.correct(old, wrong, "again"))
          .isInstanceOf(InputException.class)
          .hasMessage(
              "article number "
                  + old
                  + " has been corrected by number "
                  + id
                  + " already; correct number "
                  + id);
      assertThatThrownBy(() -> log.correct(99, wrong, "x")).hasMessageContaining("number 99");
      assertThatThrownBy(() -> log.record(right)).hasMessageContaining("in the log already");
    }
  }

  /** Increments add up; shift stays with its job; a type's wildcard moves every type. */
  @Test
  void stateIsValueMinusTheTrimsInForce() {
    List<LoggedTrim> first =
        List.of(
            new LoggedTrim("shiftX", "mm", -0.010, LoggedTrim.usualScope("shiftX"), "s1"),
            new LoggedTrim("scaleXPpm", "ppm", -50, LoggedTrim.usualScope("scaleXPpm"), "s1"));
    List<LoggedTrim> second =
        List.of(
            new LoggedTrim("shiftX", "mm", -0.005, LoggedTrim.usualScope("shiftX"), "s2"),
            new LoggedTrim("part * x", "mm", 0.003, LoggedTrim.Scope.MACHINE, "s2"));
    try (ArticleLog log = ArticleLog.open(url())) {
      log.record(Articles.article(4, 5, "M1", "J1", second));
      log.record(Articles.article(1, 5, "M1", "J1", List.of()));
      log.record(Articles.article(2, 5, "M1", "J1", first));
      log.record(Articles.article(3, 5, "M1", "J2", List.of()));
      log.record(Articles.article(5, 5, "M9", "J1", List.of()));
      Map<String, LoggedSeries> s = new LinkedHashMap<>();
      log.series("M1", null).forEach(x -> s.put(x.name(), x));
      assertThat(s.keySet()).containsExactly("shiftX", "scaleXPpm", "part R0603 x");
      assertThat(offsets(s.get("shiftX"))).containsExactly(new double[] {0, .010, 0, .015}, TOL);
      assertThat(offsets(s.get("scaleXPpm"))).containsExactly(new double[] {0, 50, 50, 50}, TOL);
      assertThat(offsets(s.get("part R0603 x")))
          .containsExactly(new double[] {0, 0, 0, -.003}, TOL);
      LoggedPoint p = s.get("scaleXPpm").points().get(1);
      assertThat(p.value()).isEqualTo(102);
      assertThat(p.standardError()).isEqualTo(20);
      assertThat(p.at()).isEqualTo(Articles.START.plusSeconds(7200));
      assertThat(p.conditions().temperatureC()).isEqualTo(23.5);
      assertThat(p.conditions().humidityPercent()).isNaN();
      LoggedSeries j2 = log.series("M1", "J2").get(1);
      assertThat(j2.points()).hasSize(1);
      assertThat(offsets(j2)).containsExactly(new double[] {50}, TOL);
    }
  }

  /**
   * A whole turn moves no series and is a quantity of its own, also where an earlier version, or a
   * person, put turn and rest into one rotation.
   */
  @Test
  void aTurnIsApartFromRotation() {
    LoggedTrim together =
        new LoggedTrim("part R0603 rotation", "deg", -89.89, LoggedTrim.Scope.MACHINE, "old");
    LoggedTrim turn =
        new LoggedTrim("part R0603 turn", "deg", 270, LoggedTrim.Scope.MACHINE, "old");
    LoggedTrim rest =
        new LoggedTrim("part R0603 rotation", "deg", 0.11, LoggedTrim.Scope.MACHINE, "old");
    assertThat(together.apart()).containsExactly(turn, rest);
    assertThat(turn.apart()).containsExactly(turn);
    assertThat(rest.apart()).containsExactly(rest);
    assertThat(new LoggedTrim("part A turn", "deg", -90, LoggedTrim.Scope.MACHINE, "").apart())
        .extracting(LoggedTrim::increment)
        .containsExactly(270.0);
    LoggedTrim panel = new LoggedTrim("rotation", "deg", 90, LoggedTrim.Scope.JOB, "");
    assertThat(panel.apart()).containsExactly(panel);
    List<LoggedParameter> rotation =
        List.of(new LoggedParameter("", "part R0603 rotation", "deg", 0.5, 0.1));
    try (ArticleLog log = ArticleLog.open(url())) {
      LoggedArticle a = Articles.article(1, 5, "M1", "J1", List.of(together));
      long id =
          log.record(
              new LoggedArticle(
                  a.job(),
                  a.file(),
                  a.machine(),
                  a.measuredAt(),
                  a.conditions(),
                  a.stage(),
                  a.reference(),
                  a.notes(),
                  a.placements(),
                  rotation,
                  a.trims(),
                  a.attachments()));
      assertThat(log.article(id).orElseThrow().trims()).containsExactly(turn, rest);
      assertThat(offsets(log.series("M1", null).get(0))).containsExactly(new double[] {-0.11}, TOL);
    }
  }

  private static final org.assertj.core.data.Offset<Double> TOL = within(1e-12);

  private static double[] offsets(LoggedSeries s) {
    return s.points().stream().mapToDouble(p -> p.state() - p.value()).toArray();
  }

  /**
   * 4,000 increments as people type them add up as on paper, seen from a level and a difference.
   */
  @Test
  void sumsOfTrimsAreExact() {
    BigDecimal scale = BigDecimal.ZERO;
    BigDecimal part = BigDecimal.ZERO;
    String[] typed = {"0.1", "0.2", "-0.07", "0.003", "0.1", "1.1", "-0.9", "0.0001"};
    try (ArticleLog log = ArticleLog.open(url())) {
      for (int i = 0; i < 20; i++) {
        List<LoggedTrim> trims = new ArrayList<>();
        for (int k = 0; k < 100; k++) {
          String a = typed[(i + k) % typed.length];
          String b = typed[(3 * i + k) % typed.length];
          scale = scale.add(new BigDecimal(a));
          part = part.add(new BigDecimal(b));
          trims.add(trim("scaleXPpm", "ppm", a));
          trims.add(trim("part R0603 x", "mm", b));
        }
        log.record(Articles.article(i + 1, 3, "M1", "J1", trims));
        for (LoggedSeries s : log.series("M1", "J1")) {
          LoggedPoint last = s.points().get(i);
          double sum =
              s.name().equals("scaleXPpm")
                  ? scale.doubleValue()
                  : s.name().equals("part R0603 x") ? part.doubleValue() : 0;
          assertThat(last.trims()).as(s.name()).isEqualTo(sum);
          assertThat(last.state()).isEqualTo(last.value() - sum);
        }
      }
      log.record(Articles.article(40, 3, "M2", "J1", List.of(trim("shiftX", "mm", "0.1"))));
      log.record(Articles.article(41, 3, "M2", "J1", List.of(trim("shiftX", "mm", "0.2"))));
      assertThat(log.series("M2", "J1").get(0).points().get(1).trims()).isEqualTo(0.3);
    }
  }

  private static LoggedTrim trim(String name, String unit, String typed) {
    return new LoggedTrim(name, unit, Double.parseDouble(typed), LoggedTrim.usualScope(name), "");
  }

  @Test
  void aTrimShowsInDifferencesAndTiedLevelsOfItsLevel() {
    LoggedTrim t = trim("nozzle N1 x", "mm", "0.02");
    assertThat(t.share("nozzle N1 x")).isEqualTo(1);
    assertThat(t.share("nozzle N1 minus N2 x")).isEqualTo(1);
    assertThat(t.share("nozzle N2 minus N1 x")).isEqualTo(-1);
    assertThat(t.share("nozzle N2 minus N3 x")).isZero();
    assertThat(t.share("nozzle N1 minus N2 y")).isZero();
    assertThat(t.share("part IC with nozzle N1 x")).isEqualTo(1);
    assertThat(t.share("part IC with nozzle N2 x")).isZero();
    LoggedTrim all = trim("part * x", "mm", "0.02");
    assertThat(all.share("part A minus B x")).isZero();
    assertThat(all.share("part A with nozzle N1 x")).isEqualTo(1);
    assertThat(all.share("part A x")).isEqualTo(1);
    assertThat(all.share("nozzle N1 x")).isZero();
    assertThat(new LoggedTrim("shiftX", "mm", 0.1 + 0.2, LoggedTrim.Scope.JOB, "").increment())
        .isEqualTo(0.3);
  }

  @Test
  void theSameTrimSheetTwiceIsRefused() {
    List<LoggedTrim> trims =
        List.of(new LoggedTrim("shiftX", "mm", -0.01, LoggedTrim.Scope.JOB, "sheet"));
    try (ArticleLog log = ArticleLog.open(url())) {
      long id = log.record(Articles.article(1, 5, "M1", "J1", trims));
      assertThatThrownBy(() -> log.record(Articles.article(2, 5, "M1", "J1", trims)))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("with article number " + id + ", and would count twice");
      log.record(Articles.article(3, 5, "M2", "J1", trims));
      log.correct(id, Articles.article(1, 6, "M1", "J1", trims), "a missing part");
      assertThat(log.articles(null, null)).hasSize(3);
    }
  }

  @Test
  void eventsAreKept() {
    LoggedEvent e = new LoggedEvent("M1", Articles.START, "reel", "R0603", "new reel");
    try (ArticleLog log = ArticleLog.open(url())) {
      log.record(e);
      assertThat(log.events("M1")).containsExactly(e);
      assertThat(log.events("M2")).isEmpty();
    }
  }

  private static final Function<String, SignOff> QUALITY =
      note -> new SignOff("A. Example", "quality", note);

  /** Sign-offs add up; a withdrawal is a row of its own that names what it withdraws. */
  @Test
  void signOffsAddUpAndAWithdrawalHidesNothing() {
    try (ArticleLog log = ArticleLog.open(url())) {
      long one = log.record(Articles.article(1, 5));
      long two = log.record(Articles.article(2, 5));
      long first = log.signOff(one, QUALITY.apply("released for the batch"));
      log.signOff(two, QUALITY.apply(""));
      SignOff other = new SignOff("B. Example", "line engineer", "R3 looked at by eye");
      long second = log.signOff(one, other);
      assertThatThrownBy(() -> log.withdraw(first, QUALITY.apply(" ")))
          .hasMessage("a withdrawal needs a reason; say why in its note");
      long gone = log.withdraw(first, QUALITY.apply("the wrong panel"));
      List<LoggedSignOff> all = log.signOffs(one);
      assertThat(all).extracting(LoggedSignOff::id).containsExactly(first, second, gone);
      assertThat(all).extracting(LoggedSignOff::holds).containsExactly(false, true, false);
      assertThat(all.get(0).withdrawnBy()).isEqualTo(gone);
      assertThat(all.get(1).said()).isEqualTo(other);
      assertThat(all.get(2).withdraws()).isEqualTo(first);
      assertThat(all.get(2).said().note()).isEqualTo("the wrong panel");
      assertThat(all.get(0).at()).isBetween(Instant.now().minusSeconds(60), Instant.now());
      assertThat(all.get(0).recordedBy()).isEqualTo(System.getProperty("user.name"));
      assertThat(log.signOffs(null)).hasSize(4);
      assertThatThrownBy(() -> log.withdraw(first, QUALITY.apply("again")))
          .isInstanceOf(InputException.class)
          .hasMessage("sign-off number " + first + " has been withdrawn already");
      assertThatThrownBy(() -> log.withdraw(gone, QUALITY.apply("back")))
          .hasMessageContaining("there is no sign-off number " + gone);
    }
  }

  @Test
  void onlyTheArticleThatStandsCanBeSignedOff() {
    try (ArticleLog log = ArticleLog.open(url())) {
      long old = log.record(Articles.article(1, 5));
      log.signOff(old, QUALITY.apply("released"));
      long id = log.correct(old, Articles.article(1, 5, "M2", "J1", List.of()), "wrong machine");
      assertThatThrownBy(() -> log.signOff(old, QUALITY.apply("")))
          .isInstanceOf(InputException.class)
          .hasMessage(
              "article number "
                  + old
                  + " has been corrected by number "
                  + id
                  + "; sign off number "
                  + id);
      assertThatThrownBy(() -> log.signOff(77, QUALITY.apply("")))
          .hasMessageContaining("there is no article number 77 in the log");
      assertThat(log.signOffs(old)).hasSize(1);
      assertThat(log.signOffs(id)).isEmpty();
    }
  }

  /** Articles, corrections and events change the state; sign-offs do not, as no series has them. */
  @Test
  void theStateTellsWhetherALogHasGrown() {
    try (ArticleLog log = ArticleLog.open(url())) {
      LogState empty = log.state();
      assertThat(empty).isEqualTo(new LogState(0, 0, 0, 0));
      long id = log.record(Articles.article(1, 5));
      LogState one = log.state();
      assertThat(one).isEqualTo(new LogState(1, id, 0, 0));
      log.signOff(id, QUALITY.apply(""));
      assertThat(log.state()).isEqualTo(one);
      log.record(new LoggedEvent("M1", Articles.START, "service", "", ""));
      LogState event = log.state();
      assertThat(event.events()).isEqualTo(1);
      log.correct(id, Articles.article(1, 5), "again");
      assertThat(log.state().articles()).isEqualTo(2);
      assertThat(log.state().lastArticle()).isGreaterThan(id);
    }
  }

  @Test
  void exportGivesEverything() {
    try (ArticleLog log = ArticleLog.open(url())) {
      log.signOff(log.record(Articles.article(1, 5)), QUALITY.apply("released"));
      log.record(Articles.article(2, 4));
      Map<String, List<List<Object>>> rows = new LinkedHashMap<>();
      Map<String, List<String>> columns = new LinkedHashMap<>();
      log.export(
          new RowSink() {
            private String table = "";

            @Override
            public void table(String name, List<String> names) {
              table = name;
              columns.put(name, names);
              rows.put(name, new ArrayList<>());
            }

            @Override
            public void row(List<Object> values) {
              rows.get(table).add(values);
            }
          });
      assertThat(rows.keySet())
          .containsExactly(
              "article",
              "placement",
              "fit_parameter",
              "entered_trim",
              "attachment",
              "machine_event",
              "sign_off");
      assertThat(columns.get("sign_off"))
          .containsExactly(
              "id", "article_id", "signed_at", "recorded_by", "name", "role", "note", "withdraws");
      assertThat(rows.get("sign_off")).hasSize(1);
      assertThat(rows.get("sign_off").get(0)).contains("A. Example", "quality", "released");
      assertThat(rows.get("article")).hasSize(2);
      assertThat(rows.get("placement")).hasSize(9);
      assertThat(rows.get("fit_parameter")).hasSize(6);
      List<Object> p = rows.get("placement").get(0);
      List<String> names = columns.get("placement");
      assertThat(p.get(names.indexOf("ref"))).isEqualTo("R0");
      assertThat(p.get(names.indexOf("drotation_deg"))).isNull();
      assertThat(p.get(names.indexOf("y_mm"))).isEqualTo(2.5);
      assertThat(p.get(names.indexOf("used"))).isEqualTo(1L);
    }
  }
}
