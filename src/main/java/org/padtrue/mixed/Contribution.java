package org.padtrue.mixed;

import org.jspecify.annotations.Nullable;
import org.padtrue.panel.term.TermFamily;

/**
 * A term that contributes to the deviation of a placement.
 *
 * @param family terms of the panel; null for offsets of a factor's levels
 * @param effect those offsets; null for terms of the panel
 */
public record Contribution(@Nullable TermFamily family, @Nullable FactorEffect effect) {
  /** As in results. */
  public String name() {
    return family != null ? family.key() : effect != null ? effect.source() : "";
  }
}
