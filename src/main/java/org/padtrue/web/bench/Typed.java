package org.padtrue.web.bench;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.article.StatusWords;
import org.padtrue.panel.Pose;
import org.padtrue.panel.article.FaultKind;
import org.padtrue.quantity.Angles;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.TypedNumbers;

/**
 * One row of the list as a person or a read-out wrote it.
 *
 * @param entry what it says
 * @param remark what is asked about it at once; empty when nothing is
 */
record Typed(Entry entry, String remark) {
  /** A field that the person left as it stands: its value is kept to the last digit. */
  private static final String AS_IT_STANDS = "=";

  /** Farther off a part is seldom placed (common practice). */
  private static final double FAR_MM = 0.5;

  /** Farther round than this the placement is seldom the right one (common practice). */
  private static final double FAR_DEG = 10;

  private static final DateTimeFormatter CLOCK =
      DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

  /**
   * Reads a row.
   *
   * @param place the placement
   * @param x dx, or the measured x when {@code pose}; a text without a unit is in {@code unit}
   * @param y the same along y
   * @param rotation degrees; empty when not measured
   * @param stands what is known of the placement so far, or null
   * @throws Refusal with a sentence on the first field that is wrong
   */
  static Typed of(
      Places.Place place,
      String x,
      String y,
      String rotation,
      LengthUnit unit,
      boolean pose,
      @Nullable Entry stands) {
    if (x.isEmpty() && y.isEmpty() && rotation.isEmpty()) {
      return new Typed(Entry.of(Entry.Kind.CLEARED, place.key(), ""), "");
    }
    Optional<FaultKind> fault =
        Stream.of(x, y, rotation).map(StatusWords::fault).flatMap(Optional::stream).findFirst();
    if (fault.isPresent()) {
      return new Typed(Entry.of(Entry.Kind.LEFT_OUT, place.key(), fault.get().key()), "");
    }
    Pose from = pose ? place.nominal() : new Pose(0, 0, 0);
    double dx = stays(x, stands) ? of(stands).dxMm() : length(x, unit, "x") - from.xMm();
    double dy = stays(y, stands) ? of(stands).dyMm() : length(y, unit, "y") - from.yMm();
    double turn =
        stays(rotation, stands) ? of(stands).dRotationDeg() : angle(rotation, from.rotationDeg());
    return new Typed(
        entry(place, dx, dy, turn, String.join(" ", x, y, rotation, unit.label())),
        remark(dx, dy, turn));
  }

  private static Entry entry(Places.Place place, double dx, double dy, double turn, String text) {
    if (Double.isNaN(dx) && Double.isNaN(dy) && Double.isNaN(turn)) {
      return Entry.of(Entry.Kind.CLEARED, place.key(), "");
    }
    if (Double.isNaN(dx) || Double.isNaN(dy)) {
      throw Refusal.bad(
          (Double.isNaN(dx) ? "x" : "y")
              + " is missing: x and y belong together; nothing was kept.");
    }
    return Entry.measured(place.key(), dx, dy, turn, text);
  }

  private static boolean stays(String text, @Nullable Entry stands) {
    return stands != null && text.equals(AS_IT_STANDS);
  }

  private static Entry of(@Nullable Entry stands) {
    return java.util.Objects.requireNonNull(stands);
  }

  private static double length(String typed, LengthUnit unit, String what) {
    if (typed.isEmpty()) {
      return Double.NaN;
    }
    axis(typed, what, what);
    OptionalDouble v = TypedNumbers.mm(typed, unit);
    return v.orElseThrow(
        () ->
            Refusal.bad(
                "'"
                    + typed
                    + "' in "
                    + what
                    + " is no length; write digits, like 0.025, or a fault, like missing or"
                    + " tombstone."));
  }

  private static double angle(String typed, double nominal) {
    if (typed.isEmpty()) {
      return Double.NaN;
    }
    axis(typed, "rotation", "r");
    double v =
        TypedNumbers.degrees(typed)
            .orElseThrow(
                () -> Refusal.bad("'" + typed + "' in rotation is no angle; write degrees."));
    return nominal == 0 ? v : Angles.wrap(v - nominal);
  }

  /** A read-out that sends its axis must not fill the field of another one. */
  private static void axis(String typed, String what, String letter) {
    String said = TypedNumbers.axis(typed);
    if (!said.isEmpty() && !said.equals(letter)) {
      throw Refusal.bad(
          "'" + typed + "' in " + what + " names another axis; type it into its own field.");
    }
  }

  private static String remark(double dx, double dy, double turn) {
    double size = Math.max(Math.abs(dx), Math.abs(dy));
    if (size > FAR_MM) {
      return "That is "
          + ShownNumbers.number(size, 3)
          + " mm off its place: is the decimal point right, and the placement?";
    }
    return Math.abs(turn) > FAR_DEG
        ? "That is turned by " + ShownNumbers.number(turn, 2) + "\u00b0: is the placement right?"
        : "";
  }

  /** A fault in the words in which it is typed; empty for what is none. */
  static String fault(Entry e) {
    return e.kind() != Entry.Kind.LEFT_OUT
        ? ""
        : e.text().replaceAll("(?<=[a-z])(?=[A-Z])", " ").toLowerCase(Locale.ROOT);
  }

  /** What stands where something else was typed. */
  static String clash(Entry stands) {
    String at = CLOCK.format(stands.at().atZone(ZoneId.systemDefault()));
    if (stands.kind() == Entry.Kind.LEFT_OUT) {
      return "Another page entered "
          + fault(stands)
          + " at "
          + at
          + "; what you typed is not stored.";
    }
    return stands.kind() == Entry.Kind.CLEARED
        ? "Another page withdrew this placement at " + at + "; what you typed is not stored."
        : "Another page entered dx "
            + ShownNumbers.mm(stands.dxMm())
            + ", dy "
            + ShownNumbers.mm(stands.dyMm())
            + (Double.isNaN(stands.dRotationDeg())
                ? ""
                : ", rotation " + ShownNumbers.signed(stands.dRotationDeg(), 4) + "\u00b0")
            + " at "
            + at
            + "; what you typed is not stored.";
  }
}
