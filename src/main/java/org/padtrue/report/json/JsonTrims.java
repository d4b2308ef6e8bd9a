package org.padtrue.report.json;

import java.io.IOException;
import java.util.List;
import org.padtrue.firstarticle.result.BatchTrim;
import org.padtrue.firstarticle.result.Decision;
import org.padtrue.firstarticle.result.TrimLine;

/** The keys {@code batchTrim} and {@code trims}. */
final class JsonTrims {
  private JsonTrims() {}

  static void batch(JsonOut out, BatchTrim b) throws IOException {
    out.begin("batchTrim");
    shift(out, "shift", b.shift());
    angle(out, "rotation", b.rotation());
    BatchTrim.Scale s = b.scale();
    out.begin("scale")
        .number("xPpm", s.xPpm())
        .number("yPpm", s.yPpm())
        .number("squarenessMrad", s.squarenessMrad());
    decision(out, s.decision(), s.reason());
    out.begin("array")
        .list(
            "boards",
            b.array().boards(),
            (o, origin) ->
                o.whole("column", origin.board().column())
                    .whole("row", origin.board().row())
                    .number("x", origin.x())
                    .number("y", origin.y()));
    decision(out, b.array().decision(), b.array().reason());
    shift(out, "common", b.common());
    angle(out, "rotationZero", b.rotationZero());
    out.end();
  }

  static void lines(JsonOut out, List<TrimLine> trims) throws IOException {
    out.list(
        "trims",
        trims,
        (o, t) ->
            o.text("where", t.where())
                .text("kind", t.kind())
                .text("from", t.from())
                .number("addX", t.addX())
                .number("addY", t.addY())
                .number("addRotation", t.addRotation())
                .whole("addTurn", t.addTurn())
                .number("addSquareness", t.addSquareness())
                .text("unit", t.unit())
                .text("frame", t.frame())
                .text("about", t.about())
                .text("why", t.why())
                .number("standardErrorX", t.effect().standardErrors().x())
                .number("standardErrorY", t.effect().standardErrors().y())
                .number("standardErrorRotation", t.effect().standardErrors().rotation())
                .number("standardErrorSquareness", t.effect().squarenessError())
                .number("takesOut", t.effect().takesOutMm())
                .number("fewerOutside", t.effect().fewerOutside()));
  }

  private static void shift(JsonOut out, String name, BatchTrim.Shift s) throws IOException {
    out.begin(name).number("x", s.value().x()).number("y", s.value().y());
    decision(out, s.decision(), s.reason());
  }

  private static void angle(JsonOut out, String name, BatchTrim.Angle a) throws IOException {
    out.begin(name).number("value", a.value());
    decision(out, a.decision(), a.reason());
  }

  private static void decision(JsonOut out, Decision d, String reason) throws IOException {
    out.text("decision", d.key()).text("reason", reason).end();
  }
}
