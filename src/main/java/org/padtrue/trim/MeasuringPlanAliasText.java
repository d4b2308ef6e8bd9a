package org.padtrue.trim;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.trim.MeasuringPlan.PlanAlias;

/** Says in the trade's words what cannot be told apart. */
final class MeasuringPlanAliasText {
  private static final int NAMED = 4;
  private static final String COMMON = "common ";

  private MeasuringPlanAliasText() {}

  static List<PlanAlias> of(MeasuringPlanModel model, MeasuringPlanNullSpace space) {
    return space.aliases().stream().map(v -> alias(model.columns(), v)).toList();
  }

  private static PlanAlias alias(List<MeasuringPlanColumn> columns, double[] v) {
    List<String> names = new ArrayList<>();
    List<String> plus = new ArrayList<>();
    List<String> minus = new ArrayList<>();
    for (int i = 0; i < v.length; i++) {
      if (v[i] != 0) {
        names.add(columns.get(i).name());
        (v[i] > 0 ? plus : minus).add(words(columns.get(i).name()));
      }
    }
    return new PlanAlias(names, sentence(names, plus, minus));
  }

  /** The word used in files is too short for a sentence. */
  private static String words(String name) {
    return name.startsWith(COMMON)
        ? "the offset that all parts share (" + name.substring(COMMON.length()) + ")"
        : name;
  }

  private static String sentence(List<String> names, List<String> plus, List<String> minus) {
    if (names.size() == 1) {
      return words(names.get(0)) + " cannot be seen: no placement of this panel shows it.";
    }
    if (names.size() == 2) {
      boolean oneTurn = names.get(0).startsWith("shift") && names.get(1).startsWith(COMMON);
      return words(names.get(0))
          + " and "
          + words(names.get(1))
          + " cannot be told apart whatever is measured"
          + (oneTurn ? ", as every part sits at one rotation" : "")
          + ": one trim is enough, given to "
          + words(names.get(0))
          + ".";
    }
    if (plus.isEmpty() || minus.isEmpty()) {
      return "What "
          + list(names.stream().map(MeasuringPlanAliasText::words).toList())
          + " have in common cannot be told from nothing whatever is measured.";
    }
    return "What "
        + list(plus)
        + (plus.size() == 1 ? " does" : " do together")
        + " cannot be told from what "
        + list(minus)
        + (minus.size() == 1 ? " does" : " do together")
        + ", whatever is measured.";
  }

  private static String list(List<String> names) {
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
