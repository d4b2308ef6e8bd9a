package org.padtrue.panel;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * The levels that files list for a placement: its nozzle, feeder, head, lot. What a file does not
 * say is null.
 */
public final class Levels {
  /** Nothing is said. */
  public static final Levels NONE = new Levels(new @Nullable String[0]);

  private final @Nullable String[] of;

  private Levels(@Nullable String[] of) {
    this.of = of;
  }

  /** What a reader of a file finds. */
  @FunctionalInterface
  public interface Reader<E extends Exception> {
    /** The level of a factor; null when it is not said. */
    @Nullable String level(Factor f) throws E;
  }

  /** All that a reader finds. */
  public static <E extends Exception> Levels read(Reader<E> reader) throws E {
    Levels l = NONE;
    for (Factor f : Factor.listedOnes()) {
      l = l.with(f, reader.level(f));
    }
    return l;
  }

  /** The same with another level of a factor; null for none. */
  public Levels with(Factor f, @Nullable String level) {
    if (!f.listed()) {
      throw new IllegalArgumentException(f.key() + " is no column of files");
    }
    if (level == null && get(f) == null) {
      return this;
    }
    @Nullable String[] next = Arrays.copyOf(of, Factor.values().length);
    next[f.ordinal()] = level;
    return new Levels(next);
  }

  /** The level of a factor; null when it is not said. */
  public @Nullable String get(Factor f) {
    return of.length == 0 ? null : of[f.ordinal()];
  }

  /** These, and others where these say nothing. */
  public Levels or(Levels others) {
    return this == NONE ? others : read(f -> get(f) != null ? get(f) : others.get(f));
  }

  @Override
  public boolean equals(@Nullable Object o) {
    return o instanceof Levels l && Factor.listedOnes().stream().allMatch(f -> same(l, f));
  }

  private boolean same(Levels o, Factor f) {
    String mine = get(f);
    return mine == null ? o.get(f) == null : mine.equals(o.get(f));
  }

  @Override
  public int hashCode() {
    int h = 0;
    for (Factor f : Factor.listedOnes()) {
      String l = get(f);
      h = 31 * h + (l == null ? 0 : l.hashCode());
    }
    return h;
  }

  /** As for messages: "nozzle N2, feeder F1". */
  @Override
  public String toString() {
    return Factor.listedOnes().stream()
        .filter(f -> get(f) != null)
        .map(f -> f.key() + " " + get(f))
        .collect(java.util.stream.Collectors.joining(", "));
  }
}
