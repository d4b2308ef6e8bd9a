package org.padtrue.web.begin;

import io.javalin.http.Context;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.padtrue.apply.EnteredLine;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.web.bench.ArticleAbout;
import org.padtrue.web.bench.ArticleLine;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.bench.PanelKind;
import org.padtrue.web.bench.Workspace;
import org.padtrue.web.kept.Before;
import org.padtrue.web.kept.Entered;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/** Begins articles, and ties them to the one whose trims were entered before. */
public final class Begin {
  private static final int MOST_PANELS = 20;
  private static final int LONGEST_NAME = 60;

  private final Bench bench;

  public Begin(Bench bench) {
    this.bench = bench;
  }

  /** Number of panels that a form asks for: 1 where it asks for none. */
  public static int panels(String text) {
    if (text.isEmpty()) {
      return 1;
    }
    long n = TypedNumbers.whole(text).orElse(0);
    if (n < 1 || n > MOST_PANELS) {
      throw Refusal.bad(
          "'" + text + "' is no number of panels; write one from 1 to " + MOST_PANELS + ".");
    }
    return (int) n;
  }

  /**
   * Begins what a form asks for: its name, which panel it is, and how many panels.
   *
   * @param places to measure on each panel, column/row/ref in walking order
   */
  public BenchArticle of(Context ctx, JobFolder folder, LoadedJob job, List<String> places)
      throws IOException {
    PanelKind kind = kind(ctx);
    String name = Fields.line(ctx, "name");
    List<String> keys = keys(places, panels(Fields.line(ctx, "panels")));
    if (kind == PanelKind.AFTER) {
      BenchArticle first = first(Fields.line(ctx, "first"), folder.id());
      FirstArticleResult decided = decided(first, job);
      return bench
          .workspace()
          .newArticle(
              folder,
              name.isEmpty() ? after(first) : name,
              a -> a.placedAfter(first.id()),
              keys,
              aside -> Before.write(decided, aside));
    }
    UnaryOperator<ArticleAbout> said =
        kind == PanelKind.UNSAID ? UnaryOperator.identity() : a -> a.ofKind(kind);
    Workspace.Extra none = aside -> {};
    String called =
        !name.isEmpty() ? name : kind == PanelKind.MONITORING ? "Monitoring" : "First article";
    return bench.workspace().newArticle(folder, called, said, keys, none);
  }

  /** The places of a list on each of several panels, one panel after the other. */
  static List<String> keys(List<String> places, int panels) {
    List<String> keys = new ArrayList<>();
    for (int p = 1; p <= panels; p++) {
      for (String place : places) {
        keys.add("P" + p + "/" + place);
      }
    }
    return keys;
  }

  /** The panel's kind as a form says it; UNSAID where it says nothing. */
  static PanelKind kind(Context ctx) {
    String said = Fields.line(ctx, "kind");
    return said.isEmpty()
        ? PanelKind.UNSAID
        : PanelKind.parse(said)
            .orElseThrow(() -> Refusal.bad("Say which panel this is: one of the three kinds."));
  }

  /** One more panel after the trims of an article: the same places. */
  BenchArticle next(
      BenchArticle first,
      JobFolder folder,
      LoadedJob job,
      FirstArticleResult decided,
      List<EnteredLine> entered,
      int panels)
      throws IOException {
    return bench
        .workspace()
        .newArticle(
            folder,
            after(first),
            a -> a.placedAfter(first.id()),
            keys(first.listed(job), panels),
            aside -> {
              Before.write(decided, aside);
              Entered.write(aside, entered);
            });
  }

  private static String after(BenchArticle first) {
    String name = first.about().name();
    return (name.length() > LONGEST_NAME ? name.substring(0, LONGEST_NAME) : name)
        + ", trims entered";
  }

  /** Ties an article to the one whose trims were entered before it. */
  void tie(BenchArticle second, String to) throws IOException {
    if (to.equals(second.id())) {
      throw notOther();
    }
    BenchArticle first = first(to, second.about().job());
    LoadedJob job = bench.workspace().job(first.about().job()).load();
    FirstArticleResult decided = decided(first, job);
    second.markKind(PanelKind.UNSAID);
    Entered.forget(second.folder());
    Before.write(decided, second.folder());
    second.placeAfter(first.id());
  }

  private BenchArticle first(String id, String job) {
    if (id.isEmpty()) {
      throw Refusal.bad("Say which article's trims were entered before this panel was placed.");
    }
    BenchArticle first = bench.workspace().article(id);
    if (!first.about().job().equals(job)) {
      throw notOther();
    }
    return first;
  }

  private static Refusal notOther() {
    return Refusal.bad("That is no other article of this job.");
  }

  FirstArticleResult decided(BenchArticle a, LoadedJob job) {
    FirstArticleResult r = bench.analyses().result(a, job);
    if (r == null) {
      throw Refusal.bad(
          "There is no result of " + a.about().name() + " yet, so none of its trims was entered.");
    }
    return r;
  }

  /** The question about a panel of a job that is about to be begun. */
  public WhichView which(String job) throws IOException {
    return new WhichView("", "", job, "", "", others(job, ""));
  }

  /** The question about an article. */
  public WhichView which(BenchArticle a) throws IOException {
    ArticleAbout about = a.about();
    String kind = about.kind() == PanelKind.UNSAID ? "" : about.kind().key();
    return new WhichView(
        a.id(), about.name(), about.job(), kind, about.after(), others(about.job(), a.id()));
  }

  private List<ArticleLine> others(String job, String but) throws IOException {
    List<ArticleLine> out = new ArrayList<>();
    for (BenchArticle o : bench.workspace().articles(job)) {
      if (!o.id().equals(but)) {
        out.add(ArticleLine.of(o));
      }
    }
    return out;
  }
}
