package org.padtrue.cli.option;

import picocli.CommandLine.Option;

/** Where the log is. */
public final class HistoryOption {
  static final String DEFAULT = "padtrue-history.db";

  @Option(
      names = "--history",
      paramLabel = "URL",
      description = {
        "The log: a file name, or postgresql://user@host/database for several lines.",
        "Default: ${DEFAULT-VALUE}."
      },
      defaultValue = DEFAULT)
  @SuppressWarnings("NullAway.Init")
  public String url;
}
