package org.padtrue.web;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.Conditions;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedAttachment;
import org.padtrue.history.LoggedParameter;
import org.padtrue.history.LoggedPlacement;
import org.padtrue.history.LoggedTrim;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Levels;

/** Invented articles as the log keeps them, without fits; three a day. */
public final class InventedLog {
  static final Instant START = Instant.parse("2026-01-05T06:10:00Z");
  public static final String JOB = "Invented board";

  /** Article before which the scale was trimmed. */
  public static final int TRIMMED = 40;

  static final double TRIM = -60;

  private InventedLog() {}

  /** A log in which scaleXPpm creeps, one nozzle steps, and all else is steady. */
  public static void drifting(String url, int articles) {
    try (ArticleLog log = ArticleLog.open(url)) {
      for (int k = 0; k < articles; k++) {
        log.record(article(k, "M1", JOB, "note " + k));
      }
    }
  }

  public static LoggedArticle article(int k, String machine, String job, String note) {
    Random r = new Random(1000 + k);
    double trim = k >= TRIMMED ? TRIM : 0;
    List<LoggedParameter> f = new ArrayList<>();
    f.add(new LoggedParameter("P1", "shiftX", "mm", 0.012 * r.nextGaussian(), 0.002));
    f.add(new LoggedParameter("P1", "shiftY", "mm", 0.012 * r.nextGaussian(), 0.002));
    f.add(new LoggedParameter("P1", "rotation", "deg", 0.004 * r.nextGaussian(), 0.001));
    double scale = 50 + 3.0 * k + trim + 8 * r.nextGaussian();
    f.add(new LoggedParameter("", "scaleXPpm", "ppm", scale, 8));
    f.add(new LoggedParameter("", "scaleYPpm", "ppm", 30 + 8 * r.nextGaussian(), 8));
    for (int n = 1; n <= 3; n++) {
      double step = n == 2 && k >= 30 ? 0.03 : 0;
      f.add(
          new LoggedParameter(
              "", "nozzle N" + n + " x", "mm", step + 0.003 * r.nextGaussian(), 0.003));
    }
    List<LoggedTrim> trims =
        k == TRIMMED
            ? List.of(
                new LoggedTrim("scaleXPpm", "ppm", TRIM, LoggedTrim.usualScope("scaleXPpm"), ""))
            : List.of();
    return new LoggedArticle(
        job,
        "a" + k + ".csv",
        machine,
        START.plusSeconds(28_800L * k),
        new Conditions(
            k % 2 == 0 ? "early" : "late",
            "operator " + (1 + k % 3),
            22 + 2 * r.nextGaussian(),
            Double.NaN,
            60 + 10 * k,
            Double.NaN),
        "paste",
        "fiducials",
        note,
        placements(r),
        f,
        trims,
        List.of(new LoggedAttachment("00ff".repeat(16), "top.png", 12)));
  }

  private static List<LoggedPlacement> placements(Random r) {
    List<LoggedPlacement> p = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      p.add(
          new LoggedPlacement(
              "P1",
              1,
              1,
              "R" + i,
              "R0603",
              Levels.NONE.with(Factor.NOZZLE, "N" + (1 + i % 3)),
              5.0 * i,
              2.5,
              90,
              0.01 * r.nextGaussian(),
              0.01 * r.nextGaussian(),
              i == 0 ? Double.NaN : 0.1 * r.nextGaussian(),
              Double.NaN,
              i != 1,
              i == 1 ? "gross" : ""));
    }
    return p;
  }
}
