package org.padtrue.web.inspect;

import java.util.List;

/**
 * What files were understood to say.
 *
 * @param step of an IPC-2581 file, as typed
 * @param problems what is wrong with them, one sentence each
 * @param files one or two
 * @param differences between the two; empty where there is one
 */
public record InspectView(
    String step, List<String> problems, List<Shown> files, List<Line> differences) {
  /** Before anything is sent. */
  static final InspectView EMPTY = new InspectView("", List.of(), List.of(), List.of());

  public InspectView {
    problems = List.copyOf(problems);
    files = List.copyOf(files);
    differences = List.copyOf(differences);
  }

  /** One file. */
  public record Shown(String name, List<Line> lines) {
    public Shown {
      lines = List.copyOf(lines);
    }
  }

  /**
   * One thing that is said.
   *
   * @param label what it is about; the first of several rows
   * @param rows one or more
   */
  public record Line(String label, List<String> rows) {
    public Line {
      rows = List.copyOf(rows);
    }
  }
}
