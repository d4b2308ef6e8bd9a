package org.padtrue.cli.option;

import picocli.CommandLine.Option;

/** For scripts: what went well is not told. */
public final class QuietOption {
  @Option(names = "--quiet", description = "Print nothing but errors.")
  public boolean given;
}
