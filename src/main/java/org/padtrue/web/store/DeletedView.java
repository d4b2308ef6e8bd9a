package org.padtrue.web.store;

import java.util.List;

/**
 * What was deleted and can be taken back.
 *
 * @param zone name of the clock that times are on
 */
public record DeletedView(List<Line> lines, String zone) {
  /** One job or article. */
  public record Line(String kind, String id, String name, String at) {}

  public DeletedView {
    lines = List.copyOf(lines);
  }
}
