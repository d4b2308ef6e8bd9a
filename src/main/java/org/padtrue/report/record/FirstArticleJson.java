package org.padtrue.report.record;

import java.io.IOException;
import java.io.OutputStream;
import org.jspecify.annotations.Nullable;
import org.padtrue.report.json.JsonOut;
import org.padtrue.report.json.StoredCheck;

/**
 * {@code first-article.json}: the record for other programs; mm and degrees at full precision, null
 * for what is not known or was not given. Keys may be added, never renamed or dropped.
 */
public final class FirstArticleJson {
  /** Value of the key {@code schema}. */
  public static final String SCHEMA = "padtrue/firstArticle/1";

  private FirstArticleJson() {}

  /** Writes a record; the stream is closed. */
  public static void write(FirstArticleRecord r, OutputStream stream) throws IOException {
    try (JsonOut out = new JsonOut(stream)) {
      out.begin();
      out.text("schema", SCHEMA);
      out.text("job", r.job());
      out.texts("articles", r.articles());
      out.text("side", r.side()).text("stage", r.stage()).text("reference", r.reference());
      out.whole("acceptanceClass", r.acceptanceClass());
      out.list(
          "limits",
          r.limits(),
          (o, l) ->
              o.text("joint", l.kind())
                  .text("side", l.side())
                  .text("end", l.end())
                  .text("standing", l.standing())
                  .text("source", l.source())
                  .texts("parts", l.types()));
      identification(out, r.identification());
      measuring(out, r.measuring());
      counts(out, r);
      out.list("characteristics", r.characteristics(), FirstArticleJson::characteristic);
      out.list(
          "trims",
          r.trims(),
          (o, t) ->
              o.text("where", t.where())
                  .text("kind", t.kind())
                  .number("addX", t.addX())
                  .number("addY", t.addY())
                  .number("addRotation", t.addRotation())
                  .whole("addTurn", t.addTurn())
                  .number("addSquareness", t.addSquareness())
                  .text("unit", t.unit())
                  .text("frame", t.frame())
                  .text("about", t.about()));
      check(out, r.check());
      out.list(
          "moved",
          r.moved(),
          (o, m) -> o.text("ref", m.ref()).xyr("add", m.add()).text("reason", m.reason()));
      out.list(
          "attachments",
          r.attachments(),
          (o, a) ->
              o.text("role", a.role())
                  .text("file", a.file())
                  .number("bytes", a.bytes())
                  .text("sha256", a.sha256()));
      out.texts("notes", r.notes());
      out.texts("cautions", FirstArticleRecord.CAUTIONS);
      out.end();
    }
  }

  private static void identification(JsonOut out, Identification i) throws IOException {
    out.begin("identification");
    for (IdentificationField f : IdentificationField.values()) {
      out.text(f.key(), i.value(f).orElse(null));
    }
    out.list(
        "tools",
        i.tools(),
        (o, t) ->
            o.text("name", t.name())
                .text("id", t.id())
                .text("calibratedUntil", t.calibratedUntil())
                .texts(
                    "measures",
                    t.measures().stream().sorted().map(CharacteristicKind::key).toList()));
    out.end();
  }

  private static void measuring(JsonOut out, Measuring m) throws IOException {
    out.begin("measuring")
        .number("uncertainty", m.uncertaintyMm())
        .number("rotationUncertainty", m.rotationUncertaintyDeg())
        .number("bias", m.biasMm())
        .number("coverageFactor", m.coverageFactor())
        .number("expandedUncertainty", m.expandedMm())
        .number("expandedRotationUncertainty", m.expandedDeg())
        .text("decisionRule", m.rule().key())
        .text("sentence", m.rule().sentence())
        .end();
  }

  private static void counts(JsonOut out, FirstArticleRecord r) throws IOException {
    out.begin("counts").whole("characteristics", r.characteristics().size());
    for (Conformity c : Conformity.values()) {
      out.whole(c.key(), r.count(c));
    }
    out.end();
  }

  private static void characteristic(JsonOut out, Characteristic c) throws IOException {
    out.whole("number", c.number())
        .text("panel", c.panel())
        .whole("column", c.board().column())
        .whole("row", c.board().row())
        .text("ref", c.ref())
        .text("part", c.part())
        .text("characteristic", c.kind().key())
        .text("designator", given(c.designator()))
        .text("unit", c.kind().unit())
        .number("nominal", c.nominal())
        .number("lower", c.lower())
        .number("upper", c.upper())
        .number("result", c.result())
        .number("deviation", c.deviation())
        .number("expandedUncertainty", c.expandedUncertainty())
        .text("conformity", c.conformity().key())
        .numbers("tools", c.tools().stream().mapToDouble(t -> t).toArray())
        .text("nonconformance", given(c.nonconformance()))
        .text("comment", given(c.comment()));
  }

  private static @Nullable String given(String s) {
    return s.isEmpty() ? null : s;
  }

  private static void check(JsonOut out, @Nullable StoredCheck c) throws IOException {
    if (c == null) {
      out.nothing("check");
      return;
    }
    out.begin("check")
        .texts("articles", c.second())
        .text("verdict", c.verdict())
        .number("chiSquare", c.chiSquare())
        .whole("degreesOfFreedom", c.degreesOfFreedom())
        .number("p", c.p());
    out.list("terms", c.terms(), FirstArticleJson::term);
    out.end();
  }

  private static void term(JsonOut out, StoredCheck.Term t) throws IOException {
    out.text("term", t.term()).xyr("promised", t.promised()).xyr("seen", t.seen()).xyr("z", t.z());
    StoredCheck.Turn turn = t.turn();
    if (turn == null) {
      out.nothing("turn");
    } else {
      out.begin("turn").whole("trim", turn.trim()).whole("promised", turn.promised());
      if (turn.seen().isPresent()) {
        out.whole("seen", turn.seen().getAsInt());
      } else {
        out.nothing("seen");
      }
      out.text("finding", turn.finding()).end();
    }
    out.text("finding", t.finding());
  }
}
