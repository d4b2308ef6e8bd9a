package org.padtrue.history;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A sign-off as it stands in the log, or the withdrawal of one.
 *
 * @param id its number
 * @param articleId number of the article
 * @param at when it was signed
 * @param recordedBy by which account
 * @param said name, role, note
 * @param withdraws number of the sign-off that it withdraws, or null when it is one itself
 * @param withdrawnBy number of the row that withdraws it, or null while it holds
 */
public record LoggedSignOff(
    long id,
    long articleId,
    Instant at,
    String recordedBy,
    SignOff said,
    @Nullable Long withdraws,
    @Nullable Long withdrawnBy) {

  /** True for a sign-off that nobody has withdrawn. */
  public boolean holds() {
    return withdraws == null && withdrawnBy == null;
  }
}
