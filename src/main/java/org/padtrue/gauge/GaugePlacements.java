package org.padtrue.gauge;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Job;
import org.padtrue.plan.MeasuringPlanMinimum;
import org.padtrue.plan.model.MeasuringPlanCandidate;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Placements for a gauge study: every part type of the job, spread over boards, rotations and the
 * panel.
 *
 * @param refs names unique in the study: REF, or COLUMN/ROW/REF on a panel of several boards
 * @param sentence what they span, and what is left out
 */
public record GaugePlacements(List<String> refs, String sentence) {
  /** Customary (AIAG, Measurement Systems Analysis). */
  private static final int CUSTOMARY = 10;

  public GaugePlacements {
    refs = List.copyOf(refs);
  }

  /**
   * Chooses.
   *
   * @param job the job
   * @param count how many; null: one of every part type, but at least ten
   * @throws InputException when the job has nothing to read or the count is not positive
   */
  public static GaugePlacements of(Job job, @Nullable Integer count) {
    if (count != null && count < 1) {
      throw new InputException(
          Problem.of(
              "",
              "the number of placements to read is " + count,
              "give a whole number of 1 or more"));
    }
    List<MeasuringPlanCandidate> all = MeasuringPlanCandidate.of(job);
    if (all.isEmpty()) {
      throw new InputException(
          Problem.of(
              "",
              "job '" + job.name() + "' has no placement that can be read",
              "give a placement file with at least one row of the placed side"));
    }
    Set<String> types = new TreeSet<>();
    all.forEach(c -> types.add(c.placement().part()));
    int n = Math.min(all.size(), count == null ? Math.max(CUSTOMARY, types.size()) : count);
    List<Integer> picks = MeasuringPlanMinimum.of(all, f -> f.part() ? n : 0, Integer.MAX_VALUE, n);
    boolean several = job.array().boards().size() > 1;
    List<String> refs = new ArrayList<>();
    Set<String> out = new TreeSet<>(types);
    for (int i : picks) {
      MeasuringPlanCandidate c = all.get(i);
      out.remove(c.placement().part());
      refs.add(several ? c.board() + "/" + c.placement().ref() : c.placement().ref());
    }
    return new GaugePlacements(
        refs,
        out.isEmpty()
            ? refs.size() + " placements span all " + types.size() + " part types of the job."
            : refs.size()
                + " placements span "
                + (types.size() - out.size())
                + " of "
                + types.size()
                + " part types; left out for want of rows: "
                + String.join(", ", out)
                + ".");
  }
}
