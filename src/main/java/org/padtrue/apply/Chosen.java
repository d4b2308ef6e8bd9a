package org.padtrue.apply;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Placement;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Placements that are to be corrected; none named means all.
 *
 * @param refs REF or COLUMN/ROW/REF
 * @param types part types
 */
public record Chosen(List<String> refs, List<String> types) {
  /** Every placement. */
  public static final Chosen ALL = new Chosen(List.of(), List.of());

  public Chosen {
    refs = List.copyOf(refs);
    types = List.copyOf(types);
  }

  /** True when a placement is among them. */
  public boolean has(Placement p, BoardIndex board) {
    boolean ref = refs.isEmpty() || refs.contains(p.ref()) || refs.contains(board + "/" + p.ref());
    return ref && (types.isEmpty() || types.contains(p.part()));
  }

  /**
   * Refuses names that the job does not have.
   *
   * @param refsField where the refs were given, for the sentence
   * @param typesField where the part types were given
   */
  public void require(LoadedJob job, String refsField, String typesField) {
    Set<String> known = new LinkedHashSet<>();
    Set<String> parts = new LinkedHashSet<>();
    for (Placement p : job.job().placements()) {
      known.add(p.ref());
      job.job().array().boards().forEach(b -> known.add(b.index() + "/" + p.ref()));
      parts.add(p.part());
    }
    List<Problem> problems = new ArrayList<>();
    for (String r : refs) {
      if (!known.contains(r)) {
        problems.add(missing(job, refsField, "placement", r));
      } else if (r.contains("/") && !job.wholePanel() && job.job().array().boards().size() > 1) {
        problems.add(
            Problem.of(
                job.placements().name(),
                "the file gives one board for all, so " + r + " has no row of its own",
                "name the ref alone in " + refsField));
      }
    }
    for (String t : types) {
      if (!parts.contains(t)) {
        problems.add(missing(job, typesField, "part type", t));
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
  }

  private static Problem missing(LoadedJob job, String field, String what, String name) {
    return Problem.of(
        job.placements().name(),
        "there is no " + what + " '" + name + "' on the placed side",
        "correct " + field);
  }
}
