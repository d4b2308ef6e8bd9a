package org.padtrue.cli.option;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.report.plot.ink.ChartFormat;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What charts are drawn as. */
public final class ChartsOption {
  /** What may be asked for. */
  public enum Choice {
    SVG,
    PNG,
    NONE
  }

  @Spec(Spec.Target.MIXEE)
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Option(
      names = "--charts",
      paramLabel = "FORMAT",
      split = ",",
      description = {
        "Draw charts as svg (default, what pages show), png, or both: svg,png.",
        "none: no charts, on pages neither."
      })
  private @Nullable List<Choice> choices;

  /** Whether anything was said. */
  public boolean given() {
    return choices != null;
  }

  /** The formats; empty for no charts. */
  public Set<ChartFormat> formats() {
    if (choices == null) {
      return ChartFormat.shown();
    }
    Set<ChartFormat> formats = EnumSet.noneOf(ChartFormat.class);
    for (Choice c : choices) {
      if (c != Choice.NONE) {
        formats.add(c == Choice.SVG ? ChartFormat.SVG : ChartFormat.PNG);
      }
    }
    if (choices.contains(Choice.NONE) && !formats.isEmpty()) {
      throw wrong("--charts says none and a format; give one or the other");
    }
    return formats;
  }

  /** Refuses the option where nothing is drawn. */
  public void refuseWhere(boolean nothingIsDrawn, String why) {
    if (given() && nothingIsDrawn) {
      throw wrong("--charts: " + why);
    }
  }

  private CommandLine.ParameterException wrong(String what) {
    return new CommandLine.ParameterException(spec.commandLine(), what);
  }
}
