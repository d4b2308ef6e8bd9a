package org.padtrue.web.record;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.load.corrected.CorrectedFileInputs;
import org.padtrue.load.job.LoadedJob;
import org.padtrue.problem.InputException;
import org.padtrue.report.json.StoredCheck;
import org.padtrue.report.record.Attachment;
import org.padtrue.report.record.Attachments;
import org.padtrue.report.record.Conformity;
import org.padtrue.report.record.FirstArticleCsv;
import org.padtrue.report.record.FirstArticleJson;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.FirstArticleRecords;
import org.padtrue.report.record.RecordOptions;
import org.padtrue.report.record.print.FirstArticleFiles;
import org.padtrue.report.record.print.FirstArticlePdf;
import org.padtrue.report.record.print.Paper;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.check.CheckFiles;
import org.padtrue.web.kept.Working;
import org.padtrue.web.kept.WorkingView;
import org.padtrue.web.server.Downloads;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.FileNames;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Same;
import org.padtrue.web.server.ShownNumbers;
import org.padtrue.web.server.Uploads;

/** The first article record: its form, the files that belong to it, the record to sign. */
public final class RecordPages {
  private static final Duration SHORT_WAIT = Duration.ofSeconds(2);
  private static final int MOST_ATTACHED = 50;

  private final Bench bench;
  private final Working<byte[]> working = new Working<>();

