package org.padtrue.cli;

import java.io.PrintWriter;
import java.io.StringWriter;

/** The program with its arguments, for tests of other packages. */
public final class Program {
  private Program() {}

  /** Runs a command that has to end with exit code 0; its standard output. */
  public static String run(String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(args, new PrintWriter(out, true), new PrintWriter(err, true));
    if (code != 0) {
      throw new AssertionError("exit code " + code + ": " + err);
    }
    return out.toString();
  }
}
