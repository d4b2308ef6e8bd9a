package org.padtrue.panel.mistake;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;
import org.padtrue.panel.Side;
import org.padtrue.problem.Question;
import org.padtrue.quantity.LengthUnit;

/** What is asked, in words. */
public final class MistakeWords {
  private final String file;
  private final boolean poses;
  private final LengthUnit unit;
  private final Side side;
  private final String x;
  private final String y;

  /**
   * @param file the article
   * @param poses true when it gives poses
   * @param unit the unit in which bare numbers were taken
   * @param side the side that is placed
   */
  public MistakeWords(String file, boolean poses, LengthUnit unit, Side side) {
    this.file = file;
    this.poses = poses;
    this.unit = unit;
    this.side = side;
    x = poses ? "x" : "dx";
    y = poses ? "y" : "dy";
  }

  private Question ask(String key, String found, String mend) {
    return new Question(key, file, found, mend);
  }

  /** A reading that explains the article much better. */
  public Question reading(Reading r) {
    String key = r.kind().key();
    String both = x + " and " + y;
    return switch (r.kind()) {
      case UNIT ->
          ask(
              key,
              both + " look written in " + r.unit().label() + " but were read as " + unit.label(),
              unit == LengthUnit.MM
                  ? "state the unit in the header, as in \"" + x + " (" + r.unit().label() + ")\""
                  : "correct the unit that the article states");
      case SWAPPED -> ask(key, both + " look swapped", "correct the names of the two columns");
      case TURNED_90 ->
          turned(poses ? "90 degrees counter-clockwise" : "90 degrees, one way or the other,");
      case TURNED_180 -> turned("180 degrees");
      case TURNED_270 -> turned("90 degrees clockwise");
      case MIRRORED_X ->
          side == Side.BOTTOM
              ? ask(
                  key,
                  "the bottom looks measured in the panel frame of the top: "
                      + x
                      + " runs the other way",
                  "give " + x + " as seen from the bottom, plus to the right")
              : ask(
                  key,
                  "the panel looks mirrored: "
                      + (poses ? "x runs" : "dx or dy runs")
                      + " the other way",
                  "give "
                      + (poses ? x : "both")
                      + " as seen from the placed side, plus to the right"
                      + (poses ? "" : " and upwards"));
      case MIRRORED_Y ->
          ask(
              key,
              "the panel looks mirrored: " + y + " runs the other way",
              "give " + y + " plus upwards, seen from the placed side");
      case MIRRORED_TURNED ->
          ask(
              key,
              "the panel looks turned and mirrored: x and y are swapped and run the other way",
              "give positions as seen from the placed side, x to the right and y upwards");
      case BOARD_COLUMNS -> boards("columns of boards look counted from the right");
      case BOARD_ROWS -> boards("rows of boards look counted from above");
      case BOARD_BOTH ->
          boards("boards look numbered from the upper right: columns and rows run the other way");
      case BOARD_SWAPPED -> boards("column and row of the boards look swapped");
      case BOARD_FRAME ->
          ask(
              key,
              "x and y look measured from the origin of each board, not of the panel",
              "give positions in the panel frame, or deviations dx, dy");
      case POSES ->
          ask(
              key,
              "dx and dy look like measured positions, not like deviations",
              "name the columns x and y");
      case DEVIATIONS ->
          ask(
              key,
              "x and y look like deviations, not like measured positions",
              "name the columns dx and dy");
      case AS_GIVEN -> throw new IllegalArgumentException("nothing to ask");
    };
  }

  /** Deviations that only say that one of two things is wrong. */
  public Question swappedOrMirrored() {
    return ask(
        Reading.Kind.SWAPPED.key(),
        "dx and dy look swapped, or dx or dy runs the other way, which look alike here",
        "look at the two columns and the axes of what was measured");
  }

  private Question turned(String by) {
    return ask(
        "turned",
        "the panel looks measured turned by " + by + " against the job's panel frame",
        poses
            ? "turn the positions back, or the panel in the job"
            : "give dx and dy along the job's axes");
  }

  private Question boards(String found) {
    return ask("boardNumbers", found, "count columns from the left and rows from below, from 1");
  }

  /** Every row holds the nominal pose. */
  public Question nominal(int rows) {
    return poses
        ? ask(
            "nominalList",
            "all "
                + rows
                + " poses are the nominal ones, so this looks like the placement list and not like"
                + " something measured",
            "give what was measured")
        : ask(
            "nominalList",
            "dx and dy are 0 in all "
                + rows
                + " rows, so this looks like a form that was not filled in",
            "give what was measured and leave cells empty where nothing was");
  }

  /** Deviations that are nominal positions. */
  public Question nominalAsDeviations(int rows) {
    return ask(
        "nominalList",
        "dx and dy hold the nominal position in all "
            + rows
            + " rows, so this looks like the placement list and not like something measured",
        "give measured minus nominal, or measured positions under x and y");
  }

  /** Poses that fit this board nowhere. */
  public Question otherBoard() {
    return ask(
        "otherBoard",
        "the measured positions fit this job's placements nowhere, so this looks like the article"
            + " of another board",
        "give the article of this board, or its job");
  }

  /** Poses that fit the boards only with one shift for all. */
  public Question otherOrigin() {
    return ask(
        "shift",
        "the measured positions lie on the boards only after one shift of all of them, so they look"
            + " measured from another origin",
        "give positions from the job's panel origin, or name the boards in columns column and row");
  }

  /** Rotations counted the other way round. */
  public Question sense() {
    return ask(
        "rotationSense",
        "the measured rotations fit the nominal ones only with the other sense of rotation",
        "give rotations counter-clockwise, or set \"axes\": {\"rotation\": ...} in the job");
  }

  /** A shift that no honest panel needs, mm. */
  public Question shift(double dx, double dy, double body) {
    return ask(
        "shift",
        String.format(
            Locale.ROOT,
            "as given everything sits %+.3f mm in x and %+.3f mm in y from nominal, farther than"
                + " the longest part measured (%s mm)",
            dx,
            dy,
            new BigDecimal(body).round(new MathContext(3)).stripTrailingZeros().toPlainString()),
        poses
            ? "give positions from the job's panel origin"
            : "look at unit, origin and side of what was measured");
  }

  /** A turn that no honest panel needs. */
  public Question turn(double deg) {
    return ask(
        "turned",
        String.format(
            Locale.ROOT, "as given the panel is turned by %+.2f degrees, more than any is", deg),
        "look at the axes of what was measured");
  }

  /** Scales that no honest panel needs. */
  public Question scale(double xPpm, double yPpm) {
    return ask(
        "scale",
        String.format(
            Locale.ROOT,
            "as given the panel is stretched by %+.0f ppm in x and %+.0f ppm in y, more than any"
                + " machine or board",
            xPpm,
            yPpm),
        "look at scale and unit of what was measured");
  }
}
