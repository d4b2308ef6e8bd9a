package org.padtrue.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.padtrue.panel.Level;
import org.padtrue.plan.MeasuringPlan.PlanAlias;
import org.padtrue.plan.model.MeasuringPlanColumn;
import org.padtrue.plan.model.MeasuringPlanFactor;
import org.padtrue.plan.model.MeasuringPlanModel;
import org.padtrue.plan.model.MeasuringPlanNullSpace;

/**
 * Says in the trade's words what cannot be told apart, and what to measure or change to tell it.
 * Along x and y of the same levels the sentence is the same.
 */
final class MeasuringPlanAliasText {
  private static final int NAMED = 4;

  private MeasuringPlanAliasText() {}

  static List<PlanAlias> of(MeasuringPlanModel model, MeasuringPlanNullSpace space) {
    return space.aliases().stream().map(v -> alias(model.columns(), v)).toList();
  }

  private static PlanAlias alias(List<MeasuringPlanColumn> columns, double[] v) {
    List<MeasuringPlanColumn> all = new ArrayList<>();
    List<MeasuringPlanColumn> plus = new ArrayList<>();
    List<MeasuringPlanColumn> minus = new ArrayList<>();
    for (int i = 0; i < v.length; i++) {
      if (v[i] != 0) {
        all.add(columns.get(i));
        (v[i] > 0 ? plus : minus).add(columns.get(i));
      }
    }
    return new PlanAlias(
        all.stream().map(MeasuringPlanColumn::name).toList(), sentence(all, plus, minus));
  }

  /** The word used in files is too short for a sentence. */
  private static String words(MeasuringPlanColumn c) {
    return switch (c.factor().kind()) {
      case COMMON -> "the offset that all parts share";
      case SHIFT -> "the panel offset";
      case LEVEL -> new Level(c.factor().factor(), c.level()).words();
      default -> c.name();
    };
  }

  private static String sentence(
      List<MeasuringPlanColumn> all,
      List<MeasuringPlanColumn> plus,
      List<MeasuringPlanColumn> minus) {
    if (all.size() == 1) {
      return capital(words(all.get(0))) + " cannot be seen: " + unseen(all.get(0)) + ".";
    }
    if (all.size() == 2) {
      return pair(all.get(0), all.get(1));
    }
    String change = " To tell them apart, " + change(all) + ".";
    if (plus.isEmpty() || minus.isEmpty()) {
      return "What "
          + list(all)
          + " have in common cannot be told from nothing whatever is measured on this panel."
          + change;
    }
    return "What "
        + list(plus)
        + (plus.size() == 1 ? " does" : " do together")
        + " cannot be told from what "
        + list(minus)
        + (minus.size() == 1 ? " does" : " do together")
        + ", whatever is measured on this panel."
        + change;
  }

  private static String unseen(MeasuringPlanColumn c) {
    return switch (c.factor().kind()) {
      case SCALE_X -> "no two placements of this panel differ in x; measure a panel where they do";
      case SCALE_Y, SQUARENESS ->
          "no two placements of this panel differ in y; measure a panel where they do";
      case ROTATION ->
          "all placements of this panel lie in one point; measure one where they do not";
      default -> "no placement of this panel shows it; measure a panel that does";
    };
  }

  private static String pair(MeasuringPlanColumn a, MeasuringPlanColumn b) {
    String because;
    String change;
    if (a.factor() == MeasuringPlanFactor.SHIFT && b.factor() == MeasuringPlanFactor.COMMON) {
      because = ", as every part sits at one rotation";
      change = "measure a panel with parts at other rotations too";
    } else if (a.factor().random() && b.factor().random()) {
      because = ", as they always go together";
      change = change(List.of(a, b));
    } else if (b.factor() == MeasuringPlanFactor.ARRAY) {
      because = ", as on each board only one place shows it";
      change = "measure a panel with placements at both ends of a board";
    } else {
      because = "";
      change = change(List.of(a, b));
    }
    return capital(words(a))
        + " and "
        + words(b)
        + " cannot be told apart on this panel"
        + because
        + ": one trim is enough, given to "
        + words(a)
        + ". To tell them apart, "
        + change
        + ".";
  }

  /** What would separate levels: another pairing; panel terms: other places and rotations. */
  private static String change(List<MeasuringPlanColumn> all) {
    Set<String> kinds = new TreeSet<>();
    String part = "";
    String other = "";
    MeasuringPlanFactor with = MeasuringPlanFactor.LEVELS.get(0);
    for (MeasuringPlanColumn c : all) {
      if (c.factor().part()) {
        part = part.isEmpty() ? c.level() : part;
        kinds.add(c.factor().word());
      } else if (c.factor().random()) {
        with = other.isEmpty() ? c.factor() : with;
        other = other.isEmpty() ? c.level() : other;
        kinds.add(c.factor().word());
      }
    }
    if (!part.isEmpty() && !other.isEmpty()) {
      return "place some "
          + part
          + (with.factor().supplies() ? " from another " : " with another ")
          + with.word()
          + " than "
          + other;
    }
    if (!other.isEmpty() && kinds.size() > 1) {
      return "let " + with.word() + " " + other + " work in another combination";
    }
    return "measure a panel with other places and rotations of parts";
  }

  private static String capital(String s) {
    return Character.toUpperCase(s.charAt(0)) + s.substring(1);
  }

  private static String list(List<MeasuringPlanColumn> columns) {
    List<String> names = columns.stream().map(MeasuringPlanAliasText::words).toList();
    if (names.size() == 1) {
      return names.get(0);
    }
    if (names.size() > NAMED) {
      return String.join(", ", names.subList(0, NAMED - 1))
          + " and "
          + (names.size() - NAMED + 1)
          + " more";
    }
    return String.join(", ", names.subList(0, names.size() - 1))
        + " and "
        + names.get(names.size() - 1);
  }
}
