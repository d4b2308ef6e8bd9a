package org.padtrue.report.json;

import java.io.IOException;
import java.io.OutputStream;
import org.padtrue.room.PlacingOrder;
import org.padtrue.room.RoomGroup;
import org.padtrue.room.RoomMove;
import org.padtrue.room.RoomOptions;
import org.padtrue.room.RoomPair;
import org.padtrue.room.RoomResult;
import org.padtrue.room.RoomSubject;

/** room.json: moves as values to ADD in the placement list's own axes, mm and degrees. */
public final class RoomJson {
  static final String SCHEMA = "padtrue/room/1";

  private RoomJson() {}

  /** Writes; the stream is closed. */
  public static void write(RoomResult r, RoomOptions o, RoomSubject head, OutputStream stream)
      throws IOException {
    try (JsonOut out = new JsonOut(stream)) {
      out.begin();
      out.text("schema", SCHEMA);
      out.text("job", head.job());
      out.text("analysisHash", head.analysisHash());
      out.number("gap", o.gapMm());
      out.number("probability", o.probability());
      out.number("max", o.maxMm());
      out.list("groups", r.groups(), (j, g) -> group(j, g, head));
      out.list("order", r.order(), RoomJson::order);
      out.texts("withoutEnvelope", r.withoutOutline());
      out.texts("landsNotKnown", r.notJudged());
      out.end();
    }
  }

  private static void group(JsonOut out, RoomGroup g, RoomSubject head) throws IOException {
    out.list("pairs", g.pairs(), RoomJson::pair);
    out.list("moves", g.moves(), (j, m) -> move(j, m, head));
    out.flag("solved", g.solved());
    out.text("sentence", g.sentence());
  }

  private static void pair(JsonOut out, RoomPair p) throws IOException {
    out.text("a", p.a())
        .text("b", p.b())
        .number("gap", p.gap())
        .number("gapAfter", p.gapAfter())
        .number("probabilityTouching", p.touching())
        .number("probabilityTouchingAfter", p.touchingAfter())
        .number("probabilityBelowGap", p.below())
        .number("probabilityBelowGapAfter", p.belowAfter());
  }

  private static void move(JsonOut out, RoomMove m, RoomSubject head) throws IOException {
    out.text("ref", m.key())
        .text("part", m.part())
        .number("x", head.signX() * m.x() + 0.0)
        .number("y", head.signY() * m.y() + 0.0)
        .number("rotation", head.signRotation() * m.rotation() + 0.0)
        .number("margin", m.margin())
        .number("marginAfter", m.marginAfter())
        .number("probabilityOutside", m.outside())
        .number("probabilityOutsideAfter", m.outsideAfter());
  }

  private static void order(JsonOut out, PlacingOrder o) throws IOException {
    out.text("first", o.first()).text("then", o.then()).text("sentence", o.sentence());
  }
}
