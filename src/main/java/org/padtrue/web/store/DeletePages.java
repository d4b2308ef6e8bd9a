package org.padtrue.web.store;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.util.List;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.kept.Trash;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.Times;

/** Deleting jobs and articles, asked once, and taking them back. */
public final class DeletePages {
  private static final String JOBS = "jobs";
  private static final String ARTICLES = "articles";
  private final Bench bench;

  public DeletePages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    for (String kind : List.of(JOBS, ARTICLES)) {
      routes.get("/" + kind + "/{id}/delete", ctx -> ask(ctx, kind));
      routes.post("/" + kind + "/{id}/delete", ctx -> delete(ctx, kind));
      routes.post("/deleted/" + kind + "/{id}/back", ctx -> back(ctx, kind));
    }
    routes.get("/deleted", this::list);
  }

  private DeleteView view(String kind, String id) throws IOException {
    if (kind.equals(JOBS)) {
      JobFolder j = bench.workspace().job(id);
      List<BenchArticle> articles = bench.workspace().articles(id);
      long entries = articles.stream().mapToLong(a -> a.journal().last()).sum();
      return new DeleteView(
          kind,
          id,
          j.name(),
          "the job '" + j.name() + "'",
          articles.isEmpty()
              ? "It has no articles."
              : "Its "
                  + ShownNumbers.count(articles.size(), "article")
                  + ", with what was measured, can be reached again only when the job is taken"
                  + " back.",
          articles.size() + "-" + entries);
    }
    BenchArticle a = bench.workspace().article(id);
    int n = a.measured().size();
    return new DeleteView(
        kind,
        id,
        a.about().name(),
        "the article '" + a.about().name() + "'",
        n == 0
            ? "Nothing is typed in it."
            : n + (n == 1 ? " placement is" : " placements are") + " typed in it.",
        Long.toString(a.journal().last()));
  }

  private void ask(Context ctx, String kind) throws IOException {
    DeleteView v = view(kind, ctx.pathParam("id"));
    bench.pages().show(ctx, "delete", "Delete " + v.name(), JOBS, v);
  }

  private void delete(Context ctx, String kind) throws IOException {
    String id = ctx.pathParam("id");
    Trash trash = bench.workspace().trash();
    if (!trash.has(kind, id)) {
      DeleteView now = view(kind, id);
      if (!now.seen().equals(Fields.line(ctx, "seen"))) {
        throw Refusal.bad(
            "Something was entered there meanwhile, so nothing was deleted. Look at it again.");
      }
      bench.workspace().delete(kind, id);
    }
    // where somebody else was quicker, it is deleted as well
    ctx.redirect("/deleted", HttpStatus.SEE_OTHER);
  }

  private void list(Context ctx) throws IOException {
    List<DeletedView.Line> lines =
        bench.workspace().trash().all().stream()
            .map(
                d ->
                    new DeletedView.Line(
                        d.kind(), d.id(), bench.workspace().name(d), Times.minute(d.at())))
            .toList();
    bench.pages().show(ctx, "deleted", "Deleted", JOBS, new DeletedView(lines, Times.zone()));
  }

  private void back(Context ctx, String kind) throws IOException {
    String id = ctx.pathParam("id");
    bench.workspace().takeBack(kind, id);
    ctx.redirect("/" + kind + "/" + id, HttpStatus.SEE_OTHER);
  }
}
