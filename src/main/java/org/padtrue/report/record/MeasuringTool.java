package org.padtrue.report.record;

import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What the article was measured with.
 *
 * @param name what it is
 * @param id its number, or null
 * @param calibratedUntil end of its calibration as the user writes it, or null
 * @param measures which characteristics it gave; empty for all
 */
public record MeasuringTool(
    String name,
    @Nullable String id,
    @Nullable String calibratedUntil,
    Set<CharacteristicKind> measures) {
  public MeasuringTool {
    measures = Set.copyOf(measures);
  }

  /** True when it gave a characteristic of that kind. */
  public boolean gave(CharacteristicKind kind) {
    return measures.isEmpty() || measures.contains(kind);
  }
}
