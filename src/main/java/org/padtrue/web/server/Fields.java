package org.padtrue.web.server;

import io.javalin.http.Context;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;

/** Texts that a form or an address carries: without control characters, of a limited length. */
public final class Fields {
  /** Most characters of a name. */
  static final int NAME = 80;

  /** Most characters of a note. */
  static final int NOTE = 2000;

  private Fields() {}

  /** A line of a form; empty when it was not sent. */
  public static String line(Context ctx, String name) {
    return clean(ctx.formParam(name), name, NAME).replaceAll("\\s+", " ");
  }

  /** A text of a form, line ends kept. */
  public static String note(Context ctx, String name) {
    return clean(ctx.formParam(name), name, NOTE);
  }

  /** A line of the address; empty when it is not there. */
  public static String query(Context ctx, String name) {
    return clean(ctx.queryParam(name), name, NOTE).replaceAll("\\s+", " ");
  }

  private static String clean(@Nullable String text, String name, int most) {
    if (text == null) {
      return "";
    }
    if (text.length() > most) {
      throw Refusal.bad("'" + name + "' holds more than " + most + " characters.");
    }
    return text.replaceAll("\\R", "\n").replaceAll("[\\p{Cntrl}&&[^\n]]", " ").strip();
  }

  /** A number of the log in an address. */
  public static long number(String text, String what) {
    OptionalLong n = TypedNumbers.whole(text);
    return n.orElseThrow(() -> Refusal.notThere("There is no such " + what + " in the log."));
  }

  /** A measured number of a form, a comma taken as decimal sign; NaN when nothing was written. */
  public static double measured(Context ctx, String name, double least, double most) {
    String text = line(ctx, name);
    if (text.isEmpty()) {
      return Double.NaN;
    }
    double v =
        TypedNumbers.plain(text)
            .orElseThrow(
                () -> Refusal.bad("'" + text + "' in " + name + " is no number; write digits."));
    if (!(v >= least && v <= most)) {
      throw Refusal.bad(
          "'"
              + text
              + "' in "
              + name
              + " is beyond "
              + ShownNumbers.number(least, 0)
              + " to "
              + ShownNumbers.number(most, 0)
              + "; correct it or leave it empty.");
    }
    return v;
  }
}
