package org.padtrue.report.json;

import java.util.ArrayList;
import java.util.List;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.firstarticle.result.TrimValue;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Level;

/**
 * Turns of part types in a stored analysis. Files of earlier versions have no {@code turn}: their
 * rotation held turn and rest together (-89.89), and is taken apart here by the type's zero
 * orientation.
 */
final class StoredTurns {
  /** Beyond this a rotation is no small rest: it holds a turn. */
  private static final double REST_DEG = 45;

  private StoredTurns() {}

  /** A level's trim, its turn apart. */
  static TrimValue trim(JsonIn in, Xyr value, int zeroOrientation, Decision d, String reason) {
    if (in.has("turn") || d != Decision.TRIM || zeroOrientation == 0) {
      return new TrimValue(value, turn(in, "turn", 0), d, reason);
    }
    int turn = TrimValue.back(zeroOrientation, 1);
    double rest = TrimValue.rest(value.rotation(), turn);
    return Math.abs(rest) > REST_DEG
        ? new TrimValue(value, d, reason)
        : new TrimValue(new Xyr(value.x(), value.y(), rest), turn, d, reason);
  }

  /** A whole turn; anything but 0, 90, 180 or 270 is refused. */
  static int turn(JsonIn in, String key, int otherwise) {
    int turn = in.whole(key, otherwise);
    if (turn < 0 || turn > 270 || turn % 90 != 0) {
      throw in.bad("'" + key + "' is " + turn + ", expected 0, 90, 180 or 270");
    }
    return turn;
  }

  /** The trim sheet with the turns that its levels have. */
  static List<TrimLine> lines(List<TrimLine> lines, List<GroupResult> groups) {
    List<TrimLine> out = new ArrayList<>(lines);
    for (GroupResult g : groups) {
      if (g.trim().turn() != 0) {
        out.replaceAll(t -> t.addTurn() == 0 && is(t, g) ? apart(t, g.trim()) : t);
      }
    }
    return out;
  }

  private static boolean is(TrimLine t, GroupResult g) {
    return t.kind().equals(g.factor().key())
        && t.where().equals(new Level(Factor.PART, g.level()).words());
  }

  private static TrimLine apart(TrimLine t, TrimValue v) {
    return new TrimLine(
        t.where(),
        t.kind(),
        t.from(),
        t.addX(),
        t.addY(),
        v.value().rotation(),
        v.turn(),
        t.addSquareness(),
        t.unit(),
        t.frame(),
        t.about(),
        t.why(),
        t.effect());
  }
}
