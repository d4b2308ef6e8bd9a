package org.padtrue.report.json;

import java.util.Optional;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.panel.Factor;

/** The group of a factor's level, if a stored analysis has it. */
public final class StoredGroups {
  private StoredGroups() {}

  public static Optional<GroupResult> of(StoredAnalysis a, Factor factor, String level) {
    return a.groups().stream()
        .filter(g -> g.factor() == factor && g.level().equals(level))
        .findFirst();
  }
}
