package org.padtrue.history;

import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.padtrue.panel.article.FaultKind;

/**
 * An article to be logged.
 *
 * @param job name of the job
 * @param file name of the article's file
 * @param machine name of the machine
 * @param measuredAt when it was placed and measured
 * @param conditions under what
 * @param stage tape, paste or reflowed
 * @param reference lands, fiducials or machine
 * @param notes free text
 * @param placements what was measured or marked as a fault
 * @param parameters what was fitted
 * @param trims what was entered into the machine since the previous article
 * @param attachments pictures and other files
 */
public record LoggedArticle(
    String job,
    String file,
    String machine,
    Instant measuredAt,
    Conditions conditions,
    String stage,
    String reference,
    String notes,
    List<LoggedPlacement> placements,
    List<LoggedParameter> parameters,
    List<LoggedTrim> trims,
    List<LoggedAttachment> attachments) {
  public LoggedArticle {
    placements = List.copyOf(placements);
    parameters = List.copyOf(parameters);
    trims = List.copyOf(trims);
    attachments = List.copyOf(attachments);
  }

  /** Placements that the article marks as faults, how many of each kind. */
  public Map<FaultKind, Long> faults() {
    Map<FaultKind, Long> of = new EnumMap<>(FaultKind.class);
    placements.forEach(p -> p.fault().ifPresent(k -> of.merge(k, 1L, Long::sum)));
    return of;
  }

  /** Hash by which the same article is recognised, whatever its file is called. */
  public String contentHash() {
    return ContentHash.of(job, placements);
  }
}