  public RecordPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/articles/{article}/first-article", this::page);
    routes.post("/articles/{article}/first-article", this::keep);
    routes.post("/articles/{article}/first-article/files", this::attach);
    routes.post("/articles/{article}/first-article/files/remove", this::remove);
    routes.get("/articles/{article}/first-article/seen", this::seen);
    routes.get("/articles/{article}/first-article.pdf", this::pdf);
    routes.get("/articles/{article}/first-article.csv", this::csv);
    routes.get("/articles/{article}/first-article.json", this::json);
  }

  private FirstArticleResult result(BenchArticle a, LoadedJob job) {
    FirstArticleResult r = bench.analyses().result(a, job);
    if (r == null) {
      throw Refusal.bad(String.join(" ", bench.analyses().problems(a, job)));
    }
    return r;
  }

  private FirstArticleRecord record(BenchArticle a) throws IOException {
    JobFolder folder = bench.workspace().job(a.about().job());
    LoadedJob job = folder.load();
    return record(a, folder, job, RecordSheet.read(a.folder()));
  }

  private FirstArticleRecord record(
      BenchArticle a, JobFolder folder, LoadedJob job, RecordSheet sheet) throws IOException {
    FirstArticleResult r = result(a, job);
    RecordOptions options =
        RecordOptions.withDefaults()
            .with(sheet.identification())
            .with(sheet.rule())
            .withCoverageFactor(sheet.coverage())
            .with(check(sheet, job))
            .withAttachments(attachments(a, folder, job));
    return FirstArticleRecords.of(r, options);
  }

  private @Nullable StoredCheck check(RecordSheet sheet, LoadedJob job) throws IOException {
    return sheet.check().isEmpty()
        ? null
        : CheckFiles.stored(bench.workspace().article(sheet.check()), job);
  }

  /** Files that belong to the record, by their content. */
  private List<Attachment> attachments(BenchArticle a, JobFolder folder, LoadedJob job)
      throws IOException {
    List<Attachment> all = new ArrayList<>();
    for (Path f : CorrectedFileInputs.of(folder.jobFile())) {
      all.add(Attachments.of(f.equals(folder.jobFile()) ? "job" : "nominal", f));
    }
    all.add(Attachments.of("attachment", a.csvName(), a.csv(job)));
    for (Path f : RecordSheet.identificationFile(a.folder())) {
      all.add(Attachments.of("identification", f));
    }
    for (Path f : RecordSheet.attached(a.folder())) {
      all.add(Attachments.of("attachment", f));
    }
    return all;
  }

  private void page(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    RecordSheet sheet = RecordSheet.read(a.folder());
    show(ctx, a, sheet, sheet);
  }

  /** The mark of what is kept, for pages that look at it. */
  private void seen(Context ctx) throws IOException {
    ctx.contentType("text/plain; charset=utf-8")
        .result(RecordSheet.read(bench.article(ctx).folder()).mark());
  }

  /** The form as it was filled in, and what stands on disk where that is something else. */
  private void show(Context ctx, BenchArticle a, RecordSheet sheet, RecordSheet stands)
      throws IOException {
    JobFolder folder = bench.workspace().job(a.about().job());
    LoadedJob job = folder.load();
    List<String> problems = List.of();
    String summary = "";
    try {
      summary = summary(record(a, folder, job, stands));
    } catch (InputException e) {
      problems = JobFolder.sentences(e, folder.folder()).stream().map(PageWords::plain).toList();
    } catch (Refusal e) {
      problems = List.of(String.valueOf(e.getMessage()));
    }
    RecordSheetView view =
        new RecordSheetViews(a, job.job().name(), sheet, stands)
            .of(problems, summary, checks(a, sheet), attached(a));
    bench.pages().show(ctx, "record-sheet", "Record of " + a.about().name(), "jobs", view);
  }

  private static String summary(FirstArticleRecord r) {
    return ShownNumbers.count(r.characteristics().size(), "characteristic")
        + ": "
        + r.count(Conformity.WITHIN)
        + " within, "
        + (r.count(Conformity.OUTSIDE) + r.count(Conformity.CONDITIONALLY_OUTSIDE))
        + " outside, "
        + r.count(Conformity.CONDITIONALLY_WITHIN)
        + " within by less than the uncertainty, "
        + r.count(Conformity.SLIP)
        + " transcription errors, "
        + r.count(Conformity.NOT_MEASURED)
        + " not measured, "
        + r.count(Conformity.BY_LAND_FIT)
        + " limited by the land fit, "
        + r.count(Conformity.NO_LIMIT)
        + " without a limit.";
  }

  private List<RecordSheetView.Check> checks(BenchArticle a, RecordSheet sheet) throws IOException {
    // while nothing is kept, the newest panel that was measured is offered
    boolean open = sheet.check().isEmpty() && RecordSheet.identificationFile(a.folder()).isEmpty();
    List<RecordSheetView.Check> all = new ArrayList<>();
    for (BenchArticle o : bench.workspace().articles(a.about().job())) {
      if (o.about().after().equals(a.id())) {
        boolean measured = !o.about().file().isEmpty() || !o.measured().isEmpty();
        boolean chosen = open && measured || o.id().equals(sheet.check());
        open &= !chosen;
        all.add(new RecordSheetView.Check(o.id(), o.about().name(), chosen));
      }
    }
    return all;
  }

  private static List<RecordSheetView.File> attached(BenchArticle a) throws IOException {
    List<RecordSheetView.File> all = new ArrayList<>();
    for (Path f : RecordSheet.attached(a.folder())) {
      Attachment t = Attachments.of("attachment", f);
      all.add(
          new RecordSheetView.File(t.file(), ShownNumbers.count(t.bytes(), "byte"), t.sha256()));
    }
    return all;
  }

  private void keep(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    String check = Fields.line(ctx, "check");
    if (!check.isEmpty() && !bench.workspace().article(check).about().after().equals(a.id())) {
      throw Refusal.bad("That panel was not placed with the trims of this article.");
    }
    RecordSheet mine = RecordForms.of(ctx, check);
    RecordSheet stands = mine.keep(a.folder(), Fields.line(ctx, "seen"));
    if (stands != null) {
      ctx.status(HttpStatus.CONFLICT);
      show(ctx, a, mine, stands);
      return;
    }
    ctx.redirect("/articles/" + a.id() + "/first-article", HttpStatus.SEE_OTHER);
  }

  private void attach(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    var files = Uploads.of(ctx, "files");
    if (RecordSheet.attached(a.folder()).size() + files.size() > MOST_ATTACHED) {
      throw Refusal.bad("More than " + MOST_ATTACHED + " attached files are not taken.");
    }
    Uploads.write(files, RecordSheet.files(a.folder()));
    ctx.redirect("/articles/" + a.id() + "/first-article#attached", HttpStatus.SEE_OTHER);
  }

  private void remove(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    Path file =
        FileNames.within(
            RecordSheet.files(a.folder()), Optional.ofNullable(ctx.formParam("file")).orElse(""));
    if (!Files.deleteIfExists(file)) {
      throw Refusal.notThere("There is no such attached file.");
    }
    ctx.redirect("/articles/" + a.id() + "/first-article#attached", HttpStatus.SEE_OTHER);
  }

  /** The record to sign by hand; fields nobody gave stay empty. */
  private void pdf(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    Paper paper = "letter".equals(ctx.queryParam("paper")) ? Paper.LETTER : Paper.A4;
    LoadedJob job = bench.workspace().job(a.about().job()).load();
    FirstArticleRecord record = record(a);
    List<Object> of = List.of(new Same(job), a.id(), paper, record);
    Optional<byte[]> pdf =
        working.within(SHORT_WAIT, of, () -> FirstArticlePdf.bytes(record, paper));
    boolean page = String.valueOf(ctx.header("Sec-Fetch-Dest")).equals("document");
    if (pdf.isEmpty() && page) {
      ctx.header("X-Wait", "yes");
      bench
          .pages()
          .show(
              ctx,
              "working",
              "Record to sign",
              "jobs",
              new WorkingView(
                  "Record to sign",
                  "/articles/" + a.id() + "/first-article",
                  a.about().name(),
                  "Printing "
                      + ShownNumbers.count(record.characteristics().size(), "characteristic"),
                  ShownNumbers.count(working.since(of).toSeconds(), "second")));
      return;
    }
    Downloads.send(
        ctx,
        FirstArticleFiles.PDF,
        "application/pdf",
        working.now(of, () -> FirstArticlePdf.bytes(record, paper)));
  }

  private void csv(Context ctx) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    FirstArticleCsv.write(record(bench.article(ctx)), out);
    Downloads.send(ctx, FirstArticleFiles.CSV, "text/csv; charset=utf-8", out.toByteArray());
  }

  private void json(Context ctx) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      FirstArticleJson.write(record(bench.article(ctx)), out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Downloads.send(
        ctx, FirstArticleFiles.JSON, "application/json; charset=utf-8", out.toByteArray());
  }
}
