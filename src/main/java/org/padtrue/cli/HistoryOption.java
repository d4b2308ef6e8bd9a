package org.padtrue.cli;

import picocli.CommandLine.Option;

/** Where the log is. */
final class HistoryOption {
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
  String url;
}
