package org.padtrue.cli.option;

import picocli.CommandLine.Option;

/** For scripts: the JSON file and nothing else. */
public final class JsonOnlyOption {
  public static final String NO_CHARTS = "with --json-only nothing is drawn; leave one of them out";

  @Option(
      names = "--json-only",
      description =
          "For scripts: write the JSON file alone, no page, no charts, no tables, and print its"
              + " name alone.")
  public boolean given;
}
