package org.padtrue.report.json;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.fitted.Scatter;
import org.padtrue.firstarticle.result.Acceptance;
import org.padtrue.firstarticle.result.Expected;
import org.padtrue.firstarticle.result.Prediction;
import org.padtrue.panel.Factor;

/**
 * {@code analysis.json}: the result for other programs, and for later commands of this one.
 *
 * <p>Millimetres, degrees, ppm, mrad at full precision; an unknown is null, never 0; lists are
 * present even when empty. Keys may be added, never renamed or dropped.
 */
public final class AnalysisJson {
  /** Value of the key {@code schema}. */
  public static final String SCHEMA = "padtrue/analysis/1";

  private AnalysisJson() {}

  /**
   * Writes a result; the stream is closed.
   *
   * @param r what was found
   * @param stream where to, UTF-8
   */
  public static void write(FirstArticleResult r, OutputStream stream) throws IOException {
    try (JsonOut out = new JsonOut(stream)) {
      out.begin();
      head(out, r);
      JsonPanels.write(out, r.panels());
      common(out, r);
      JsonGroups.write(out, r.groups());
      JsonTrims.batch(out, r.batchTrim());
      JsonTrims.lines(out, r.trims());
      variation(out, r);
      JsonPlacements.write(out, r);
      acceptance(out, r.acceptance());
      clearances(out, r);
      NextJson.write(out, r.next());
      out.texts("missing", r.missing());
      out.texts("notes", r.notes());
      out.end();
    }
  }

  /**
   * Reads what later commands need.
   *
   * @param file an analysis.json
   * @return its content; bad input is an {@link org.padtrue.problem.InputException}
   */
  public static StoredAnalysis read(Path file) {
    return AnalysisJsonReader.read(file);
  }

