package org.padtrue.history;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Levels;

/** Invented articles. */
final class Articles {
  static final Instant START = Instant.parse("2026-01-05T06:10:00Z");

  private Articles() {}

  static LoggedArticle article(long seed, int placements) {
    return article(seed, placements, "M1", "J1", List.of());
  }

  static LoggedArticle article(
      long seed, int placements, String machine, String job, List<LoggedTrim> trims) {
    Random r = new Random(seed);
    List<LoggedPlacement> p = new ArrayList<>();
    for (int i = 0; i < placements; i++) {
      p.add(
          new LoggedPlacement(
              "P1",
              1,
              1,
              "R" + i,
              "R0603",
              Levels.NONE.with(Factor.NOZZLE, i % 2 == 0 ? "N1" : null),
              i,
              2.5,
              90,
              0.01 * r.nextGaussian(),
              0.01 * r.nextGaussian(),
              i % 3 == 0 ? Double.NaN : 0.1 * r.nextGaussian(),
              Double.NaN,
              i != 1,
              i == 1 ? "gross" : ""));
    }
    List<LoggedParameter> f =
        List.of(
            new LoggedParameter("P1", "shiftX", "mm", 0.001 * seed, 0.002),
            new LoggedParameter("P1", "scaleXPpm", "ppm", 100 + seed, 20),
            new LoggedParameter("", "part R0603 x", "mm", 0.02, Double.NaN));
    return new LoggedArticle(
        job,
        "a" + seed + ".csv",
        machine,
        START.plusSeconds(3600 * seed),
        new Conditions("early", "operator 1", 23.5, Double.NaN, 30, 12_000),
        "paste",
        "fiducials",
        "\u00b5m note, with 'quotes'",
        p,
        f,
        trims,
        List.of(new LoggedAttachment("00ff", "top.png", 12)));
  }
}
