package org.padtrue.check;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.padtrue.firstarticle.fitted.ArticleSet;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;
import org.padtrue.panel.Measured;
import org.padtrue.quantity.Angles;

/**
 * Whole turns of part types in a second article, apart from the small rest: what most of a type
 * shows is compared with what the analysis and its trims promise. Modulo symmetry: what looks the
 * same is the same turn.
 */
final class TrimCheckTurns {
  /** How near a rotation must be to a quarter turn to count as one. */
  private static final double NEAR_DEG = 25;

  private final Map<String, GroupResult> types = new HashMap<>();
  private final Map<String, Votes> votes = new LinkedHashMap<>();

  private static final class Votes {
    private final int period;
    private final int[] of = new int[4];
    private int measured;

    Votes(int symmetry) {
      period = 360 / symmetry;
    }

    private int reduced(int turn) {
      return Math.floorMod(turn, period);
    }

    void add(double deg) {
      measured++;
      int q = reduced(Angles.quadrant(deg));
      if (Math.abs(Angles.wrap(deg - q, 360 / period)) <= NEAR_DEG) {
        of[q / 90]++;
      }
    }

    /** The turn that more than half show. */
    OptionalInt most() {
      for (int q = 0; q < 4; q++) {
        if (2 * of[q] > measured) {
          return OptionalInt.of(90 * q);
        }
      }
      return OptionalInt.empty();
    }
  }

  TrimCheckTurns(List<GroupResult> groups, ArticleSet set) {
    for (GroupResult g : groups) {
      if (g.factor() == Factor.PART) {
        types.put(g.level(), g);
      }
    }
    for (int i = 0; i < set.table().size(); i++) {
      Measured m = set.table().rows().get(i);
      int symmetry = set.symmetry()[i];
      Votes v = votes.computeIfAbsent(m.placement().part(), k -> new Votes(symmetry));
      if (!Double.isNaN(m.dRotationDeg())) {
        v.add(m.dRotationDeg());
      }
    }
  }

  private static int trim(GroupResult g) {
    return g.trim().decision() == Decision.TRIM ? g.trim().turn() : 0;
  }

  /** By how much a type is turned beside the promise, degrees; 0 where it does not show. */
  int beside(String part) {
    GroupResult g = types.get(part);
    Votes v = votes.get(part);
    if (g == null || v == null) {
      return 0;
    }
    // one part alone is a turned part, unless the type was to be turned
    OptionalInt seen =
        v.measured < 2 && trim(g) == 0 && g.zeroOrientation() == 0 ? OptionalInt.empty() : v.most();
    return seen.isEmpty() ? 0 : v.reduced(seen.getAsInt() - g.zeroOrientation() - trim(g));
  }

  /** What became of a type's turn. */
  TrimCheckTerm.Turn of(String part, int trim, int zeroOrientation) {
    Votes v = votes.get(part);
    if (v == null) {
      return new TrimCheckTerm.Turn(trim, 0, OptionalInt.empty(), TrimCheckFinding.CANNOT_TELL);
    }
    int promised = v.reduced(zeroOrientation + trim);
    OptionalInt seen = v.most();
    return new TrimCheckTerm.Turn(
        trim,
        promised,
        seen,
        seen.isEmpty()
            ? TrimCheckFinding.CANNOT_TELL
            : finding(v.reduced(seen.getAsInt() - promised), v.reduced(trim), v));
  }

  /** Half a turn entered twice looks like none: the likelier of the two is that it was not. */
  private static TrimCheckFinding finding(int beside, int trim, Votes v) {
    if (beside == 0) {
      return TrimCheckFinding.HELD;
    }
    if (beside == v.reduced(-trim)) {
      return TrimCheckFinding.NOT_ENTERED;
    }
    if (beside == trim) {
      return TrimCheckFinding.ENTERED_TWICE;
    }
    return beside == v.reduced(-2 * trim) ? TrimCheckFinding.WRONG_SIGN : TrimCheckFinding.OTHER;
  }

  /** A sentence about a type that is turned otherwise than before though no turn was trimmed. */
  String untrimmed(String part) {
    GroupResult g = types.get(part);
    int beside = beside(part);
    return g == null || beside == 0 || trim(g) != 0
        ? ""
        : new Level(Factor.PART, part)
            + " is turned by "
            + beside
            + " degrees against the first article, though no turn was trimmed: look at its library";
  }

  /** Part types that were measured. */
  Iterable<String> parts() {
    return votes.keySet();
  }
}
