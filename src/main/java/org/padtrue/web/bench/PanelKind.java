package org.padtrue.web.bench;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a measured panel is to its job, in the words in which pages and log call it. */
public enum PanelKind {
  /** Nobody has said; it counts as a first article until somebody does. */
  UNSAID("not said which panel"),
  /** The first of its set-up, or a further one of the same. */
  FIRST("first article"),
  /** Placed after the trims of another article were entered. */
  AFTER("after trims"),
  /** Measured while the batch runs, nothing having been entered for it. */
  MONITORING("monitoring");

  private final String words;

  PanelKind(String words) {
    this.words = words;
  }

  /** For people. */
  public String words() {
    return words;
  }

  /** In forms and files. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The kind of a key; empty for what is none. */
  public static Optional<PanelKind> parse(String key) {
    return Arrays.stream(values()).filter(k -> k.key().equals(key)).findFirst();
  }
}
