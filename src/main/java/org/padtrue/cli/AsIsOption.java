package org.padtrue.cli;

import picocli.CommandLine.Option;

/** The answer to every question about articles that look like a mistake. */
final class AsIsOption {
  @Option(
      names = "--as-is",
      description = {
        "What was measured is really so: ask nothing about unit, axes, side, boards, origin.",
        "\"asIs\" in the job keeps single answers."
      })
  boolean given;
}
