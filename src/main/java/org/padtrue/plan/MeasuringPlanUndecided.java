package org.padtrue.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.padtrue.panel.Factor;
import org.padtrue.panel.term.LevelTerm;
import org.padtrue.plan.MeasuringPlan.Term;
import org.padtrue.plan.model.MeasuringPlanCandidate;
import org.padtrue.plan.model.MeasuringPlanFactor;

/**
 * What a plan will not be able to decide, by name, and what would make it decidable.
 *
 * <p>A term counts as decidable when an offset of three times the scatter of one placement is found
 * nine times in ten.
 */
final class MeasuringPlanUndecided {
  private static final List<String> LINEAR =
      Stream.of(
              MeasuringPlanFactor.ROTATION,
              MeasuringPlanFactor.SCALE_X,
              MeasuringPlanFactor.SCALE_Y,
              MeasuringPlanFactor.SQUARENESS)
          .map(MeasuringPlanFactor::word)
          .toList();
  private static final int NAMED = 6;
  private static final int MOST_PANELS = 20;

  private MeasuringPlanUndecided() {}

  /**
   * The sentences.
   *
   * @param all candidates
   * @param position terms of position
   * @param rotation terms of rotation
   * @param halfDiagonalMm where rotation, scale and squareness are taken, mm
   */
  static List<String> of(
      List<MeasuringPlanCandidate> all,
      List<Term> position,
      List<Term> rotation,
      double halfDiagonalMm) {
    List<String> s = new ArrayList<>();
    String there = String.format(Locale.ROOT, " at %.0f mm from the centre", halfDiagonalMm);
    terms(position, "", there, s);
    terms(rotation, "rotation of ", "", s);
    oneRotation(all, s);
    return List.copyOf(s);
  }

  /** What one sentence says of several levels together. */
  private record Case(String factor, int chosen, int available, boolean here, boolean none) {}

  private static void terms(List<Term> terms, String of, String there, List<String> s) {
    Map<Case, Map<String, Term>> cases = new LinkedHashMap<>();
    for (Term t : terms) {
      if (!(t.foundFrom() <= t.matters())) {
        boolean here = t.everythingFoundFrom() <= t.matters();
        Case c = new Case(t.factor(), t.chosen(), t.available(), here, Double.isNaN(t.foundFrom()));
        // x and y of one level are one thing to a person: the worse of the two speaks.
        cases
            .computeIfAbsent(c, k -> new TreeMap<>())
            .merge(level(t), t, (a, b) -> b.foundFrom() > a.foundFrom() ? b : a);
      }
    }
    cases.forEach((c, named) -> s.add(sentence(c, named, of, there)));
  }

  private static String level(Term t) {
    String name = t.name();
    if (t.factor().equals(MeasuringPlanFactor.COMMON.word())) {
      return "the offset that all parts share";
    }
    return LevelTerm.parse(name).map(LevelTerm::levels).orElse(name);
  }

  private static String sentence(Case c, Map<String, Term> named, String of, String there) {
    Term worst =
        named.values().stream()
            .reduce((a, b) -> b.foundFrom() > a.foundFrom() ? b : a)
            .orElseThrow();
    boolean many = named.size() > 1;
    String what = of + what(c.factor(), many) + names(named.keySet());
    String where = LINEAR.contains(c.factor()) ? there : "";
    return capital(what)
        + " ("
        + c.chosen()
        + " of "
        + c.available()
        + (many ? " each" : "")
        + " in the plan): "
        + (c.none()
            ? "nothing will be known of " + (many ? "them" : "it")
            : "less than "
                + size(worst.foundFrom(), of)
                + where
                + " can go unnoticed; to find "
                + size(worst.matters(), of))
        + (c.none() ? "; " : " ")
        + more(c, worst, many)
        + ".";
  }

  private static String more(Case c, Term t, boolean many) {
    boolean level = level(c.factor());
    if (c.none()) {
      return level
          ? "measure 3" + (many ? " of each" : "")
          : c.factor().equals(MeasuringPlanFactor.ARRAY.word())
              ? "measure placements on boards of every column and row"
              : "measure more placements, spread over the panel";
    }
    double ratio = (c.here() ? t.foundFrom() : t.everythingFoundFrom()) / t.matters();
    if (c.here()) {
      int n = Math.max(c.chosen() + 1, (int) Math.ceil(c.chosen() * ratio * ratio));
      return "measure about " + Math.min(n, c.available()) + (level && many ? " of each" : "");
    }
    int panels = (int) Math.ceil(ratio * ratio);
    if (!(ratio > 0) || panels > MOST_PANELS) {
      return "this panel has too few placements, and measuring more panels does not help within"
          + " reason";
    }
    return "measure "
        + (level ? c.available() == 1 ? "it" : "all " + c.available() : "all placements")
        + " on "
        + Math.max(2, panels)
        + " panels";
  }

  /** True for rotation, scale, squareness and array steps. */
  static boolean linear(String factor) {
    return LINEAR.contains(factor) || factor.equals(MeasuringPlanFactor.ARRAY.word());
  }

  private static boolean level(String factor) {
    return Factor.parse(factor).isPresent();
  }

  private static String what(String factor, boolean many) {
    return Factor.parse(factor).map(f -> (many ? f.nouns() : f.noun()) + " ").orElse("");
  }

  private static String size(double v, String of) {
    return of.isEmpty()
        ? String.format(Locale.ROOT, "%.0f um", 1e3 * v)
        : String.format(Locale.ROOT, "%.2f degrees", v);
  }

  private static String names(Iterable<String> names) {
    List<String> all = new ArrayList<>();
    names.forEach(all::add);
    if (all.size() > NAMED) {
      return String.join(", ", all.subList(0, NAMED - 1))
          + " and "
          + (all.size() - NAMED + 1)
          + " more";
    }
    return all.size() == 1
        ? all.get(0)
        : String.join(", ", all.subList(0, all.size() - 1)) + " and " + all.get(all.size() - 1);
  }

  private static String capital(String s) {
    return s.isEmpty() ? s : Character.toUpperCase(s.charAt(0)) + s.substring(1);
  }

  /** Nozzles, feeders and heads whose parts all sit at one rotation do not tell their frame. */
  private static void oneRotation(List<MeasuringPlanCandidate> all, List<String> s) {
    for (MeasuringPlanFactor f : MeasuringPlanFactor.LEVELS) {
      if (!f.factor().frameOpen()) {
        continue;
      }
      Map<String, TreeSet<Long>> turns = new TreeMap<>();
      for (MeasuringPlanCandidate c : all) {
        String level = f.level(c);
        if (level != null) {
          long turn = Math.floorMod(Math.round(c.pose().rotationDeg()), 360L);
          turns.computeIfAbsent(level, k -> new TreeSet<>()).add(turn);
        }
      }
      turns.values().removeIf(t -> t.size() > 1);
      if (!turns.isEmpty()) {
        boolean many = turns.size() > 1;
        s.add(
            "Whether an offset of "
                + (many ? f.factor().nouns() : f.factor().noun())
                + " "
                + names(turns.keySet())
                + " turns with the part or stays with the panel: "
                + (many ? "each places" : "it places")
                + " at one rotation only; to tell, have "
                + (many ? "them" : "it")
                + " place a part at another rotation.");
      }
    }
  }
}
