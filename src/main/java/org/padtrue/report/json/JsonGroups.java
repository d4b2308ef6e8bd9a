package org.padtrue.report.json;

import java.io.IOException;
import java.util.List;
import org.padtrue.firstarticle.result.GroupResult;
import org.padtrue.firstarticle.result.TrimValue;

/** The key {@code groups}. */
final class JsonGroups {
  private JsonGroups() {}

  static void write(JsonOut out, List<GroupResult> groups) throws IOException {
    out.list("groups", groups, JsonGroups::group);
  }

  private static void group(JsonOut out, GroupResult g) throws IOException {
    out.text("factor", g.factor().key())
        .text("level", g.level())
        .text("frame", g.frame())
        .whole("count", g.count())
        .whole("rotations", g.rotations())
        .whole("zeroOrientation", g.zeroOrientation())
        .xyr("offset", g.offset())
        .xyr("standardErrors", g.standardErrors())
        .xyr("degreesOfFreedom", g.degreesOfFreedom())
        .xyr("combined", g.combined())
        .xyr("combinedStandardErrors", g.combinedStandardErrors())
        .xyr("leastSquares", g.leastSquares());
    ownTransform(out, g);
    TrimValue t = g.trim();
    out.begin("trim")
        .number("x", t.value().x())
        .number("y", t.value().y())
        .number("rotation", t.value().rotation())
        .whole("turn", t.turn())
        .text("decision", t.decision().key())
        .text("reason", t.reason())
        .end();
  }

  private static void ownTransform(JsonOut out, GroupResult g) throws IOException {
    GroupResult.OwnTransform own = g.ownTransform();
    if (own == null) {
      out.nothing("ownTransform");
      return;
    }
    out.begin("ownTransform").text("family", own.family());
    JsonPanels.transform(out, "values", own.values());
    JsonPanels.transform(out, "standardErrors", own.standardErrors());
    out.end();
  }
}
