package org.padtrue.web.check;

import java.util.List;
import org.padtrue.apply.EnteredLine;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.server.ShownNumbers;

/**
 * What was entered in the machine before a panel was placed.
 *
 * @param id the article placed with the trims
 * @param name its name
 * @param job id of its job
 * @param firstName the article whose trims they are
 * @param lines of its trim sheet
 */
public record EnteredView(String id, String name, String job, String firstName, List<Line> lines) {
  public EnteredView {
    lines = List.copyOf(lines);
  }

  /**
   * One line of the trim sheet.
   *
   * @param number from 0
   * @param where what was to change
   * @param frame panel or part, in words
   * @param entered true when it was entered
   * @param x value that was added, in the unit below; empty where the line has none
   * @param y the same
   * @param unit of x and y
   * @param rotation degrees
   * @param turn whole turn; -1 where none was proposed
   * @param squareness mrad
   */
  public record Line(
      int number,
      String where,
      String frame,
      boolean entered,
      String x,
      String y,
      String unit,
      String rotation,
      int turn,
      String squareness) {}

  static EnteredView of(
      BenchArticle a, String firstName, List<TrimLine> sheet, List<EnteredLine> entered) {
    return new EnteredView(
        a.id(),
        a.about().name(),
        a.about().job(),
        firstName,
        java.util.stream.IntStream.range(0, sheet.size())
            .mapToObj(i -> line(i, sheet.get(i), entered.get(i)))
            .toList());
  }

  private static Line line(int i, TrimLine t, EnteredLine e) {
    EnteredLine shown = e.entered() ? e : EnteredLine.asProposed(t);
    return new Line(
        i,
        t.where(),
        t.frame() + " frame, " + ResultWords.frame(t.frame()),
        e.entered(),
        ShownNumbers.plain(shown.x()),
        ShownNumbers.plain(shown.y()),
        t.unit().startsWith("ppm") ? "ppm" : "mm",
        ShownNumbers.plain(shown.rotation()),
        t.addTurn() == 0 ? -1 : shown.turn(),
        ShownNumbers.plain(shown.squareness()));
  }
}
