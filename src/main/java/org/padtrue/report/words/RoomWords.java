package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.room.PlacingOrder;
import org.padtrue.room.RoomGroup;
import org.padtrue.room.RoomMove;
import org.padtrue.room.RoomOptions;
import org.padtrue.room.RoomPair;
import org.padtrue.room.RoomResult;
import org.padtrue.room.RoomSubject;

/** Room in words, for console and page. */
public final class RoomWords {
  /** Before anything is moved. */
  public static final String CAUTION =
      "A moved placement is a deviation from the design: have it approved, and look at the lands of"
          + " the first part placed so. "
          + DriftWords.CAUTIONS.get(0);

  private static final int MOST_GROUPS = 12;
  private static final int MOST_PAIRS = 6;

  private RoomWords() {}

  /** The console's text. */
  public static List<String> lines(RoomResult r, RoomOptions o, RoomSubject head) {
    List<String> out = new ArrayList<>(Wrap.say("ROOM", answer(r, o, head)));
    for (RoomGroup g : r.groups().subList(0, Math.min(MOST_GROUPS, r.groups().size()))) {
      out.addAll(Wrap.say(g.solved() ? "MOVE" : "NO ROOM", TextTable.plain(g.sentence() + ".")));
      out.addAll(table(g, head));
    }
    if (r.groups().size() > MOST_GROUPS) {
      out.add("and " + (r.groups().size() - MOST_GROUPS) + " more groups in room.json");
    }
    for (PlacingOrder p : r.order()) {
      out.addAll(Wrap.say("ORDER", TextTable.plain(p.sentence() + ".")));
    }
    notes(r).forEach(n -> out.addAll(Wrap.say("NOTE", TextTable.plain(n))));
    if (!r.groups().isEmpty()) {
      out.addAll(Wrap.say("NUMBERS", numbers(head)));
      out.addAll(Wrap.say("CAUTION", CAUTION));
    }
    return out;
  }

  /** How many groups, and on what it rests. */
  public static String answer(RoomResult r, RoomOptions o, RoomSubject head) {
    String on =
        head.analysisHash() == null
            ? "as drawn, without scatter"
            : String.format(
                Locale.ROOT,
                "as expected on the next panel with the trims entered, with a probability of %s",
                probability(o.probability()));
    if (r.groups().isEmpty()) {
      return String.format(
          Locale.ROOT, "every pair of neighbours keeps %.3f mm, %s.", o.gapMm(), on);
    }
    long solved = r.groups().stream().filter(RoomGroup::solved).count();
    long moves =
        r.groups().stream().filter(RoomGroup::solved).mapToLong(g -> g.moves().size()).sum();
    long open = r.groups().size() - solved;
    String parted =
        moves + (moves == 1 ? " move parts " : " moves part ") + (open == 0 ? "them" : solved);
    String left = open + (open == 1 ? " has" : " have") + " no room within the limits";
    return String.format(
        Locale.ROOT,
        "%d %s too near (gap of %.3f mm, %s); %s.",
        r.groups().size(),
        r.groups().size() == 1 ? "group of placements stands" : "groups of placements stand",
        o.gapMm(),
        on,
        open == 0 ? parted : solved == 0 ? left : parted + ", " + left);
  }

  /** A probability with as many decimals as it needs. */
  public static String probability(double p) {
    return Double.isNaN(p)
        ? Show.UNKNOWN
        : p > 0 && p < 1e-4
            ? String.format(Locale.ROOT, "%.0e", p)
            : String.format(Locale.ROOT, "%.4f", p).replaceAll("0+$", "").replaceAll("\\.$", "");
  }

  private static List<String> table(RoomGroup g, RoomSubject head) {
    List<String> out = new ArrayList<>();
    if (!g.moves().isEmpty()) {
      TextTable t = new TextTable("  ", "tnnnnn");
      t.row(g.solved() ? "ADD to" : "at most", "x mm", "y mm", "rotation", "margin mm", "then");
      for (RoomMove m : g.moves()) {
        t.row(
            m.key(),
            x(m, head),
            y(m, head),
            rotation(m, head),
            mm(m.margin()),
            mm(m.marginAfter()));
      }
      out.addAll(t.lines());
    }
    TextTable t = new TextTable("  ", "tnnnn");
    t.row("pair", "gap mm", "then", "chance of touching", "then");
    for (RoomPair p : g.pairs().subList(0, Math.min(MOST_PAIRS, g.pairs().size()))) {
      t.row(
          p.a() + " and " + p.b(),
          mm(p.gap()),
          mm(p.gapAfter()),
          probability(p.touching()),
          probability(p.touchingAfter()));
    }
    out.addAll(t.lines());
    if (g.pairs().size() > MOST_PAIRS) {
      out.add("  and " + (g.pairs().size() - MOST_PAIRS) + " more pairs in room.json");
    }
    return out;
  }

  /** x to ADD in the list's own axes, mm. */
  public static String x(RoomMove m, RoomSubject head) {
    return signed(head.signX() * m.x(), 4);
  }

  /** y to ADD in the list's own axes, mm. */
  public static String y(RoomMove m, RoomSubject head) {
    return signed(head.signY() * m.y(), 4);
  }

  /** Rotation to ADD as the list counts it, degrees. */
  public static String rotation(RoomMove m, RoomSubject head) {
    return signed(head.signRotation() * m.rotation(), 2);
  }

  private static String signed(double v, int decimals) {
    String s = String.format(Locale.ROOT, "%+." + decimals + "f", v);
    return s.matches("[+-]0\\.0*") ? "0" : s;
  }

  /** A length, mm. */
  public static String mm(double v) {
    return Double.isNaN(v) ? Show.UNKNOWN : String.format(Locale.ROOT, "%.3f", v);
  }

  /** What could not be looked at. */
  public static List<String> notes(RoomResult r) {
    List<String> out = new ArrayList<>();
    if (!r.withoutOutline().isEmpty()) {
      out.add(
          "No body and no envelope is known of "
              + String.join(", ", r.withoutOutline())
              + ": their neighbours are judged by nothing.");
    }
    if (!r.notJudged().isEmpty()) {
      out.add(
          "Moved without knowing the lands of "
              + String.join(", ", r.notJudged())
              + ": look whether they still sit on them.");
    }
    return out;
  }

  /** What the numbers are. */
  public static String numbers(RoomSubject head) {
    return "Moves are values to ADD in the placement list's own axes, of an unturned board; gaps"
        + " and margins in mm, negative = overlap and beyond the limit"
        + (head.analysisHash() == null
            ? "; as drawn"
            : "; as expected on the next panel, trims entered")
        + ".";
  }
}
