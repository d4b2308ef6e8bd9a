package org.padtrue.panel;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What placements are grouped by: each level may have an offset of its own. The order is that of
 * models and reports.
 *
 * <p>A new factor is a line here; its column in files is the {@code load.table.Field} of its key,
 * its trim the {@link TrimKind} of its key, its column in the log that of its key.
 */
public enum Factor {
  PART("part", "part type", Role.TYPE, 0.04),
  NOZZLE("nozzle", "nozzle", Role.TOOL, 0.02),
  FEEDER("feeder", "feeder", Role.SUPPLY, 0.02),
  HEAD("head", "head", Role.CARRIER, 0.02),
  LOT("lot", "lot", Role.MATERIAL, 0.02),
  BOARD("board", "board", Role.PLACE, Double.NaN);

  /** What a level has to do with a placement, of which follow frame, source and words. */
  private enum Role {
    /** What is placed; known of every placement. */
    TYPE("of"),
    /** What holds the part. */
    TOOL("placed by"),
    /** Where the part is taken from. */
    SUPPLY("from"),
    /** Which delivery of the part it is: a part's own property, whatever places it. */
    MATERIAL("from"),
    /** What carries the tool. */
    CARRIER("placed by"),
    /** Where on the panel it is placed; known of every placement. */
    PLACE("on");

    private final String by;

    Role(String by) {
      this.by = by;
    }
  }

  private static final List<Factor> LISTED =
      Arrays.stream(values()).filter(Factor::listed).toList();
  private static final List<Factor> CARRIED =
      Arrays.stream(values()).filter(f -> f.role != Role.PLACE).toList();

  private final String key;
  private final String noun;
  private final Role role;
  private final double spreadMm;

  Factor(String key, String noun, Role role, double spreadMm) {
    this.key = key;
    this.noun = noun;
    this.role = role;
    this.spreadMm = spreadMm;
  }

  /** Its name in files, results and the log. */
  public String key() {
    return key;
  }

  /** Its key. */
  @Override
  public String toString() {
    return key;
  }

  /** Its name for a person: "part type". */
  public String noun() {
    return noun;
  }

  /** The same of several: "part types". */
  public String nouns() {
    return noun + "s";
  }

  /** What a placement has to do with a level of it: "of", "placed by", "from". */
  public String by() {
    return role.by;
  }

  /** The frame in which its offsets act where nothing else is known. */
  public OffsetFrame frame() {
    return role == Role.CARRIER || role == Role.PLACE ? OffsetFrame.PANEL : OffsetFrame.PART;
  }

  /** True when the measurements may show that its offsets act in the other frame, or in both. */
  public boolean frameOpen() {
    return role == Role.TOOL || role == Role.SUPPLY || role == Role.CARRIER;
  }

  /** True when the placement list or the article names its level; a column of files and the log. */
  public boolean listed() {
    return role != Role.TYPE && role != Role.PLACE;
  }

  /** True when parts come from it: in the log a part type's offset stands for its own too. */
  public boolean supplies() {
    return role == Role.SUPPLY || role == Role.MATERIAL;
  }

  /** True when a level may sit turned by 90, 180 or 270 degrees as a whole. */
  public boolean turns() {
    return role == Role.TYPE;
  }

  /** The trim that takes a level's offset out; empty when no machine takes one. */
  public Optional<TrimKind> trim() {
    return TrimKind.parse(key);
  }

  /**
   * How far the offsets of its levels usually differ (one standard deviation per axis), mm: common
   * practice for a machine between small and production size, from memory; NaN where a plan does
   * not count with it.
   */
  public double usualSpreadMm() {
    return spreadMm;
  }

  /** The level of a placement, whatever its board; null when the files do not say. */
  public @Nullable String level(Placement p) {
    return level(p.part(), p.levels(), null);
  }

  /** The level of what was measured; null when the files do not say. */
  public @Nullable String level(Measured m) {
    return level(m.placement().part(), m.levels(), m.board());
  }

  /** The level of a part type with what files list of it, on a board; null when not known. */
  public @Nullable String level(String part, Levels listed, @Nullable BoardIndex board) {
    return switch (role) {
      case TYPE -> part;
      case PLACE -> board == null ? null : board.toString();
      default -> listed.get(this);
    };
  }

  /** The factor of a key. */
  public static Optional<Factor> parse(String key) {
    return Arrays.stream(values()).filter(f -> f.key.equals(key)).findFirst();
  }

  /** Some of them for a person: "part type, nozzle and head". */
  public static String words(List<Factor> factors) {
    List<String> nouns = factors.stream().map(Factor::noun).toList();
    int last = nouns.size() - 1;
    return String.join(", ", nouns.subList(0, last)) + " and " + nouns.get(last);
  }

  /** Those that {@link #listed()}. */
  public static List<Factor> listedOnes() {
    return LISTED;
  }

  /** Those that the files carry, boards left out: what is fitted unless asked otherwise. */
  public static List<Factor> carried() {
    return CARRIED;
  }
}
