package org.padtrue.history;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One line of the log.
 *
 * @param id number of the article in the log
 * @param contentHash what it contains
 * @param recordedAt when it was recorded
 * @param recordedBy by which account
 * @param measuredAt when it was measured
 * @param machine machine
 * @param job job
 * @param file file name
 * @param stage tape, paste or reflowed
 * @param reference lands, fiducials or machine
 * @param conditions under what
 * @param notes free text
 * @param corrects number of the article that it corrects, or null
 * @param correctedBy number of the article that corrects it, or null when it stands
 * @param reason why it corrects; empty when it does not
 */
public record ArticleEntry(
    long id,
    String contentHash,
    Instant recordedAt,
    String recordedBy,
    Instant measuredAt,
    String machine,
    String job,
    String file,
    String stage,
    String reference,
    Conditions conditions,
    String notes,
    @Nullable Long corrects,
    @Nullable Long correctedBy,
    String reason) {

  /** True when no later row corrects it. */
  public boolean stands() {
    return correctedBy == null;
  }
}
