package org.padtrue.cli.option;

import picocli.CommandLine.Option;

/** The answer to every question about articles that look like a mistake. */
public final class AsIsOption {
  @Option(
      names = "--as-is",
      description = {
        "What was measured is really so: ask nothing about unit, axes, side, boards, origin.",
        "\"asIs\" in the job keeps single answers."
      })
  public boolean given;
}
