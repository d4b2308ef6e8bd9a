package org.padtrue.load.placement;

import java.util.BitSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.padtrue.panel.Fiducial;

/**
 * Tells rows that stand for no part: fiducials, drawings, holes, bare copper, and placeholders that
 * nobody has named. Many programs list them, often under one name many times; nobody places or
 * measures them.
 *
 * <p>Only clear words count (common practice, from memory), so that no part is left out for its
 * name alone; a job that says {@code "drawings": "keep"} places them all the same.
 */
public final class Drawings {
  private static final Pattern PLACEHOLDER =
      Pattern.compile(
          "(?:.*\\*\\*|\\*|\\?+|[A-Z]{1,4}\\?+|~|-+|_\\d*"
              + "|\\(?(?:unknown|none|null|no ?ref|no ?name)\\)?)",
          Pattern.CASE_INSENSITIVE);
  private static final Pattern REF_WORDS =
      Pattern.compile(
          "(?:logo|mouse[-_ ]?bites?|mb_?bite|tooling[-_ ]?hole)[-_ ]?\\d*",
          Pattern.CASE_INSENSITIVE);
  private static final Pattern WORDS =
      Pattern.compile(
          "(?:^|[^a-z])(?:logos?|mouse[-_ ]?bites?|break[-_"
              + " ]?away|(?:mounting|tooling|alignment)[-_ ]?holes?|net[-_ ]?ties?|solder[-_"
              + " ]?(?:jumper|bridge)|test[-_ ]?point[-_ ]?(?:tht)?[-_ ]?pads?|test[-_ ]?point[-_"
              + " ]?2pads|v[-_ ]?(?:score|cut)|(?:bar|qr)[-_ ]?codes?|silk[-_"
              + " ]?screen)(?![a-z]{3})",
          Pattern.CASE_INSENSITIVE);

  private final BitSet rows = new BitSet();

  private Drawings() {}

  static Drawings find(List<PlacementRow> rows) {
    Drawings d = new Drawings();
    Map<String, Boolean> parts = new IdentityHashMap<>();
    for (int i = 0; i < rows.size(); i++) {
      PlacementRow r = rows.get(i);
      if (byRef(r.ref()) || parts.computeIfAbsent(r.part(), Drawings::byPart)) {
        d.rows.set(i);
      }
    }
    return d;
  }

  public boolean is(int row) {
    return rows.get(row);
  }

  int count() {
    return rows.cardinality();
  }

  /** True when a ref is no name: {@code G***}, {@code REF**}, {@code (unknown)}, {@code R?}. */
  public static boolean placeholder(String ref) {
    return !plain(ref) && PLACEHOLDER.matcher(ref).matches();
  }

  /** True when a row stands for no part. */
  public static boolean is(String ref, String part) {
    return byRef(ref) || byPart(part);
  }

  private static boolean byRef(String ref) {
    return !plain(ref)
        && (PLACEHOLDER.matcher(ref).matches()
            || REF_WORDS.matcher(ref).matches()
            || Fiducial.isLike(ref, ""));
  }

  private static boolean byPart(String part) {
    return WORDS.matcher(part).find() || Fiducial.isLike("", part);
  }

  /** True for R12 and the like, which nearly all refs are: no pattern need look at them. */
  private static boolean plain(String ref) {
    int n = ref.length();
    return n > 1
        && Character.isDigit(ref.charAt(n - 1))
        && "FfLlMmTt_".indexOf(ref.charAt(0)) < 0
        && Character.isLetter(ref.charAt(0));
  }
}