  /** What later commands need of a result in memory: as read from its analysis.json. */
  public static StoredAnalysis stored(FirstArticleResult r) {
    try {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      write(r, bytes);
      return AnalysisJsonReader.read(
          "analysis.json", new ObjectMapper().readTree(bytes.toByteArray()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void head(JsonOut out, FirstArticleResult r) throws IOException {
    FirstArticleResult.Counts c = r.counts();
    out.text("schema", SCHEMA);
    out.text("job", r.job().name());
    out.texts("articles", r.articles());
    out.text("side", word(r.job().side()));
    out.text("stage", word(r.job().stage()));
    out.text("reference", word(r.job().measurement().reference()));
    out.begin("counts")
        .whole("nominal", c.nominal())
        .whole("measured", c.measured())
        .whole("used", c.used())
        .whole("excluded", c.excluded())
        .whole("missing", c.missing())
        .end();
    out.begin("options")
        .text("transform", word(r.options().transform()))
        .flag("array", r.options().array())
        .flag("common", r.options().common())
        .flag("keepOutliers", r.options().keepOutliers())
        .flag("equalScatter", r.options().equalScatter());
    List<Factor> random = r.options().random();
    if (random == null) {
      out.nothing("random");
    } else {
      out.texts("random", random.stream().map(Factor::key).toList());
    }
    out.end();
  }

  private static void common(JsonOut out, FirstArticleResult r) throws IOException {
    FirstArticleResult.Common c = r.common();
    if (c == null) {
      out.nothing("common");
    } else {
      out.begin("common").number("x", c.value().x()).number("y", c.value().y());
      out.xy("standardErrors", c.standardErrors()).end();
    }
    FirstArticleResult.RotationZero z = r.rotationZero();
    if (z == null) {
      out.nothing("rotationZero");
    } else {
      out.begin("rotationZero").number("value", z.value());
      out.number("standardError", z.standardError()).end();
    }
  }

  private static void variation(JsonOut out, FirstArticleResult r) throws IOException {
    out.list(
        "tests",
        r.tests(),
        (o, t) ->
            o.text("family", t.family())
                .number("statistic", t.statistic())
                .text("kind", t.kind())
                .number("p", t.p())
                .flag("passes", t.passes()));
    out.list(
        "varianceComponents",
        r.variances(),
        (o, v) ->
            o.text("source", v.source())
                .text("axis", v.axis())
                .number("sd", v.sd())
                .flag("removable", v.removable()));
    out.list(
        "budget",
        r.budget(),
        (o, b) ->
            o.text("source", b.source())
                .number("meanSquare", b.meanSquare())
                .number("meanSquareAfterTrim", b.meanSquareAfterTrim())
                .flag("removable", b.removable()));
    scatter(out, r.scatter());
    prediction(out, r.prediction());
    out.list(
        "quadrants",
        r.quadrants(),
        (o, q) ->
            o.whole("rotation", q.rotation())
                .whole("count", q.count())
                .number("x", q.mean().x())
                .number("y", q.mean().y())
                .xy("standardErrors", q.standardErrors()));
    out.list(
        "aliases",
        r.aliases(),
        (o, a) -> o.texts("terms", a.terms()).text("sentence", a.sentence()));
  }

  private static void scatter(JsonOut out, Scatter s) throws IOException {
    out.begin("scatter")
        .number("sdX", s.sdX())
        .number("sdY", s.sdY())
        .number("sdRotation", s.sdRotation())
        .number("residualSd", s.residualSd())
        .number("residualSdRotation", s.residualSdRotation())
        .number("measuringSd", s.measuringSd())
        .number("degreesOfFreedom", s.degreesOfFreedom());
    out.list(
        "types",
        s.types(),
        (o, t) ->
            o.text("part", t.part())
                .number("sdX", t.sdX())
                .number("sdY", t.sdY())
                .text("frame", t.frame())
                .number("sdRotation", t.sdRotation())
                .number("residualSd", t.residualSd())
                .number("residualSdRotation", t.residualSdRotation())
                .number("degreesOfFreedom", t.degreesOfFreedom())
                .number("rotationDegreesOfFreedom", t.rotationDegreesOfFreedom()));
    out.end();
  }

  private static void prediction(JsonOut out, Prediction p) throws IOException {
    out.begin("prediction")
        .number("seen", p.seen())
        .number("nextUntrimmed", p.nextUntrimmed())
        .number("nextTrimmed", p.nextTrimmed())
        .number("floor", p.floor())
        .list(
            "rounding",
            p.rounding(),
            (o, c) ->
                o.text("what", c.what())
                    .number("step", c.step())
                    .text("unit", c.unit())
                    .number("rms", c.rmsMm()))
        .end();
  }

  private static void acceptance(JsonOut out, Acceptance a) throws IOException {
    out.begin("acceptance")
        .whole("class", a.acceptanceClass())
        .whole("judged", a.judged())
        .whole("outside", a.outside())
        .whole("outsideAfterTrim", a.outsideAfterTrim())
        .number("expectedOutside", a.expectedOutside().value())
        .number("expectedOutsideAfterTrim", a.expectedOutsideAfterTrim().value());
    interval(out, "expectedOutside95", a.expectedOutside());
    interval(out, "expectedOutsideAfterTrim95", a.expectedOutsideAfterTrim());
    out.number("integrationError", a.expectedOutsideAfterTrim().integrationError())
        .xy("cpk", a.cpk())
        .xy("cpkLower95", a.cpkLower95())
        .xy("cpkAfterTrim", a.cpkAfterTrim())
        .list(
            "types",
            a.types(),
            (o, t) ->
                o.text("part", t.part())
                    .whole("count", t.count())
                    .xy("allowed", t.allowed())
                    .xy("cpk", t.cpk())
                    .xy("cpkLower95", t.cpkLower95())
                    .xy("cpkAfterTrim", t.cpkAfterTrim())
                    .xy("cpkAfterTrimLower95", t.cpkAfterTrimLower95())
                    .xy("toleranceLow", t.low())
                    .xy("toleranceHigh", t.high()))
        .texts("notJudgedParts", a.notJudgedParts())
        .end();
  }

  private static void interval(JsonOut out, String name, Expected e) throws IOException {
    out.begin(name).number("low", e.low()).number("high", e.high()).end();
  }

  private static void clearances(JsonOut out, FirstArticleResult r) throws IOException {
    out.list(
        NextJson.CLEARANCES,
        r.clearances(),
        (o, c) ->
            o.text("panel", c.panel())
                .text("a", c.a())
                .text("b", c.b())
                .number("gap", c.gap())
                .number("gapAfterTrim", c.gapAfterTrim())
                .number("probabilityTouching", c.probabilityTouching())
                .begin("spread")
                .number("x", c.spread().varX())
                .number("y", c.spread().varY())
                .number("xy", c.spread().covXY())
                .number("rotationA", c.spread().varRotationA())
                .number("rotationB", c.spread().varRotationB())
                .end()
                .text("sentence", c.sentence()));
  }

  /** An enum constant as files spell it. */
  public static String word(Enum<?> e) {
    return e.name().toLowerCase(Locale.ROOT);
  }
}
