package org.padtrue.web.result;

import java.util.List;

/**
 * The form by which things are tried out on a result.
 *
 * @param active true when something is tried
 * @param sentences what is tried
 * @param compare numbers as decided and as tried
 * @param switches one for every trim that was decided
 * @param out placements to leave out, as typed
 * @param acceptanceClass chosen class, 0 the job's own
 * @param parts part types whose tolerance may be tried
 * @param part the chosen one
 * @param tolerance as typed, mm
 */
public record WhatIfView(
    boolean active,
    List<String> sentences,
    List<Compared> compare,
    List<Switch> switches,
    String out,
    int acceptanceClass,
    List<String> parts,
    String part,
    String tolerance) {
  public WhatIfView {
    sentences = List.copyOf(sentences);
    compare = List.copyOf(compare);
    switches = List.copyOf(switches);
    parts = List.copyOf(parts);
  }

  /** A trim that can be turned off. */
  public record Switch(String key, String label, boolean on) {}

  /** A number as decided and as tried. */
  public record Compared(String name, String decided, String tried) {}

  static final WhatIfView NONE =
      new WhatIfView(false, List.of(), List.of(), List.of(), "", 0, List.of(), "", "");
}
