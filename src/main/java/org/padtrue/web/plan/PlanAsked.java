package org.padtrue.web.plan;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/**
 * What a person asks of a plan, as typed; empty where nothing was.
 *
 * @param count placements to measure
 * @param within wanted standard error, mm
 * @param scatter of one placement, mm
 * @param rotationScatter the same for rotation, degrees
 * @param earlier where the scatter comes from: empty for common practice, {@code log MACHINE}, or
 *     the id of an article
 * @param panels number of panels; empty: one
 */
record PlanAsked(
    String count,
    String within,
    String scatter,
    String rotationScatter,
    String earlier,
    String panels) {
  private static final int LONGEST = 500;
  private static final int MOST = 99_999;

  static PlanAsked of(Function<String, String> field) {
    return new PlanAsked(
        field.apply("count"),
        field.apply("within"),
        field.apply("scatter"),
        field.apply("rotationScatter"),
        field.apply("earlier"),
        field.apply("panels"));
  }

  /** A field of a form or an address, of a limited length. */
  static String clean(@org.jspecify.annotations.Nullable String text, String name) {
    if (text == null) {
      return "";
    }
    if (text.length() > LONGEST) {
      throw Refusal.bad("'" + name + "' holds more than " + LONGEST + " characters.");
    }
    return text.replaceAll("\\p{Cntrl}", " ").strip();
  }

  static PlanAsked query(Context ctx) {
    return of(n -> clean(ctx.queryParam(n), n));
  }

  static PlanAsked form(Context ctx) {
    return of(n -> clean(ctx.formParam(n), n));
  }

  /** Number of placements; 0 when none is asked for. */
  int number() {
    if (count.isEmpty()) {
      return 0;
    }
    if (!count.matches("\\d{1,5}") || Integer.parseInt(count) == 0) {
      throw Refusal.bad(
          "'" + count + "' is no number of placements; write one from 1 to " + MOST + ".");
    }
    return Integer.parseInt(count);
  }

  /** Wanted standard error, mm. */
  OptionalDouble withinMm() {
    if (within.isEmpty()) {
      return OptionalDouble.empty();
    }
    double mm =
        TypedNumbers.mm(within, LengthUnit.MM)
            .orElseThrow(() -> Refusal.bad("'" + within + "' is no length; write mm, like 0.02."));
    if (!(mm > 0)) {
      throw Refusal.bad("The wanted standard error is more than 0 mm.");
    }
    return OptionalDouble.of(mm);
  }

  List<Object> parts() {
    return new ArrayList<>(List.of(count, within, scatter, rotationScatter, earlier));
  }
}
