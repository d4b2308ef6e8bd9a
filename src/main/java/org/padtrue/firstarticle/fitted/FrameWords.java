package org.padtrue.firstarticle.fitted;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.padtrue.firstarticle.result.Alias;
import org.padtrue.mixed.FrameChoice;
import org.padtrue.panel.Factor;
import org.padtrue.panel.LevelColumn;
import org.padtrue.panel.OffsetFrame;
import org.padtrue.quantity.Angles;

/** In which frame offsets act, how that was told, and what would tell it. */
public final class FrameWords {
  private static final String PART = " in the part frame";
  private static final String PANEL = " in the panel frame";

  private FrameWords() {}

  /** What the measurements say about factors that do not act in their usual frame alone. */
  public static List<String> notes(Fits fits) {
    List<String> out = new ArrayList<>();
    for (FrameChoice.Component c : fits.frames().tests()) {
      FrameChoice.Component other = null;
      for (FrameChoice.Component o : fits.frames().tests()) {
        other = o.factor() == c.factor() && o.frame() != c.frame() ? o : other;
      }
      if (!c.kept() || other != null && other.kept() && c.frame() == OffsetFrame.PANEL) {
        continue;
      }
      String said = "offsets by " + c.factor().key() + ": one " + acts(c);
      if (other != null) {
        said += other.kept() ? " and one " + acts(other) : "; none is shown " + acts(other);
      }
      out.add(said);
    }
    return out;
  }

  private static String acts(FrameChoice.Component c) {
    return "that " + c.frame().words() + " (" + NumberWords.p(c.p()) + ")";
  }

  /** Factors, or levels, of which the rotations measured cannot tell the frame. */
  static List<Alias> aliases(Fits fits) {
    List<Alias> out = new ArrayList<>();
    for (Factor name : fits.frames().untold()) {
      LevelColumn f = fits.used().factors().get(name);
      if (f != null) {
        out.add(new Alias(List.of(name.key() + PART, name.key() + PANEL), untold(fits, f)));
      }
    }
    for (Factor name : fits.factors()) {
      LevelColumn f = fits.used().factors().get(name);
      if (f == null || fits.parts(name).size() < 2) {
        continue;
      }
      for (int l = 0; l < f.levels().size(); l++) {
        Set<Long> turns = turns(fits, f, l);
        String level = f.named(l).toString();
        if (turns.size() == 1) {
          out.add(
              new Alias(
                  List.of(level + PART, level + PANEL),
                  level
                      + " was measured at one rotation only ("
                      + degrees(turns)
                      + "), so how much of its offset turns with the part and how much stays with"
                      + " the panel is taken from the others: place or measure parts of "
                      + level
                      + " at another rotation, e.g. "
                      + another(turns)));
        }
      }
    }
    return out;
  }

  private static String untold(Fits fits, LevelColumn f) {
    int most = 0;
    for (int l = 1; l < f.levels().size(); l++) {
      most = f.counts()[l] > f.counts()[most] ? l : most;
    }
    Set<Long> turns = turns(fits, f, most);
    String level = f.named(most).toString();
    return "whether an offset of a "
        + f.factor().key()
        + " turns with the part or stays with the panel cannot be told: no "
        + f.factor().key()
        + " was measured at rotations that differ enough ("
        + level
        + ": "
        + degrees(turns)
        + "); place or measure parts of "
        + level
        + " at another rotation, e.g. "
        + another(turns)
        + "; until then it is taken to be one that "
        + fits.parts(f.factor()).get(0).frame().words();
  }

  private static Set<Long> turns(Fits fits, LevelColumn f, int level) {
    Set<Long> turns = new TreeSet<>();
    for (int i = 0; i < f.level().length; i++) {
      if (f.level()[i] == level) {
        turns.add(Math.round(10 * Angles.wrap(fits.used().theta()[i])));
      }
    }
    return turns;
  }

  private static String degrees(Set<Long> tenths) {
    List<String> out = new ArrayList<>();
    for (long t : tenths) {
      out.add(t % 10 == 0 ? Long.toString(t / 10) : String.format(Locale.ROOT, "%.1f", 0.1 * t));
    }
    return String.join(", ", out) + " degrees";
  }

  private static String another(Set<Long> tenths) {
    long first = tenths.isEmpty() ? 0 : tenths.iterator().next();
    return degrees(Set.of(Math.round(10 * Angles.wrap(0.1 * first + 90))));
  }
}
