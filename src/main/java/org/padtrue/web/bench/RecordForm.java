package org.padtrue.web.bench;

import java.util.List;

/**
 * What the form that records an article offers.
 *
 * @param machines known to the log
 * @param trimsOf other articles of the job, whose trims may have been entered before this one
 */
public record RecordForm(List<String> machines, List<Source> trimsOf) {
  /** Nothing to choose from. */
  public static final RecordForm PLAIN = new RecordForm(List.of(), List.of());

  public RecordForm {
    machines = List.copyOf(machines);
    trimsOf = List.copyOf(trimsOf);
  }

  /**
   * An article whose result named trims.
   *
   * @param words what of its trims is offered
   * @param chosen true for the article whose trims were entered before this one, as somebody said
   */
  public record Source(String id, String words, boolean chosen) {}
}
