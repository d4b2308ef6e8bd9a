package org.padtrue.report;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.check.TrimCheckBefore;
import org.padtrue.check.TrimCheckResult;
import org.padtrue.check.TrimCheckTerm;
import org.padtrue.mixed.PanelFamily;
import org.padtrue.report.file.OutputFolder;
import org.padtrue.report.json.AnalysisHash;
import org.padtrue.report.json.JsonOut;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.report.json.StoredCheck;
import org.padtrue.report.words.DriftWords;

/** What a trim check leaves behind: check.json for programs, check.html for people. */
public final class TrimCheckReport {
  /** What to mind before a finding is acted on, in one paragraph. */
  public static final String CAUTION =
      "A finding names what the numbers look like: compare it with what was entered. "
          + DriftWords.CAUTIONS.get(0);

  private TrimCheckReport() {}

  /** What the check needs of a stored analysis. */
  public static TrimCheckBefore before(StoredAnalysis a) {
    List<StoredAnalysis.Panel> p = a.panels();
    return new TrimCheckBefore(
        p.stream().map(StoredAnalysis.Panel::panel).toList(),
        p.stream().map(StoredAnalysis.Panel::transform).toList(),
        p.isEmpty() ? PanelFamily.SHIFT.key() : p.get(0).family(),
        p.isEmpty() ? null : p.get(0).array(),
        a.common(),
        a.rotationZero(),
        a.groups(),
        a.batchTrim(),
        a.variances(),
        a.scatter(),
        a.placements());
  }

  /** check.json, for a page to hand out. */
  public static byte[] json(TrimCheckResult r, Head head) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    json(r, head, out);
    return out.toByteArray();
  }

  /** Writes check.json alone, for scripts; returns the file. */
  public static Path writeJson(TrimCheckResult r, Head head, Path outDir) {
    try (OutputFolder folder = new OutputFolder(outDir)) {
      folder.write("check.json", out -> json(r, head, out));
      return folder.commit().get(0);
    }
  }

  /**
   * Writes both files, or none.
   *
   * @param r what was found
   * @param head what was held against what
   * @param outDir folder, made when it is not there
   * @return the files in the order written
   * @throws org.padtrue.problem.InputException when the folder cannot be written
   */
  public static List<Path> write(TrimCheckResult r, Head head, Path outDir) {
    try (OutputFolder folder = new OutputFolder(outDir)) {
      folder.write("check.json", out -> json(r, head, out));
      String page = TrimCheckPage.of(r, head);
      folder.write("check.html", out -> out.write(page.getBytes(StandardCharsets.UTF_8)));
      return folder.commit();
    }
  }

  /**
   * What was held against what.
   *
   * @param analysisHash which analysis it is, see {@link AnalysisHash}
   * @param job the job's name
   * @param first file names of the articles that were analysed
   * @param second file names of the articles placed with the trims
   * @param gaps gaps that moves were to make; empty where nothing was moved
   */
  public record Head(
      String analysisHash, String job, List<String> first, List<String> second, List<Gap> gaps) {
    public Head {
      first = List.copyOf(first);
      second = List.copyOf(second);
      gaps = List.copyOf(gaps);
    }
  }

  /**
   * A gap that a move was to make.
   *
   * @param panel panel of the second article
   * @param a id of the first placement
   * @param b id of the second
   * @param expectedMm gap that was expected, mm
   * @param seenMm gap as measured, mm; negative = overlap; NaN = not measured
   */
  public record Gap(String panel, String a, String b, double expectedMm, double seenMm) {}

  private static void json(TrimCheckResult r, Head head, OutputStream stream) throws IOException {
    try (JsonOut out = new JsonOut(stream)) {
      out.begin();
      out.text("schema", StoredCheck.SCHEMA);
      out.text("analysisHash", head.analysisHash());
      out.text("job", head.job());
      out.texts("articles", head.first());
      out.texts("second", head.second());
      out.text("verdict", r.verdict().key());
      out.number("chiSquare", r.chiSquare());
      out.whole("degreesOfFreedom", r.degreesOfFreedom());
      out.number("p", r.p());
      out.list("terms", r.terms(), TrimCheckReport::term);
      out.list(
          "gaps",
          head.gaps(),
          (o, g) ->
              o.text("panel", g.panel())
                  .text("a", g.a())
                  .text("b", g.b())
                  .number("expected", g.expectedMm())
                  .number("seen", g.seenMm()));
      out.whole("placements", r.placements());
      out.number("scatterRatio", r.scatterRatio());
      out.texts("excluded", r.excluded());
      out.texts("notes", r.notes());
      out.end();
    }
  }

  private static void term(JsonOut out, TrimCheckTerm t) throws IOException {
    out.text("term", t.term()).xyr("promised", t.promised()).xyr("seen", t.seen()).xyr("z", t.z());
    turn(out, t.turn());
    out.text("finding", t.finding().key())
        .flag("kept", t.kept())
        .whole("count", t.count())
        .text("sentence", t.sentence());
  }

  private static void turn(JsonOut out, TrimCheckTerm.@Nullable Turn t) throws IOException {
    if (t == null) {
      out.nothing("turn");
      return;
    }
    out.begin("turn").whole("trim", t.trim()).whole("promised", t.promised());
    if (t.seen().isPresent()) {
      out.whole("seen", t.seen().getAsInt());
    } else {
      out.nothing("seen");
    }
    out.text("finding", t.finding().key()).end();
  }
}
