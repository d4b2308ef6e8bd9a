package org.padtrue.web.room;

import java.util.List;

/**
 * Room of a job.
 *
 * @param job its id
 * @param jobName its name
 * @param articles articles whose analysis may tell where placements are expected
 * @param article id of the chosen one; empty = as drawn
 * @param gap asked, mm
 * @param probability asked
 * @param max asked, mm
 * @param fix asked
 * @param turn asked
 * @param query the same for an address
 * @param problems why there is no answer
 * @param answer in a sentence
 * @param numbers what the numbers are
 * @param caution before anything is moved
 * @param groups the groups
 * @param more number of groups that are not shown
 * @param order which to place first, one sentence each
 * @param notes what could not be looked at
 * @param moves true when there is a list to save
 */
public record RoomView(
    String job,
    String jobName,
    List<Source> articles,
    String article,
    String gap,
    String probability,
    String max,
    String fix,
    String turn,
    String query,
    List<String> problems,
    String answer,
    String numbers,
    String caution,
    List<Group> groups,
    int more,
    List<String> order,
    List<String> notes,
    boolean moves) {
  public RoomView {
    articles = List.copyOf(articles);
    problems = List.copyOf(problems);
    groups = List.copyOf(groups);
    order = List.copyOf(order);
    notes = List.copyOf(notes);
  }

  /** An article. */
  public record Source(String id, String name) {}

  /**
   * A group.
   *
   * @param title its placements
   * @param solved true when its moves may be entered
   * @param sentence what is the case
   * @param moves rows: placement, part type, x, y, rotation, margin, then, chance outside, then
   * @param pairs rows: pair, gap, then, chance of touching, then
   * @param figure its drawing, markup of the program's own
   */
  public record Group(
      String title,
      boolean solved,
      String sentence,
      List<List<String>> moves,
      List<List<String>> pairs,
      String figure) {
    public Group {
      moves = List.copyOf(moves);
      pairs = List.copyOf(pairs);
    }
  }
}
