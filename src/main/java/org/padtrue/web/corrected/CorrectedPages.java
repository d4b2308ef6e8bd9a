package org.padtrue.web.corrected;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.padtrue.apply.Chosen;
import org.padtrue.apply.CorrectedList;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.load.corrected.CorrectedFileChange;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.panel.TrimKind;
import org.padtrue.problem.InputException;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.server.Downloads;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.ShownNumbers;

/** The corrected placement list: what would change, listed before; then the file itself. */
public final class CorrectedPages {
  private static final int MOST_ROWS = 200;

  private final Bench bench;

  public CorrectedPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/articles/{article}/corrected", this::page);
    routes.get("/articles/{article}/corrected/file", this::file);
  }

  /** What a person asks for. */
  private record Asked(Set<TrimKind> kinds, Chosen chosen, String refs, String types) {
    static Asked of(Context ctx) {
      Set<TrimKind> kinds = EnumSet.noneOf(TrimKind.class);
      for (String k : ctx.queryParams("kind")) {
        kinds.add(
            TrimKind.parse(k)
                .orElseThrow(() -> Refusal.bad("There is no such kind of trim to put in.")));
      }
      String refs = Fields.query(ctx, "refs");
      String types = Fields.query(ctx, "types");
      if (kinds.isEmpty()) {
        kinds.add(TrimKind.PART);
      }
      return new Asked(
          kinds, new Chosen(names(refs, "[\\s,;]+"), names(types, "\\s*[,;]\\s*")), refs, types);
    }

    private static List<String> names(String text, String between) {
      return Arrays.stream(text.split(between)).filter(s -> !s.isBlank()).toList();
    }

    String query() {
      StringBuilder b = new StringBuilder("?");
      kinds.forEach(k -> b.append("kind=").append(k.key()).append('&'));
      return b.append("refs=")
          .append(URLEncoder.encode(refs, StandardCharsets.UTF_8))
          .append("&types=")
          .append(URLEncoder.encode(types, StandardCharsets.UTF_8))
          .toString();
    }
  }

  private StoredAnalysis analysis(BenchArticle a, LoadedJob job) {
    FirstArticleResult r = bench.analyses().result(a, job);
    if (r == null) {
      throw Refusal.bad(String.join(" ", bench.analyses().problems(a, job)));
    }
    return AnalysisJson.stored(r);
  }

  private static CorrectedList list(LoadedJob job, StoredAnalysis analysis, Asked asked) {
    asked.chosen().require(job, "'Placements'", "'Part types'");
    return CorrectedList.of(job, analysis, asked.kinds(), asked.chosen());
  }

  private void page(Context ctx) {
    BenchArticle a = bench.article(ctx);
    JobFolder folder = bench.workspace().job(a.about().job());
    LoadedJob job = folder.load();
    Asked asked = Asked.of(ctx);
    StoredAnalysis analysis = analysis(a, job);
    CorrectedList list = null;
    List<String> problems = List.of();
    try {
      list = list(job, analysis, asked);
    } catch (InputException e) {
      problems =
          JobFolder.sentences(e, folder.folder()).stream().map(CorrectedPages::forPage).toList();
    }
    CorrectedView view = view(a, job, asked, analysis, list, problems);
    bench.pages().show(ctx, "corrected", "Corrected list of " + a.about().name(), "jobs", view);
  }

  /** The rooms name options of the command line; a page has boxes. */
  private static String forPage(String sentence) {
    return PageWords.plain(
        sentence
            .replaceAll("leave '(\\w+)' out of --trims", "untick it here")
            .replace("and leave it out of --trims", "and untick it here"));
  }

  private static List<CorrectedView.Kind> kinds(StoredAnalysis a, Asked asked) {
    List<CorrectedView.Kind> all = new ArrayList<>();
    boolean refused = false;
    for (TrimKind k : TrimKind.values()) {
      boolean listed = a.trims().stream().anyMatch(t -> t.kind().equals(k.key()));
      refused |= k != TrimKind.PLACEMENT && CorrectedList.decision(k, a) == Decision.NOT_ACCEPTED;
      boolean turn = k == TrimKind.ROTATION && CorrectedList.decision(k, a) == Decision.TRIM;
      boolean chosen = asked.kinds().contains(k);
      if (listed || turn || chosen || k == TrimKind.PLACEMENT && refused) {
        all.add(
            new CorrectedView.Kind(
                k.key(),
                k == TrimKind.PLACEMENT
                    ? "what the machine does not accept, placement by placement"
                    : ResultWords.trimKind(k.key()),
                chosen));
      }
    }
    return all;
  }

  /** The page; without a list, of why there is none. */
  private static CorrectedView view(
      BenchArticle a,
      LoadedJob job,
      Asked asked,
      StoredAnalysis analysis,
      @Nullable CorrectedList list,
      List<String> problems) {
    List<CorrectedFileChange> changes = list == null ? List.of() : list.file().changes();
    int shown = Math.min(MOST_ROWS, changes.size());
    return new CorrectedView(
        a.id(),
        a.about().name(),
        a.about().job(),
        name(job),
        kinds(analysis, asked),
        asked.refs(),
        asked.types(),
        asked.query(),
        problems,
        list == null ? "" : summary(job, changes.size()),
        list == null ? List.of() : list.levels().stream().map(CorrectedPages::level).toList(),
        changes.subList(0, shown),
        changes.size() - shown,
        list == null ? List.of() : notes(job, list),
        list == null ? "" : ResultWords.page(CorrectedList.SIGNS),
        list == null ? "" : CorrectedList.CAUTION);
  }

  private static String summary(LoadedJob job, int changes) {
    return changes
        + " of "
        + job.placed().size()
        + " rows of the placed side would change, all else stays as in "
        + name(job)
        + ".";
  }

  private static CorrectedView.Level level(GroupResult g) {
    Xyr v = g.trim().value();
    return new CorrectedView.Level(
        g.named().words(),
        g.frame() + " frame",
        amount(v.x(), 4, " mm"),
        amount(v.y(), 4, " mm"),
        amount(v.rotation(), 3, "\u00b0"),
        g.trim().turn() == 0 ? "" : g.trim().turn() + "\u00b0",
        g.count());
  }

  private static String amount(double v, int decimals, String unit) {
    return Double.isNaN(v) ? "" : ShownNumbers.signed(v, decimals) + unit;
  }

  private static List<String> notes(LoadedJob job, CorrectedList list) {
    List<String> notes = new ArrayList<>();
    if (job.placements().standard().isPresent()) {
      notes.add(
          "Written as a table: ref, part, x, y, rotation, side, value; mm, as seen from the top."
              + " Boards and fiducials stay in "
              + name(job)
              + ".");
    }
    list.undecided()
        .forEach(
            (k, d) ->
                notes.add(
                    ResultWords.trimKind(k.key())
                        + switch (d) {
                          case LEAVE, TRIM -> ": the result leaves it alone.";
                          case CANNOT_TELL -> ": the result cannot tell.";
                          case NOT_ACCEPTED ->
                              ": not accepted by the machine; it can be put in placement by"
                                  + " placement.";
                        }));
    if (!list.originMoves().isEmpty()) {
      notes.add(
          "Turned and stretched about each board's own origin; ADD to the origins too, mm: "
              + String.join(", ", list.originMoves())
              + ".");
    }
    if (!list.forMachine().isEmpty()) {
      notes.add("For the machine: " + String.join(", ", list.forMachine()) + ".");
    }
    return notes;
  }

  private void file(Context ctx) {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    CorrectedList list;
    try {
      list = list(job, analysis(a, job), Asked.of(ctx));
    } catch (InputException e) {
      throw Refusal.bad(forPage(e.problems().get(0).sentence()));
    }
    String name = "corrected-" + name(job);
    if (job.placements().standard().isPresent()) {
      name = name.replaceAll("\\.[^.]*$", "") + ".csv";
    }
    Downloads.send(ctx, name, "application/octet-stream", list.file().bytes());
  }

  /** The placement file's name alone: where the workspace lies is nobody's business. */
  private static String name(LoadedJob job) {
    return String.valueOf(Path.of(job.placements().name()).getFileName());
  }
}
