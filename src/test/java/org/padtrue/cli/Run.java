package org.padtrue.cli;

import java.io.PrintWriter;
import java.io.StringWriter;

/** One run of the program: what it printed and how it ended. */
record Run(int code, String out, String err) {
  static Run of(Object... args) {
    String[] texts = new String[args.length];
    for (int i = 0; i < texts.length; i++) {
      texts[i] = args[i].toString();
    }
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(texts, new PrintWriter(out, true), new PrintWriter(err, true));
    return new Run(code, out.toString(), err.toString());
  }
}
