package org.padtrue.cli.option;

import java.nio.file.Path;
import picocli.CommandLine.Option;

/** Where a report goes. */
public final class ReportFolderOption {
  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Folder for the results. Default: ${DEFAULT-VALUE}.",
      defaultValue = "padtrue-report")
  @SuppressWarnings("NullAway.Init")
  public Path folder;
}
