package org.padtrue.web.bench;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.stream.Stream;
import org.padtrue.apply.AsEntered;
import org.padtrue.door.Door;
import org.padtrue.firstarticle.ArticleTerms;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.history.ArticleLog;
import org.padtrue.history.Conditions;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedAttachment;
import org.padtrue.history.LoggedTrim;
import org.padtrue.history.WrittenTime;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.log.Recording;
import org.padtrue.log.TrimIncrements;
import org.padtrue.panel.TrimKind;
import org.padtrue.panel.article.Article;
import org.padtrue.problem.InputException;
import org.padtrue.problem.QuestionException;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.web.kept.Before;
import org.padtrue.web.kept.Entered;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.Times;

/**
 * Records an article in work in the log. The form is {@code record-form.jte}; what it posts to
 * {@code /articles/ID/record} leads to the article of the log.
 */
public final class Recorder {
  private static final String MACHINE = "M1";
  private static final String PICTURES_AND_TABLES = "(?i).+\\.(png|jpe?g|tiff?|bmp|webp|csv|txt)";
  private static final double MOST_PLACEMENTS = 1e12;

  private final Bench bench;

  public Recorder(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/articles/{article}/record", this::page);
    routes.post("/articles/{article}/record", this::record);
  }

  /** What the form offers for an article. */
  public RecordForm form(BenchArticle a) throws IOException {
    List<RecordForm.Source> others = new ArrayList<>();
    for (BenchArticle o : bench.workspace().articles(a.about().job())) {
      if (!o.id().equals(a.id())) {
        others.add(source(a, o));
      }
    }
    if (!ArticleLog.exists(bench.historyUrl())) {
      return new RecordForm(List.of(), others);
    }
    try (ArticleLog log = ArticleLog.openToRead(bench.historyUrl())) {
      return new RecordForm(log.machines(), others);
    }
  }

  /** Trims of another article: as they were entered where that is known, else all of them. */
  private static RecordForm.Source source(BenchArticle a, BenchArticle o) {
    String name = o.about().name() + ", " + Times.minute(o.about().begun());
    if (!tied(a, o)) {
      return new RecordForm.Source(o.id(), "all trims of " + name, false);
    }
    int otherwise;
    try {
      otherwise = entered(a).differences().size();
    } catch (InputException e) {
      return new RecordForm.Source(o.id(), "trims of " + name + ", as entered", true);
    }
    String how =
        otherwise == 0
            ? ", as proposed"
            : ", as entered ("
                + ShownNumbers.count(otherwise, "line")
                + " otherwise than proposed)";
    return new RecordForm.Source(o.id(), "trims of " + name + how, true);
  }

  /** True when somebody said that the trims of another article were entered before this one. */
  private static boolean tied(BenchArticle a, BenchArticle other) {
    return a.about().after().equals(other.id()) && Before.in(a.folder());
  }

  /** What was entered in the machine before this article. */
  private static AsEntered entered(BenchArticle a) {
    StoredAnalysis before = Before.read(a.folder());
    return new AsEntered(before, Entered.read(a.folder(), before.trims()));
  }

  private void page(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    RecordView view = new RecordView(a.id(), a.about().name(), form(a));
    bench.pages().show(ctx, "record", "Record " + a.about().name(), "jobs", view);
  }

  private void record(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    Article article = open(a, job);
    ArticleTerms terms = ArticleTerms.of(job.job(), article);
    String machine = Fields.line(ctx, "machine");
    LoggedArticle row =
        Recording.of(
            job.job(),
            article,
            terms,
            new Recording.Circumstances(
                machine.isEmpty() ? MACHINE : machine,
                at(ctx),
                conditions(ctx),
                Fields.note(ctx, "note"),
                trims(ctx, a, job, terms),
                attachments(a)));
    long id;
    try (ArticleLog log = ArticleLog.open(bench.historyUrl())) {
      id = log.record(row);
    }
    ctx.redirect("/log/" + id, HttpStatus.SEE_OTHER);
  }

