package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.HistoryOption;
import org.padtrue.cli.option.QuietOption;
import org.padtrue.load.text.TextFile;
import org.padtrue.web.WebServer;
import org.padtrue.web.server.WebOptions;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Local pages for people at the machine. */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    sortOptions = false,
    description = {
      "Serves pages for people who stand at the machine: type in measurements, see what to "
          + "change, measure in pictures, keep the log, watch drift. Works without internet.",
      "Only this machine can reach the pages, unless --listen is given with a pass phrase. "
          + "The pages are plain HTTP: beyond this machine use them on a network that you trust."
    },
    footer = {
      "",
      "Examples:",
      "  padtrue serve",
      "  padtrue serve --workspace line-2 --history line-2.db --port 9000",
      "  padtrue serve --listen 0.0.0.0 --pass-phrase-file phrase.txt"
    })
final class ServeCommand implements Callable<Integer> {
  private static final String VARIABLE = "PADTRUE_PASS_PHRASE";
  private static final int HIGHEST_PORT = 65535;

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Option(
      names = "--workspace",
      paramLabel = "DIR",
      description = "Folder of the pages' jobs and articles. Default: ${DEFAULT-VALUE}.",
      defaultValue = "padtrue-workspace")
  @SuppressWarnings("NullAway.Init")
  private Path workspace;

  @Mixin
  @SuppressWarnings("NullAway.Init")
  private HistoryOption history;

  @Option(
      names = "--port",
      paramLabel = "P",
      description = "Port, 0 for any free one. Default: ${DEFAULT-VALUE}.",
      defaultValue = "8470")
  private int port;

  @Option(
      names = "--listen",
      paramLabel = "ADDRESS",
      description = {
        "Let other machines in at this address of this machine (0.0.0.0: at all of them).",
        "Needs a pass phrase."
      })
  private @Nullable String listen;

  @Option(
      names = "--pass-phrase-file",
      paramLabel = "FILE",
      description = {
        "File whose first line is the pass phrase, 12 characters or more. Without it the"
            + " environment's "
            + VARIABLE
            + " is taken."
      })
  private @Nullable Path passPhraseFile;

  @Mixin private final QuietOption quiet = new QuietOption();

  @Override
  public Integer call() throws InterruptedException {
    if (port < 0 || port > HIGHEST_PORT) {
      throw wrong("--port is " + port + "; expected 0 to " + HIGHEST_PORT);
    }
    PrintWriter err = spec.commandLine().getErr();
    WebServer server =
        WebServer.start(
            options(),
            sentence -> {
              err.println(sentence);
              err.flush();
            });
    Runtime.getRuntime().addShutdownHook(new Thread(server::close, "stop"));
    if (!quiet.given) {
      PrintWriter out = spec.commandLine().getOut();
      out.println("padtrue pages at " + server.address());
      out.println("  workspace " + workspace + ", log " + history.url);
      out.println("  stop with Ctrl+C; everything typed is on disk already");
      out.flush();
    }
    new CountDownLatch(1).await();
    return Main.DONE;
  }

  private WebOptions options() {
    String phrase = passPhrase();
    if (listen == null) {
      // A pass phrase is asked for on this machine too where one is given.
      return new WebOptions(workspace, history.url, WebOptions.LOOPBACK, port, phrase);
    }
    if (phrase == null) {
      throw wrong(
          "--listen lets other machines in and needs a pass phrase; give --pass-phrase-file FILE or"
              + " set "
              + VARIABLE);
    }
    return new WebOptions(workspace, history.url, listen, port, phrase);
  }

  private @Nullable String passPhrase() {
    String phrase =
        passPhraseFile == null
            ? System.getenv(VARIABLE)
            : TextFile.read(passPhraseFile).chars().lines().findFirst().orElse("").strip();
    if (phrase != null && phrase.length() < WebOptions.LEAST_PASS_PHRASE) {
      throw wrong(
          "the pass phrase has "
              + phrase.length()
              + " characters; take "
              + WebOptions.LEAST_PASS_PHRASE
              + " or more");
    }
    return phrase;
  }

  private CommandLine.ParameterException wrong(String sentence) {
    return new CommandLine.ParameterException(spec.commandLine(), sentence);
  }
}
