package org.padtrue.web.log;

import java.util.List;

/**
 * What happened to the machines between articles.
 *
 * @param machines known to the log
 * @param machine whose events are shown; empty for all
 * @param lines newest first
 * @param zone name of the clock
 */
public record EventsView(List<String> machines, String machine, List<Line> lines, String zone) {
  public EventsView {
    machines = List.copyOf(machines);
    lines = List.copyOf(lines);
  }

  /** One event. */
  public record Line(String at, String machine, String what, String note) {}
}
