package org.padtrue.report.record;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.report.json.StoredCheck;
import org.padtrue.report.json.StoredRoom;

/**
 * What goes into a record beside the analysis.
 *
 * @param identification what people say about the article
 * @param coverageFactor k of the expanded uncertainty, above 0; 2 covers about 95 % of a normal
 *     distribution
 * @param rule decision rule
 * @param check whether the trims did what they promised, or null when nobody checked
 * @param room placements that were moved to make room, or null when none was
 * @param attachments files that belong to the record
 */
public record RecordOptions(
    Identification identification,
    double coverageFactor,
    DecisionRule rule,
    @Nullable StoredCheck check,
    @Nullable StoredRoom room,
    List<Attachment> attachments) {
  public RecordOptions {
    if (!(coverageFactor > 0 && coverageFactor <= 10)) {
      throw new IllegalArgumentException(
          "coverageFactor = " + coverageFactor + "; expected (0, 10]");
    }
    attachments = List.copyOf(attachments);
  }

  /** Nothing identified or attached, k = 2, simple acceptance, no check. */
  public static RecordOptions withDefaults() {
    return new RecordOptions(Identification.none(), 2, DecisionRule.SIMPLE, null, null, List.of());
  }

  /** With another identification. */
  public RecordOptions with(Identification i) {
    return new RecordOptions(i, coverageFactor, rule, check, room, attachments);
  }

  /** With another coverage factor. */
  public RecordOptions withCoverageFactor(double k) {
    return new RecordOptions(identification, k, rule, check, room, attachments);
  }

  /** With another decision rule. */
  public RecordOptions with(DecisionRule r) {
    return new RecordOptions(identification, coverageFactor, r, check, room, attachments);
  }

  /** With a check of the trims. */
  public RecordOptions with(@Nullable StoredCheck c) {
    return new RecordOptions(identification, coverageFactor, rule, c, room, attachments);
  }

  /** With placements that were moved. */
  public RecordOptions with(@Nullable StoredRoom moved) {
    return new RecordOptions(identification, coverageFactor, rule, check, moved, attachments);
  }

  /** With these attachments. */
  public RecordOptions withAttachments(List<Attachment> a) {
    return new RecordOptions(identification, coverageFactor, rule, check, room, a);
  }
}
