package org.padtrue.load.article;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;
import org.padtrue.panel.Unplaced;
import org.padtrue.panel.Unplaced.Reason;

/**
 * Measured refs that nothing is placed for: one sentence a ref, however many rows it has, and one
 * in all where many are not placed for the same reason.
 */
final class RefsNotPlaced {
  private static final int MANY = 5;
  private static final int SHOWN = 3;

  private final RefIndex refs;
  private final Map<String, List<Integer>> unlisted = new LinkedHashMap<>();
  private final Map<Reason, Map<Unplaced, List<Integer>>> unplaced = new EnumMap<>(Reason.class);

  RefsNotPlaced(RefIndex refs) {
    this.refs = refs;
  }

  /** Takes a row in. */
  void add(MeasuredRow r) {
    Optional<Unplaced> left = refs.unplaced(r.ref());
    (left.isEmpty()
            ? unlisted.computeIfAbsent(r.ref(), k -> new ArrayList<>())
            : unplaced
                .computeIfAbsent(left.get().reason(), k -> new LinkedHashMap<>())
                .computeIfAbsent(left.get(), k -> new ArrayList<>()))
        .add(r.line());
  }

  /**
   * Says which refs are not listed.
   *
   * @param unlisted lines by ref
   * @param clause what is said of a ref
   * @param column the header of the refs
   */
  static void tell(
      Map<String, List<Integer>> unlisted,
      String clause,
      RefIndex refs,
      ProblemList problems,
      String column) {
    unlisted.forEach(
        (ref, lines) ->
            problems.add(
                lines.get(0),
                column,
                TextPieces.quoted(ref) + clause + rows(lines),
                refs.advice(ref, !problems.many())));
  }

  /**
   * Says what was found.
   *
   * @param column the header of the refs
   */
  void tell(ProblemList problems, String column) {
    tell(unlisted, " is not among the placements", refs, problems, column);
    unplaced.forEach(
        (reason, of) -> {
          if (of.size() >= MANY) {
            problems.add(
                of.values().iterator().next().get(0),
                column,
                of.size()
                    + " refs ("
                    + TextPieces.list(of.keySet().stream().map(Unplaced::ref).toList(), SHOWN)
                    + ") "
                    + why(reason, true)
                    + " in the placement file",
                mend(reason, "rows"));
            return;
          }
          of.forEach(
              (u, lines) ->
                  problems.add(
                      lines.get(0),
                      column,
                      TextPieces.quoted(u.ref())
                          + " "
                          + why(reason, false)
                          + " in line "
                          + u.line()
                          + " of the placement file"
                          + rows(lines),
                      mend(reason, lines.size() == 1 ? "row" : "rows")));
        });
  }

  private static String rows(List<Integer> lines) {
    int more = lines.size() - 1;
    return more == 0 ? "" : ", here and in " + more + (more == 1 ? " more row" : " more rows");
  }

  private static String why(Reason reason, boolean many) {
    return switch (reason) {
      case OTHER_SIDE -> (many ? "are" : "is") + " on the other side";
      case NOT_FITTED -> (many ? "are" : "is") + " marked as not fitted";
      case PARKED -> (many ? "are" : "is") + " parked far off the board";
      case DRAWING -> (many ? "stand" : "stands") + " for no part";
    };
  }

  private static String mend(Reason reason, String rows) {
    return switch (reason) {
      case OTHER_SIDE -> "say \"side\" in the job, or remove the " + rows;
      case PARKED -> "say \"parked\": \"keep\" in the job, or remove the " + rows;
      case DRAWING -> "say \"drawings\": \"keep\" in the job, or remove the " + rows;
      case NOT_FITTED -> "correct the placement file or remove the " + rows;
    };
  }
}
