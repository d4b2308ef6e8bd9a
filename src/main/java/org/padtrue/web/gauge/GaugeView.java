package org.padtrue.web.gauge;

import java.util.List;

/**
 * Gauge studies of a job, and one of them.
 *
 * @param job id of the job
 * @param jobName its name
 * @param studies those of the job, the newest first
 * @param study id of the one shown; empty for none
 * @param sessions of it
 * @param session number of the one shown; 0 for none
 * @param rows of that session; of all sessions on the blank form
 * @param problems why there is no verdict yet
 * @param verdict of the worst axis; empty while there is none
 * @param state fit, conditional or unfit
 * @param sentences what was found
 * @param axes the numbers
 * @param notes what else there is to know
 * @param seen mark of what the session shown holds
 */
public record GaugeView(
    String job,
    String jobName,
    List<Study> studies,
    String study,
    List<Session> sessions,
    int session,
    List<Row> rows,
    List<String> problems,
    String verdict,
    String state,
    List<String> sentences,
    List<Axis> axes,
    List<String> notes,
    String seen) {
  public GaugeView {
    studies = List.copyOf(studies);
    sessions = List.copyOf(sessions);
    rows = List.copyOf(rows);
    problems = List.copyOf(problems);
    sentences = List.copyOf(sentences);
    axes = List.copyOf(axes);
    notes = List.copyOf(notes);
  }

  /** A study in the list. */
  public record Study(String id, String state) {}

  /** One operator reads all placements once. */
  public record Session(int number, String operator, int trial, boolean turned, int read, int of) {}

  /**
   * One reading; numbers in mm and degrees, empty while not read.
   *
   * @param seen what stands on disk
   */
  public record Row(
      int at, int session, String ref, String dx, String dy, String rotation, String seen) {}

  /** What was found along an axis, as standard deviations with their unit. */
  public record Axis(
      String name,
      String repeatability,
      String reproducibility,
      String gauge,
      String part,
      String ofTolerance,
      String ofStudy,
      String verdict) {}
}
