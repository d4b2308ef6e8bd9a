package org.padtrue.report.words;

import java.time.Instant;
import java.time.ZoneId;
import org.padtrue.history.WrittenTime;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Times on the command line and in tables. */
public final class TimeText {
  private TimeText() {}

  /**
   * Reads a time; without a zone it is that of a place's clocks.
   *
   * @param zone the place
   * @param where what the time belongs to, for messages
   * @throws InputException for a time that does not exist there, or exists twice
   */
  public static Instant parse(String text, ZoneId zone, String where) {
    WrittenTime t = WrittenTime.read(text, zone);
    if (t.at() == null) {
      throw new InputException(Problem.of(where, t.trouble(), t.mend()));
    }
    return t.at();
  }

  /** The same in a table. */
  public static Instant parse(String text, ZoneId zone, String file, int line, String column) {
    WrittenTime t = WrittenTime.read(text, zone);
    if (t.at() == null) {
      throw new InputException(new Problem(file, line, column, t.trouble(), t.mend()));
    }
    return t.at();
  }
}
