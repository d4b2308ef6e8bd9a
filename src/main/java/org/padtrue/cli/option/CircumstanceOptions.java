package org.padtrue.cli.option;

import org.jspecify.annotations.Nullable;
import org.padtrue.history.Conditions;
import org.padtrue.history.LoggedArticle;
import picocli.CommandLine.Option;

/**
 * Under what an article was placed; what is not given is unknown, or taken from the corrected one.
 */
public final class CircumstanceOptions {
  public static final String DEFAULT_MACHINE = "M1";

  @Option(
      names = "--machine",
      paramLabel = "M",
      description = "The machine. Default: " + DEFAULT_MACHINE + ".")
  private @Nullable String machine;

  @Option(names = "--shift", paramLabel = "S", description = "The shift: early, late, A ...")
  private @Nullable String shift;

  @Option(names = "--operator", paramLabel = "O", description = "Who measured.")
  private @Nullable String operator;

  @Option(names = "--temperature", paramLabel = "C", description = "Degrees Celsius.")
  private @Nullable Double temperature;

  @Option(names = "--humidity", paramLabel = "PERCENT", description = "Relative humidity.")
  private @Nullable Double humidity;

  @Option(
      names = "--minutes-running",
      paramLabel = "MIN",
      description = "Minutes since the machine was started.")
  private @Nullable Double minutesRunning;

  @Option(
      names = "--placements-since-service",
      paramLabel = "N",
      description = "Placements since the last service.")
  private @Nullable Double placementsSinceService;

  @Option(names = "--note", paramLabel = "TEXT", description = "Free text.")
  private @Nullable String note;

  public String machine(@Nullable LoggedArticle old) {
    return text(machine, old == null ? DEFAULT_MACHINE : old.machine());
  }

  public String note(@Nullable LoggedArticle old) {
    return text(note, old == null ? "" : old.notes());
  }

  public Conditions conditions(Conditions otherwise) {
    return new Conditions(
        text(shift, otherwise.shift()),
        text(operator, otherwise.operator()),
        number(temperature, otherwise.temperatureC()),
        number(humidity, otherwise.humidityPercent()),
        number(minutesRunning, otherwise.minutesRunning()),
        number(placementsSinceService, otherwise.placementsSinceService()));
  }

  private static String text(@Nullable String own, String otherwise) {
    return own == null ? otherwise : own;
  }

  private static double number(@Nullable Double own, double otherwise) {
    return own == null ? otherwise : own;
  }
}
