package org.padtrue.report.record;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.report.json.StoredCheck;
import org.padtrue.report.words.LimitWords;

/**
 * Everything that a first article record says.
 *
 * @param identification what people say about the article
 * @param job the job's name
 * @param side top or bottom
 * @param stage tape, paste or reflowed
 * @param reference measured against lands, fiducials or machine
 * @param acceptanceClass 1, 2 or 3
 * @param limits acceptance limits in use, and what each rests on
 * @param limitSummary the same in one sentence
 * @param articles file names of what was measured
 * @param measuring uncertainty and decision rule
 * @param characteristics the accountability table
 * @param trims corrections that the analysis gives
 * @param check whether they did what was predicted, or null
 * @param moved placements that were moved to make room: deviations from the design
 * @param attachments files that belong to it
 * @param notes what a reader should know
 */
public record FirstArticleRecord(
    Identification identification,
    String job,
    String side,
    String stage,
    String reference,
    int acceptanceClass,
    List<LimitWords.Line> limits,
    String limitSummary,
    List<String> articles,
    Measuring measuring,
    List<Characteristic> characteristics,
    List<TrimLine> trims,
    @Nullable StoredCheck check,
    List<MovedPlacement> moved,
    List<Attachment> attachments,
    List<String> notes) {
  /** What to mind before a record is acted on. */
  public static final List<String> CAUTIONS =
      List.of(
          "Acceptance follows the customer's contract and the current edition of the standard, not"
              + " this program.",
          "The limits are written for soldered joints; before reflow they are a guide.",
          "Change offsets only as a qualified person; a moving gantry needs its interlocks and"
              + " lockout as the maker of the machine says.",
          "Confirm trims on the next article before the batch runs.");

  public FirstArticleRecord {
    limits = List.copyOf(limits);
    articles = List.copyOf(articles);
    characteristics = List.copyOf(characteristics);
    trims = List.copyOf(trims);
    moved = List.copyOf(moved);
    attachments = List.copyOf(attachments);
    notes = List.copyOf(notes);
  }

  /** How many characteristics have a conformity. */
  public int count(Conformity conformity) {
    return (int) characteristics.stream().filter(c -> c.conformity() == conformity).count();
  }

  /** True when the article has more than one panel. */
  public boolean manyPanels() {
    return characteristics.stream().map(Characteristic::panel).distinct().limit(2).count() > 1;
  }
}
