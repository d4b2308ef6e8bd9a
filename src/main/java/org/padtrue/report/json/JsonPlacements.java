package org.padtrue.report.json;

import java.io.IOException;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.PlacementResult;

/** The keys {@code excluded} and {@code placements}. */
final class JsonPlacements {
  private JsonPlacements() {}

  static void write(JsonOut out, FirstArticleResult r) throws IOException {
    out.list("excluded", r.excluded(), JsonPlacements::excluded);
    out.list("placements", r.placements(), JsonPlacements::placement);
    out.list(
        "unplaced",
        r.job().unplaced(),
        (o, u) ->
            o.text("ref", u.ref())
                .text("part", u.part())
                .text("reason", AnalysisJson.word(u.reason()).replace('_', ' '))
                .whole("line", u.line()));
  }

  private static void excluded(JsonOut out, Excluded e) throws IOException {
    out.text("panel", e.panel())
        .whole("column", e.board().column())
        .whole("row", e.board().row())
        .text("ref", e.ref())
        .text("kind", e.kind())
        .flag("fault", e.fault())
        .xyr("deviation", e.deviation())
        .text("sentence", e.sentence());
  }

  private static void placement(JsonOut out, PlacementResult p) throws IOException {
    out.text("panel", p.panel())
        .whole("column", p.board().column())
        .whole("row", p.board().row())
        .text("ref", p.ref())
        .text("part", p.part());
    out.begin("nominal")
        .number("x", p.nominal().xMm())
        .number("y", p.nominal().yMm())
        .number("rotation", p.nominal().rotationDeg())
        .end();
    out.xyr("deviation", p.deviation())
        .xyr("residual", p.residual())
        .xyr("afterTrim", p.afterTrim())
        .number("margin", p.margin())
        .number("marginAfterTrim", p.marginAfterTrim())
        .number("probabilityOutside", p.probabilityOutside())
        .number("probabilityOutsideAfterTrim", p.probabilityOutsideAfterTrim())
        .text("verdict", p.verdict())
        .flag("used", p.used());
  }
}
