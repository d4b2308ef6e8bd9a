package org.padtrue.cli;

import java.io.PrintWriter;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.CommandSpec;

/** Entry point of the program: one command, one exit code. */
@Command(
    name = "padtrue",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "From measured and nominal positions of the first panel of a batch to the numbers to change.",
      "",
      "Start with:  padtrue demo",
      "Your files:  padtrue analyse job.json article.csv --out report",
      "",
      "Change offsets only as a qualified person; a moving gantry needs its interlocks and lockout"
          + " as",
      "the maker says; acceptance follows the customer's contract and the current standard."
    })
public final class Main {
  /** The commands in the order of the help. */
  public static final List<Class<?>> COMMANDS =
      List.of(
          AnalyseCommand.class,
          PlanCommand.class,
          ApplyCommand.class,
          CheckCommand.class,
          RoomCommand.class,
          FirstArticleCommand.class,
          GaugeCommand.class,
          RecordCommand.class,
          DriftCommand.class,
          HistoryCommand.class,
          InspectCommand.class,
          PartsCommand.class,
          CalibrateCommand.class,
          DetectCommand.class,
          ServeCommand.class,
          SchemaCommand.class,
          DemoCommand.class);

  /** Done, whatever the verdict. */
  static final int DONE = 0;

  /** A fault of the program. */
  static final int FAULT = 1;

  /** Wrong usage or bad input. */
  static final int BAD_INPUT = 2;

  private static final int MOST_PROBLEMS = 20;

  /** Constants of an enum as the command line library lists them. */
  private static final Pattern CHOICES = Pattern.compile("\\[[A-Z_]+(, [A-Z_]+)*\\]");

  @CommandLine.Option(
      names = "--debug",
      description = "Show the stack trace of a fault of the program.",
      scope = CommandLine.ScopeType.INHERIT)
  private boolean debug;

  private Main() {}

  /** Runs one command and ends the process with its exit code. */
  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    PrintWriter out = new PrintWriter(System.out, true);
    PrintWriter err = new PrintWriter(System.err, true);
    System.exit(run(args, out, err));
  }

  /** Runs one command; for tests and for {@link #main}. */
  static int run(String[] args, PrintWriter out, PrintWriter err) {
    CommandLine line = new CommandLine(new Main());
    COMMANDS.forEach(c -> add(line, c, args));
    line.setOut(out);
    line.setErr(err);
    line.setUsageHelpWidth(100);
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setColorScheme(CommandLine.Help.defaultColorScheme(Ansi.OFF));
    line.setExecutionExceptionHandler((e, c, r) -> failed(e, c.getErr(), args));
    line.setParameterExceptionHandler((e, a) -> misused(e));
    if (args.length == 0) {
      line.usage(out);
      return BAD_INPUT;
    }
    return line.execute(args);
  }

  /** Adds a command; one that is not called with its name and description alone, to start soon. */
  private static void add(CommandLine line, Class<?> type, String[] args) {
    Command told = type.getAnnotation(Command.class);
    // a file of arguments (@FILE) may name any command
    if (Arrays.stream(args).anyMatch(a -> a.equals(told.name()) || a.startsWith("@"))) {
      line.addSubcommand(type);
      return;
    }
    CommandSpec spec = CommandSpec.create().name(told.name());
    spec.usageMessage().description(told.description());
    line.addSubcommand(new CommandLine(spec));
  }

  private static int misused(CommandLine.ParameterException e) {
    PrintWriter err = e.getCommandLine().getErr();
    err.println(
        "padtrue: "
            + plain(String.valueOf(e.getMessage()))
            + "; see 'padtrue "
            + (e.getCommandLine().getParent() == null
                ? ""
                : e.getCommandLine().getCommandName() + " ")
            + "--help'");
    CommandLine.UnmatchedArgumentException.printSuggestions(e, err);
    return BAD_INPUT;
  }

  /** The library's words for types and choices, as users know and type them. */
  private static String plain(String message) {
    return CHOICES
        .matcher(message)
        .replaceAll(m -> m.group().toLowerCase(Locale.ROOT))
        .replace("is not an int", "is no whole number")
        .replace("is not a double", "is no number");
  }

  private static int failed(Exception e, PrintWriter err, String[] args) {
    if (e instanceof InputException bad) {
      print(bad.problems(), err);
      return BAD_INPUT;
    }
    err.println(
        "padtrue: a fault of the program, not of your files: "
            + e.getClass().getSimpleName()
            + (e.getMessage() == null ? "" : ": " + e.getMessage())
            + "; run it again with --debug and report what it prints");
    if (Arrays.asList(args).contains("--debug")) {
      e.printStackTrace(err);
    }
    return FAULT;
  }

  private static void print(List<Problem> problems, PrintWriter err) {
    problems.stream().limit(MOST_PROBLEMS).forEach(p -> err.println(p.sentence()));
    if (problems.size() > MOST_PROBLEMS) {
      err.println("and " + (problems.size() - MOST_PROBLEMS) + " more");
    }
  }
}
