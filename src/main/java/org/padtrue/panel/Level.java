package org.padtrue.panel;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A level of a factor: one part type, one nozzle.
 *
 * @param factor the factor
 * @param name its name, as files have it
 */
public record Level(Factor factor, String name) implements Comparable<Level> {
  /** As in results and in the log: "part R0603", "nozzle N2". */
  @Override
  public String toString() {
    return factor.key() + " " + name;
  }

  /** The same for a person: "part type R0603". */
  public String words() {
    return factor.noun() + " " + name;
  }

  /** The levels of a placement by factor, those that are known; board null leaves boards out. */
  public static List<Level> of(String part, Levels listed, @Nullable BoardIndex board) {
    List<Level> all = new ArrayList<>();
    for (Factor f : Factor.values()) {
      String level = f.level(part, listed, board);
      if (level != null) {
        all.add(new Level(f, level));
      }
    }
    return all;
  }

  /** The level of a name such as "nozzle N2". */
  public static Optional<Level> parse(String text) {
    int space = text.indexOf(' ');
    return space < 0
        ? Optional.empty()
        : Factor.parse(text.substring(0, space)).map(f -> new Level(f, text.substring(space + 1)));
  }

  @Override
  public int compareTo(Level o) {
    int f = factor.compareTo(o.factor);
    return f != 0 ? f : name.compareTo(o.name);
  }
}
