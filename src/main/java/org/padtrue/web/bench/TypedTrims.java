package org.padtrue.web.bench;

import java.util.List;
import org.padtrue.history.LoggedTrim;
import org.padtrue.log.SeriesNames;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/** Trims as they are written by hand. */
public final class TypedTrims {
  private TypedTrims() {}

  /** One trim as it is written: "scaleXPpm = -120", "part R0603 x = 0,02". */
  public static List<LoggedTrim> of(String line) {
    int equals = line.lastIndexOf('=');
    String name = equals < 0 ? line : line.substring(0, equals).strip();
    double v =
        equals < 0 ? Double.NaN : TypedNumbers.plain(line.substring(equals + 1)).orElse(Double.NaN);
    String unit = SeriesNames.trimUnit(name).orElse("");
    if (unit.isEmpty() || Double.isNaN(v)) {
      throw Refusal.bad(
          "'"
              + line
              + "' is no trim; write one a line, like shiftX = 0.03, scaleXPpm = -120 or part R0603"
              + " x = 0.02, in mm, degrees, ppm or mrad.");
    }
    SeriesNames.wrong(name, v)
        .ifPresent(
            why -> {
              throw Refusal.bad("'" + line + "' cannot be: " + why + ".");
            });
    return new LoggedTrim(name, unit, v, LoggedTrim.usualScope(name), "").apart();
  }
}
