package org.padtrue.cli;

import picocli.CommandLine;

/** Version from the jar's manifest. */
final class Version implements CommandLine.IVersionProvider {
  @Override
  public String[] getVersion() {
    String v = Main.class.getPackage().getImplementationVersion();
    return new String[] {"padtrue " + (v == null ? "(built from source)" : v)};
  }
}
