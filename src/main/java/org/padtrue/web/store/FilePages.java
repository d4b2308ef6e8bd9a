package org.padtrue.web.store;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.padtrue.load.corrected.CorrectedFileInputs;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.JobFolder;
import org.padtrue.web.server.Downloads;
import org.padtrue.web.server.Refusal;

/** Jobs and articles as the files that the command line reads, with the same answer. */
public final class FilePages {
  private static final String ZIP = "application/zip";
  private final Bench bench;

  public FilePages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/jobs/{job}/job.json", this::jobFile);
    routes.get("/jobs/{job}/job.zip", this::jobZip);
    routes.get("/articles/{article}/files.zip", this::both);
    routes.get("/articles/{article}/article.csv", this::article);
  }

  private void jobFile(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    Downloads.send(
        ctx, "job.json", "application/json; charset=utf-8", Files.readAllBytes(j.jobFile()));
  }

  private void jobZip(Context ctx) throws IOException {
    JobFolder j = bench.job(ctx);
    Downloads.send(ctx, j.id() + ".zip", ZIP, zip(files(j)));
  }

  private void article(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    JobFolder j = bench.workspace().job(a.about().job());
    Downloads.send(ctx, a.csvName(), "text/csv; charset=utf-8", a.csv(j.load()));
  }

  private void both(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    JobFolder j = bench.workspace().job(a.about().job());
    Map<String, byte[]> all = files(j);
    byte[] csv = a.csv(j.load());
    String name = a.csvName();
    all.put(all.containsKey(name) ? "measured-" + name : name, csv);
    Downloads.send(ctx, a.id() + ".zip", ZIP, zip(all));
  }

  /** The job file and the files that it names, by their names beside it. */
  private static Map<String, byte[]> files(JobFolder j) throws IOException {
    // refuses a job that names files elsewhere
    j.load();
    Map<String, byte[]> all = new LinkedHashMap<>();
    for (Path p : CorrectedFileInputs.of(j.jobFile())) {
      if (!Files.isRegularFile(p)) {
        throw Refusal.bad("The file " + p.getFileName() + " that the job names is not there.");
      }
      all.put(j.folder().relativize(p.normalize()).toString(), Files.readAllBytes(p));
    }
    return all;
  }

  private static byte[] zip(Map<String, byte[]> files) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream z = new ZipOutputStream(bytes)) {
      for (Map.Entry<String, byte[]> f : files.entrySet()) {
        z.putNextEntry(new ZipEntry(f.getKey()));
        z.write(f.getValue());
        z.closeEntry();
      }
    }
    return bytes.toByteArray();
  }
}
