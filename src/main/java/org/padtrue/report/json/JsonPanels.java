package org.padtrue.report.json;

import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.result.ArrayError;
import org.padtrue.firstarticle.result.FamilyLine;
import org.padtrue.firstarticle.result.FiducialFit;
import org.padtrue.firstarticle.result.PanelResult;
import org.padtrue.firstarticle.result.TransformValues;
import org.padtrue.firstarticle.result.Xy;

/** The key {@code panels}. */
final class JsonPanels {
  private JsonPanels() {}

  static void write(JsonOut out, List<PanelResult> panels) throws IOException {
    out.list("panels", panels, JsonPanels::panel);
  }

  private static void panel(JsonOut out, PanelResult p) throws IOException {
    out.text("panel", p.panel()).text("article", p.article());
    out.begin("transform").text("family", p.family());
    values(out, p.transform());
    out.end();
    transform(out, "standardErrors", p.standardErrors());
    array(out, p.array());
    out.list("families", p.families(), JsonPanels::family);
    out.xy("centroid", p.centroid());
    out.xy("shiftAtCentroid", p.shiftAtCentroid());
    out.xy("shiftAtCentroidStandardErrors", p.shiftAtCentroidSe());
    fiducials(out, p.fiducials());
  }

  static void transform(JsonOut out, String name, TransformValues t) throws IOException {
    out.begin(name);
    values(out, t);
    out.end();
  }

  private static void values(JsonOut out, TransformValues t) throws IOException {
    out.number("shiftX", t.shiftX())
        .number("shiftY", t.shiftY())
        .number("rotation", t.rotation())
        .number("scaleXPpm", t.scaleXPpm())
        .number("scaleYPpm", t.scaleYPpm())
        .number("squarenessMrad", t.squarenessMrad());
  }

  private static void array(JsonOut out, @Nullable ArrayError a) throws IOException {
    if (a == null) {
      out.nothing("array");
      return;
    }
    out.begin("array");
    direction(out, "perColumn", a.perColumn());
    direction(out, "perRow", a.perRow());
    out.begin("standardErrors");
    direction(out, "perColumn", a.perColumnSe());
    direction(out, "perRow", a.perRowSe());
    out.end().end();
  }

  /** A single row or column hides a direction altogether: null, not a pair of nulls. */
  private static void direction(JsonOut out, String name, Xy v) throws IOException {
    if (Double.isNaN(v.x()) && Double.isNaN(v.y())) {
      out.nothing(name);
    } else {
      out.xy(name, v);
    }
  }

  private static void family(JsonOut out, FamilyLine f) throws IOException {
    out.text("family", f.family())
        .flag("array", f.array())
        .whole("parameters", f.parameters())
        .number("rss", f.rss())
        .number("aicc", f.aicc())
        .number("f", f.f())
        .number("p", f.p())
        .flag("chosen", f.chosen());
  }

  private static void fiducials(JsonOut out, @Nullable FiducialFit f) throws IOException {
    if (f == null) {
      out.nothing("fiducials");
      return;
    }
    out.begin("fiducials").whole("count", f.count());
    transform(out, "transform", f.transform());
    out.list(
        "lines",
        f.lines(),
        (o, l) ->
            o.text("name", l.name())
                .xy("deviation", l.deviation())
                .xy("residual", l.residual())
                .flag("suspect", l.suspect()));
    out.text("sentence", f.sentence()).end();
  }
}
