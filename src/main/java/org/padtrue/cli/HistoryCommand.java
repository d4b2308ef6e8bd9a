package org.padtrue.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.cli.option.CircumstanceOptions;
import org.padtrue.cli.option.HistoryOption;
import org.padtrue.cli.option.ZoneOption;
import org.padtrue.history.ArticleEntry;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedEvent;
import org.padtrue.report.file.LogExport;
import org.padtrue.report.words.TextTable;
import org.padtrue.report.words.TimeText;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Looks into the log, takes everything out of it, tells it what happened to a machine. */
@Command(
    name = "history",
    mixinStandardHelpOptions = true,
    description = "The log itself: list it, export it, enter a service or a new reel.",
    footer = {
      "",
      "Examples:",
      "  padtrue history list --machine M1",
      "  padtrue history export --csv exported/",
      "  padtrue history export --json exported.json",
      "  padtrue history event --machine M1 --service --note \"axes greased\"",
      "  padtrue history event --machine M1 --reel R0603 --at 2026-03-02T09:30"
    })
final class HistoryCommand implements Runnable {
  private static final int MOST_NOTE = 30;

  @Spec
  @SuppressWarnings("NullAway.Init")
  private CommandSpec spec;

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(), "say what to do: list, export or event");
  }

  @Command(
      name = "list",
      mixinStandardHelpOptions = true,
      description = "Lists the articles in order of time; a corrected one names what replaced it.")
  int list(
      @Mixin HistoryOption history,
      @Option(names = "--machine", paramLabel = "M", description = "Only this machine.")
          @Nullable String machine,
      @Option(names = "--job", paramLabel = "NAME", description = "Only this job.")
          @Nullable String job) {
    PrintWriter out = spec.commandLine().getOut();
    try (ArticleLog log = ArticleLog.openToRead(history.url)) {
      List<ArticleEntry> all = log.articles(machine, job);
      TextTable t = new TextTable("", "nttttnt");
      t.row("no", "measured (UTC)", "machine", "job", "shift", "deg C", "file");
      for (ArticleEntry e : all) {
        t.row(
            Long.toString(e.id()),
            e.measuredAt().toString().replaceFirst(":\\d\\d(\\.\\d+)?Z", "").replace('T', ' '),
            e.machine(),
            cut(e.job()),
            e.conditions().shift(),
            Double.isNaN(e.conditions().temperatureC())
                ? "-"
                : String.format(Locale.ROOT, "%.1f", e.conditions().temperatureC()),
            cut(e.file()) + mark(e));
      }
      t.lines().forEach(out::println);
      out.println(all.size() + (all.size() == 1 ? " article" : " articles"));
    }
    return Main.DONE;
  }

  private static String mark(ArticleEntry e) {
    String s = e.corrects() == null ? "" : " (corrects " + e.corrects() + ": " + e.reason() + ")";
    return e.correctedBy() == null ? s : s + " (corrected by " + e.correctedBy() + ")";
  }

  private static String cut(String s) {
    return s.length() <= MOST_NOTE ? s : s.substring(0, MOST_NOTE - 3) + "...";
  }

  @Command(
      name = "export",
      mixinStandardHelpOptions = true,
      description = "Writes everything in the log: a CSV file for each table, or one JSON file.")
  int export(
      @Mixin HistoryOption history,
      @Option(names = "--csv", paramLabel = "FOLDER", description = "One CSV file for each table.")
          @Nullable Path csv,
      @Option(names = "--json", paramLabel = "FILE", description = "One JSON file.")
          @Nullable Path json) {
    if (csv == null && json == null) {
      throw new CommandLine.ParameterException(
          spec.subcommands().get("export"), "give --csv FOLDER or --json FILE");
    }
    PrintWriter out = spec.commandLine().getOut();
    try (ArticleLog log = ArticleLog.openToRead(history.url)) {
      if (csv != null) {
        LogExport.csv(log, csv).forEach(p -> out.println("wrote " + p));
      }
      if (json != null) {
        LogExport.json(log, json).forEach(p -> out.println("wrote " + p));
      }
    }
    return Main.DONE;
  }

  @Command(
      name = "event",
      mixinStandardHelpOptions = true,
      description = "Enters what happened to a machine, so that a step after it is no riddle.")
  int event(
      @Mixin HistoryOption history,
      @Option(
              names = "--machine",
              paramLabel = "M",
              defaultValue = CircumstanceOptions.DEFAULT_MACHINE,
              description = "The machine. Default: ${DEFAULT-VALUE}.")
          String machine,
      @Option(names = "--service", description = "The machine was serviced.") boolean service,
      @Option(
              names = "--reel",
              paramLabel = "PART",
              description = "The reel of this part type was changed.")
          @Nullable String reel,
      @Option(names = "--at", paramLabel = "TIME", description = "When. Default: now.")
          @Nullable String at,
      @Mixin ZoneOption zone,
      @Option(names = "--note", paramLabel = "TEXT", defaultValue = "", description = "Free text.")
          String note) {
    if (service == (reel != null)) {
      throw new CommandLine.ParameterException(
          spec.subcommands().get("event"), "give either --service or --reel PART");
    }
    Instant when = at == null ? Instant.now() : TimeText.parse(at, zone.zone(), "--at");
    String kind = service ? "service" : "reel";
    try (ArticleLog log = ArticleLog.open(history.url)) {
      long id = log.record(new LoggedEvent(machine, when, kind, reel == null ? "" : reel, note));
      spec.commandLine()
          .getOut()
          .println(
              TextTable.plain(
                  "entered as event " + id + ": " + kind + " of machine " + machine + ", " + when));
    }
    return Main.DONE;
  }
}