  /** The article, if nothing is to be asked about it: the log takes no nonsense. */
  private static Article open(BenchArticle a, LoadedJob job) {
    try {
      Article article = a.article(job);
      Door.require(job.job(), List.of(article), job.asIs());
      return article;
    } catch (QuestionException e) {
      throw Refusal.bad(
          JobFolder.plain(List.of(e.question().sentence()), a.folder()).get(0)
              + ". If it is really so, say so where the article's result is shown.");
    }
  }

  private static Instant at(Context ctx) {
    String offset = Fields.line(ctx, "atOffset");
    String text = Fields.line(ctx, "at") + offset;
    Instant now = Instant.now();
    if (text.isEmpty()) {
      return now;
    }
    WrittenTime written = Times.read(text);
    Instant t = written.at();
    if (t == null) {
      throw Refusal.bad(written.trouble() + "; " + written.mend() + ".");
    }
    if (t.isAfter(now.plus(Duration.ofDays(1)))) {
      throw Refusal.bad("'" + text + "' lies ahead; write when the panel was placed.");
    }
    return t;
  }

  private static Conditions conditions(Context ctx) {
    return new Conditions(
        Fields.line(ctx, "shift"),
        Fields.line(ctx, "operator"),
        Fields.measured(ctx, "temperature", -40, 100),
        Fields.measured(ctx, "humidity", 0, 100),
        Fields.measured(ctx, "minutesRunning", 0, 1e7),
        Fields.measured(ctx, "placementsSinceService", 0, MOST_PLACEMENTS));
  }

  /** Trims of another article's result, and those written by hand. */
  private List<LoggedTrim> trims(Context ctx, BenchArticle a, LoadedJob job, ArticleTerms terms) {
    List<LoggedTrim> all = new ArrayList<>();
    String other = Fields.line(ctx, "trimsOf");
    if (!other.isEmpty()) {
      BenchArticle source = bench.workspace().article(other);
      if (!source.about().job().equals(a.about().job()) || source.id().equals(a.id())) {
        throw Refusal.bad("The trims of that article were not meant for this one.");
      }
      String measured =
          Recording.of(
                  job.job(),
                  source.article(job),
                  ArticleTerms.of(job.job(), source.article(job)),
                  new Recording.Circumstances(
                      "", Instant.EPOCH, Conditions.UNKNOWN, "", List.of(), List.of()))
              .contentHash();
      Decided d = decided(a, source, job);
      all.addAll(
          TrimIncrements.of(
              d.batch(),
              d.groups(),
              job.job().array(),
              EnumSet.allOf(TrimKind.class),
              true,
              measured,
              terms));
    }
    for (String line : Fields.note(ctx, "trims").lines().filter(l -> !l.isBlank()).toList()) {
      all.addAll(TypedTrims.of(line.strip()));
    }
    return all;
  }

  /** Trims that were decided on and entered. */
  private record Decided(BatchTrim batch, List<GroupResult> groups) {}

  private Decided decided(BenchArticle a, BenchArticle source, LoadedJob job) {
    if (tied(a, source)) {
      StoredAnalysis s = entered(a).analysis();
      return new Decided(s.batchTrim(), s.groups());
    }
    FirstArticleResult r = bench.analyses().result(source, job);
    if (r == null) {
      throw Refusal.bad(
          "Article '" + source.about().name() + "' has no result yet, and so no trims.");
    }
    return new Decided(r.batchTrim(), r.groups());
  }

  /** Pictures and tables that were sent for the article, by their hashes. */
  private static List<LoggedAttachment> attachments(BenchArticle a) throws IOException {
    try (Stream<Path> files = Files.list(a.folder())) {
      return files
          .filter(Files::isRegularFile)
          .filter(f -> String.valueOf(f.getFileName()).matches(PICTURES_AND_TABLES))
          .sorted()
          .map(LoggedAttachment::of)
          .toList();
    }
  }
}
