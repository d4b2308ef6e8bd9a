package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.padtrue.land.AcceptanceLimits;
import org.padtrue.land.LimitRule;
import org.padtrue.panel.Job;
import org.padtrue.panel.JointKind;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;

/** The acceptance limits that a job is judged by, and what each of them rests on. */
public final class LimitWords {
  private LimitWords() {}

  /**
   * One kind of joint.
   *
   * @param kind in words
   * @param side side overhang allowed
   * @param end end overhang allowed
   * @param standing published, published summary, from memory, common practice or own limit
   * @param source standard and clause
   * @param types part types of the job judged by it
   */
  public record Line(
      String kind, String side, String end, String standing, String source, List<String> types) {}

  /** What the job's part types are judged by, one line a kind of joint. */
  public static List<Line> lines(Job job) {
    Map<JointKind, TreeSet<String>> types = new TreeMap<>();
    for (Placement p : job.placements()) {
      PartType t = job.partType(p.part());
      if (t.tolerance() == null && !t.notJudged()) {
        types.computeIfAbsent(t.kind(), k -> new TreeSet<>()).add(t.name());
      }
    }
    List<Line> lines = new ArrayList<>();
    types.forEach(
        (kind, names) -> {
          LimitRule r = AcceptanceLimits.published().rule(kind, job.acceptanceClass());
          String source = r.source();
          if (source.startsWith(r.standing() + ":")) {
            source = source.substring(r.standing().length() + 1).strip();
          }
          lines.add(
              new Line(kind(kind), side(r), end(r), r.standing(), source, List.copyOf(names)));
        });
    return lines;
  }

  /** One sentence: class, and what the limits rest on. */
  public static String summary(Job job) {
    Map<String, List<String>> kinds = new LinkedHashMap<>();
    for (Line l : lines(job)) {
      kinds.computeIfAbsent(l.standing(), k -> new ArrayList<>()).add(l.kind());
    }
    TreeSet<String> own = new TreeSet<>();
    for (Placement p : job.placements()) {
      PartType t = job.partType(p.part());
      if (t.tolerance() != null) {
        own.add(t.name());
      }
    }
    List<String> parts = new ArrayList<>();
    kinds.forEach((standing, of) -> parts.add(standing + " for " + String.join(", ", of)));
    if (!own.isEmpty()) {
      parts.add("the parts file's own tolerance for " + KeyWords.some(List.copyOf(own), 6));
    }
    return parts.isEmpty()
        ? "No part type of this job has lands or a tolerance, so there is no limit."
        : "Limits: acceptance class "
            + job.acceptanceClass()
            + " (IPC-A-610); "
            + String.join("; ", parts)
            + ". They are written for soldered joints; contract and current edition of the standard"
            + " decide.";
  }

  private static String side(LimitRule r) {
    if (r.kind() == JointKind.BALL) {
      return "centre within " + percent(r.offsetFraction()) + " of the land's diameter";
    }
    String of =
        r.basis() == LimitRule.Basis.LESSER
            ? "of termination or land width, the lesser"
            : "of termination width";
    return percent(r.sideFraction())
        + " "
        + of
        + (Double.isInfinite(r.sideCapMm())
            ? ""
            : String.format(Locale.ROOT, ", at most %s mm", Show.short0(r.sideCapMm(), 3)));
  }

  private static String end(LimitRule r) {
    return r.kind() == JointKind.BALL
        ? ""
        : r.endOverhangMm() == 0
            ? "none"
            : Double.isInfinite(r.endOverhangMm())
                ? "while electrical clearance is kept"
                : Show.short0(r.endOverhangMm(), 3) + " mm";
  }

  private static String percent(double share) {
    return Show.short0(100 * share, 1) + " %";
  }

  private static String kind(JointKind k) {
    return switch (k) {
      case CHIP -> "chips";
      case MELF -> "cylindrical end caps";
      case GULL_WING -> "gull wing leads";
      case J_LEAD -> "J leads";
      case NO_LEAD -> "bottom terminations";
      case BALL -> "balls";
      case THROUGH_HOLE -> "leads in holes";
      case OTHER -> "other terminations";
    };
  }
}
