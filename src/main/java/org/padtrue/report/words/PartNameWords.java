package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.load.names.NameMatch;
import org.padtrue.load.names.NameMatch.Level;
import org.padtrue.load.part.PartNames;

/** Says what the names of a list's part types mean in the starter library, for approval. */
public final class PartNameWords {
  private final List<String> lines = new ArrayList<>();
  private final int most;

  private PartNameWords(int most) {
    this.most = most;
  }

  /**
   * One line for each name, a label first.
   *
   * @param most how many names of a kind are shown
   */
  public static List<String> lines(PartNames names, int most) {
    PartNameWords w = new PartNameWords(most);
    w.say("Matched", names.at(Level.SAME_NAME, Level.STANDARD));
    w.say("To confirm", names.at(Level.LIKELY));
    w.say("Inch or mm", names.at(Level.TWO_WAYS));
    w.say("No match", names.at(Level.NONE));
    return w.lines;
  }

  /** Placements by how sure their part type's name is, one line. */
  public static String summary(PartNames names) {
    return count(names.entries())
        + " placements of "
        + names.entries().size()
        + " part types: matched "
        + count(names.at(Level.SAME_NAME, Level.STANDARD))
        + ", to confirm "
        + count(names.at(Level.LIKELY))
        + ", inch or metric "
        + count(names.at(Level.TWO_WAYS))
        + ", no match "
        + count(names.at(Level.NONE));
  }

  private static int count(List<PartNames.Entry> entries) {
    return entries.stream().mapToInt(PartNames.Entry::count).sum();
  }

  private void say(String label, List<PartNames.Entry> entries) {
    for (PartNames.Entry e : entries.subList(0, Math.min(most, entries.size()))) {
      NameMatch m = e.match();
      String what =
          m.level() == Level.TWO_WAYS
              ? String.join(" or ", m.candidates())
              : (m.type().isEmpty() ? "" : "= " + m.type() + "   ") + m.how();
      lines.add(
          String.format(
              Locale.ROOT, "%-11s %-32s %4d x  %s", label, cut(m.name()), e.count(), what));
    }
    if (entries.size() > most) {
      lines.add(
          String.format(Locale.ROOT, "%-11s and %d more names", label, entries.size() - most));
    }
  }

  private static String cut(String name) {
    return name.length() <= 32 ? name : name.substring(0, 29) + "...";
  }
}
