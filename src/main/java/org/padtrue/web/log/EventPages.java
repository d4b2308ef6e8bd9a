package org.padtrue.web.log;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.LoggedEvent;
import org.padtrue.history.WrittenTime;
import org.padtrue.panel.Factor;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Times;

/** Events of machines, typed on a page: service, a new reel, a nozzle changed. */
public final class EventPages {
  private static final int MOST = 500;

  private final Bench bench;

  public EventPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/log/events", this::page);
    routes.post("/log/events", this::enter);
  }

  private void page(Context ctx) {
    String machine = Fields.query(ctx, "machine");
    List<String> machines = List.of();
    List<LoggedEvent> events = new ArrayList<>();
    if (ArticleLog.exists(bench.historyUrl())) {
      try (ArticleLog log = ArticleLog.openToRead(bench.historyUrl())) {
        machines = log.machines();
        for (String m : machine.isEmpty() ? machines : List.of(machine)) {
          events.addAll(log.events(m));
        }
      }
    }
    List<EventsView.Line> lines =
        events.stream()
            .sorted(Comparator.comparing(LoggedEvent::at).reversed())
            .limit(MOST)
            .map(e -> new EventsView.Line(Times.minute(e.at()), e.machine(), words(e), e.note()))
            .toList();
    bench
        .pages()
        .show(
            ctx, "events", "Events", "log", new EventsView(machines, machine, lines, Times.zone()));
  }

  private static String words(LoggedEvent e) {
    return switch (e.kind()) {
      case "service" ->
          e.level().isEmpty() ? "service" : "service: nozzle " + e.level() + " changed";
      case "reel" -> "new reel of " + e.level();
      default -> e.kind() + " " + e.level();
    };
  }

  private void enter(Context ctx) {
    String machine = Fields.line(ctx, "machine");
    String what = Fields.line(ctx, "what");
    String level = Fields.line(ctx, "level");
    if (machine.isEmpty()) {
      throw Refusal.bad("Write which machine it happened to.");
    }
    if (what.equals("reel") && level.isEmpty()) {
      throw Refusal.bad("Write the part type whose reel was changed.");
    }
    boolean nozzle = what.equals(Factor.NOZZLE.key());
    if (nozzle && level.isEmpty()) {
      throw Refusal.bad("Write which nozzle was changed.");
    }
    // a nozzle that is changed is a service of that nozzle
    if (!nozzle && !what.equals("service") && !what.equals("reel")) {
      throw Refusal.bad("An event is a service, a new reel or a nozzle changed.");
    }
    LoggedEvent e =
        new LoggedEvent(
            machine,
            at(ctx),
            nozzle ? "service" : what,
            what.equals("service") ? "" : level,
            note(ctx));
    try (ArticleLog log = ArticleLog.open(bench.historyUrl())) {
      log.record(e);
    }
    ctx.redirect(
        LogFilter.address("/log/events", java.util.Map.of("machine", machine)),
        HttpStatus.SEE_OTHER);
  }

  private static String note(Context ctx) {
    return Fields.note(ctx, "note");
  }

  /** When; now where nothing was written. */
  static Instant at(Context ctx) {
    String text = Fields.line(ctx, "at") + Fields.line(ctx, "atOffset");
    if (text.isEmpty()) {
      return Instant.now();
    }
    WrittenTime written = Times.read(text);
    Instant t = written.at();
    if (t == null) {
      throw Refusal.bad(written.trouble() + "; " + written.mend() + ".");
    }
    if (t.isAfter(Instant.now().plus(Duration.ofDays(1)))) {
      throw Refusal.bad("'" + text + "' lies ahead; write when it happened.");
    }
    return t;
  }
}
