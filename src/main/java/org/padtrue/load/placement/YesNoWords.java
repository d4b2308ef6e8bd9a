package org.padtrue.load.placement;

import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/** Words by which placement files say yes, no, and 'not fitted'. */
public final class YesNoWords {
  private static final Set<String> YES =
      Set.of(
          "1",
          "x",
          "y",
          "yes",
          "t",
          "true",
          "ok",
          "on",
          "fit",
          "fitted",
          "populated",
          "populate",
          "place",
          "placed",
          "mount",
          "mounted",
          "assemble",
          "assembled",
          "m",
          "mirror",
          "mirrored",
          "flipped",
          "exclude",
          "excluded");
  private static final Set<String> NO =
      Set.of("0", "n", "no", "f", "false", "off", "-", "none", "not mirrored", "unmirrored");
  private static final Set<String> NOT_FITTED =
      Set.of(
          "dnp",
          "dnf",
          "dni",
          "dnm",
          "dnpl",
          "nofit",
          "no fit",
          "nopop",
          "no pop",
          "unfitted",
          "not fitted",
          "not placed",
          "not populated",
          "not mounted",
          "not assembled",
          "do not fit",
          "do not place",
          "do not populate",
          "do not mount",
          "do not install",
          "do not assemble",
          "exclude from position files",
          "exclude_from_pos_files",
          "exclude_from_pos");
  private static final Pattern WITHIN =
      Pattern.compile(
          "(?:^|[\\s,;/(\\[_])(?:dnp|dnf|dni|dnm|not fitted|do not (?:fit|place|populate"
              + "|mount)|exclude_from_pos_files|exclude_from_pos)(?:$|[\\s,;/)\\]_])");

  private YesNoWords() {}

  private static String norm(String s) {
    return s.trim().toLowerCase(Locale.ROOT);
  }

  public static boolean yes(String s) {
    return YES.contains(norm(s)) || notFittedExactly(s);
  }

  public static boolean no(String s) {
    return NO.contains(norm(s));
  }

  static boolean notFittedExactly(String s) {
    return NOT_FITTED.contains(norm(s));
  }

  /** True when a value, comment or attribute says somewhere that the part is not fitted. */
  static boolean notFittedWithin(String s) {
    return notFittedExactly(s) || WITHIN.matcher(norm(s)).find();
  }
}
