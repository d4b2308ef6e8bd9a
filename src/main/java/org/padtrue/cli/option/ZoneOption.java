package org.padtrue.cli.option;

import java.time.DateTimeException;
import java.time.ZoneId;
import org.jspecify.annotations.Nullable;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import picocli.CommandLine.Option;

/** Whose clocks a time without a zone is of. */
public final class ZoneOption {
  @Option(
      names = "--zone",
      paramLabel = "ZONE",
      description = {
        "Zone of times that are written without one: Europe/Berlin, +02:00, UTC.",
        "Default: the zone of this computer."
      })
  private @Nullable String zone;

  public ZoneId zone() {
    if (zone == null) {
      return ZoneId.systemDefault();
    }
    try {
      return ZoneId.of(zone.strip());
    } catch (DateTimeException e) {
      throw new InputException(
          Problem.of(
              "--zone", "'" + zone + "' is not a zone", "write it like Europe/Berlin or +02:00"));
    }
  }
}
