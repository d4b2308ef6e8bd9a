package org.padtrue.web.room;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.apply.Chosen;
import org.padtrue.apply.CorrectedList;
import org.padtrue.apply.RoomAnswer;
import org.padtrue.apply.RoomMoves;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.problem.InputException;
import org.padtrue.report.json.StoredRoom;
import org.padtrue.report.page.RoomFigure;
import org.padtrue.report.words.ResultWords;
import org.padtrue.report.words.RoomWords;
import org.padtrue.room.PlacingOrder;
import org.padtrue.room.RoomGroup;
import org.padtrue.room.RoomMove;
import org.padtrue.room.RoomPair;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.kept.Working;
import org.padtrue.web.kept.WorkingView;
import org.padtrue.web.server.Downloads;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Same;
import org.padtrue.web.server.ShownNumbers;

/** Which small moves part neighbours: asked, looked at, saved as a list or as room.json. */
public final class RoomPages {
  private static final Duration SHORT_WAIT = Duration.ofMillis(1500);
  private static final int MOST_GROUPS = 40;
  private static final int MOST_PAIRS = 8;

  private final Bench bench;
  private final Working<RoomAnswer> working = new Working<>();

  public RoomPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/jobs/{job}/room", this::page);
    routes.get("/jobs/{job}/room/room.json", this::json);
    routes.get("/jobs/{job}/room/list", this::list);
  }

  private List<Object> key(LoadedJob job, RoomAsked asked) {
    return asked.article().isEmpty()
        ? List.of(new Same(job), asked)
        : List.of(
            new Same(job), asked, bench.workspace().article(asked.article()).journal().last());
  }

  private RoomAnswer answer(JobFolder j, LoadedJob job, RoomAsked asked) {
    return RoomAnswer.of(job, asked.numbers(), analysed(j, job, asked));
  }

  private RoomAnswer.@Nullable Analysed analysed(JobFolder j, LoadedJob job, RoomAsked asked) {
    if (asked.article().isEmpty()) {
      return null;
    }
    BenchArticle a = bench.workspace().article(asked.article());
    FirstArticleResult r = a.about().job().equals(j.id()) ? bench.analyses().result(a, job) : null;
    if (r == null) {
      throw Refusal.bad(
          "Article " + a.about().name() + " has no result that tells where placements stand.");
    }
    return RoomAnswer.Analysed.of(r);
  }

  private void page(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    RoomAsked asked = RoomAsked.of(ctx);
    RoomAnswer answer = null;
    List<String> problems = List.of();
    try {
      List<Object> key = key(job, asked);
      Optional<RoomAnswer> found = working.within(SHORT_WAIT, key, () -> answer(j, job, asked));
      if (found.isEmpty()) {
        waiting(ctx, j, job, key);
        return;
      }
      answer = found.get();
    } catch (Refusal e) {
      problems = List.of(String.valueOf(e.getMessage()));
    } catch (InputException e) {
      problems = e.problems().stream().map(p -> forPage(p.sentence())).toList();
    }
    bench
        .pages()
        .show(
            ctx,
            "room",
            "Room, " + job.job().name(),
            "jobs",
            view(j, job, asked, answer, problems));
  }

  /** The rooms name options of the command line; a page has fields. */
  private static String forPage(String sentence) {
    return PageWords.plain(
        sentence
            .replace("nearer to each other than --gap", "nearer to each other than the gap")
            .replace("--fix holds both", "both are to stay")
            .replace("out of --fix", "out of those that stay")
            .replace("give a smaller --gap", "ask for a smaller gap")
            .replace("correct --fix", "correct what is to stay")
            .replace("correct --turn", "correct what may be turned"));
  }

  private void waiting(Context ctx, JobFolder j, LoadedJob job, List<Object> key) {
    ctx.header("X-Wait", "yes");
    bench
        .pages()
        .show(
            ctx,
            "working",
            "Room",
            "jobs",
            new WorkingView(
                "Room",
                "/jobs/" + j.id(),
                job.job().name(),
                "Looking for room between neighbours",
                ShownNumbers.count(working.since(key).toSeconds(), "second")));
  }

  private RoomView view(
      JobFolder j, LoadedJob job, RoomAsked asked, @Nullable RoomAnswer r, List<String> problems)
      throws IOException {
    List<RoomView.Source> articles = new ArrayList<>();
    for (BenchArticle a : bench.workspace().articles(j.id())) {
      articles.add(new RoomView.Source(a.id(), a.about().name()));
    }
    List<RoomGroup> all = r == null ? List.of() : r.result().groups();
    int shown = Math.min(MOST_GROUPS, all.size());
    return new RoomView(
        j.id(),
        job.job().name(),
        articles,
        asked.article(),
        asked.gap(),
        asked.probability(),
        asked.max(),
        asked.fix(),
        asked.turn(),
        asked.query(),
        problems,
        r == null ? "" : ResultWords.page(RoomWords.answer(r.result(), r.options(), r.head())),
        r == null ? "" : RoomWords.numbers(r.head()),
        RoomWords.CAUTION,
        r == null ? List.of() : all.subList(0, shown).stream().map(g -> group(g, r)).toList(),
        all.size() - shown,
        r == null ? List.of() : r.result().order().stream().map(PlacingOrder::sentence).toList(),
        r == null ? List.of() : RoomWords.notes(r.result()),
        all.stream().anyMatch(g -> g.solved() && !g.moves().isEmpty()));
  }

  private static RoomView.Group group(RoomGroup g, RoomAnswer r) {
    List<List<String>> moves = new ArrayList<>();
    for (RoomMove m : g.moves()) {
      moves.add(
          List.of(
              m.key(),
              m.part(),
              RoomWords.x(m, r.head()),
              RoomWords.y(m, r.head()),
              RoomWords.rotation(m, r.head()),
              RoomWords.mm(m.margin()),
              RoomWords.mm(m.marginAfter()),
              RoomWords.probability(m.outside()),
              RoomWords.probability(m.outsideAfter())));
    }
    List<List<String>> pairs = new ArrayList<>();
    for (RoomPair p : g.pairs().subList(0, Math.min(MOST_PAIRS, g.pairs().size()))) {
      pairs.add(
          List.of(
              p.a() + " and " + p.b(),
              RoomWords.mm(p.gap()),
              RoomWords.mm(p.gapAfter()),
              RoomWords.probability(p.touching()),
              RoomWords.probability(p.touchingAfter())));
    }
    List<String> names =
        g.moves().isEmpty()
            ? List.of(g.pairs().get(0).a(), g.pairs().get(0).b())
            : g.moves().stream().map(RoomMove::key).toList();
    return new RoomView.Group(
        String.join(", ", names),
        g.solved(),
        ResultWords.page(g.sentence() + "."),
        moves,
        pairs,
        RoomFigure.svg(g, r.items()));
  }

  private void json(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    RoomAsked asked = RoomAsked.of(ctx);
    byte[] json = working.now(key(job, asked), () -> answer(j, job, asked)).json();
    Downloads.send(ctx, "room.json", "application/json", json);
  }

  /** The placement list with the moves of the groups that are solved. */
  private void list(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    LoadedJob job = j.load();
    RoomAsked asked = RoomAsked.of(ctx);
    RoomAnswer r = working.now(key(job, asked), () -> answer(j, job, asked));
    RoomMoves moves = RoomMoves.of(job, StoredRoom.read("room.json", r.json()));
    CorrectedList list = CorrectedList.of(job, null, Set.of(), Chosen.ALL, moves);
    String name = "moved-" + Path.of(job.placements().name()).getFileName();
    if (job.placements().standard().isPresent()) {
      name = name.replaceAll("\\.[^.]*$", "") + ".csv";
    }
    Downloads.send(ctx, name, "application/octet-stream", list.file().bytes());
  }
}
