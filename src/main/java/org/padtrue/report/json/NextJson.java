package org.padtrue.report.json;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.NextPlacement;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.land.clearance.PairSpread;
import org.padtrue.land.risk.DeviationDistribution;
import org.padtrue.panel.BoardIndex;

/** What an analysis.json says of the next panel: placements and pairs of them, trims entered. */
public final class NextJson {
  static final String CLEARANCES = "clearances";
  private static final String NEXT = "next";

  private NextJson() {}

  static void write(JsonOut out, List<NextPlacement> next) throws IOException {
    out.list(NEXT, next, NextJson::write);
  }

  private static void write(JsonOut out, NextPlacement n) throws IOException {
    DeviationDistribution d = n.deviation();
    out.whole("column", n.board().column())
        .whole("row", n.board().row())
        .text("ref", n.ref())
        .xyr("deviation", new Xyr(d.dxMm(), d.dyMm(), d.drotationDeg()))
        .begin("variance")
        .number("x", d.varX())
        .number("y", d.varY())
        .number("rotation", d.varRotation())
        .number("xy", d.covXY())
        .end()
        .number(
            "degreesOfFreedom",
            Double.isInfinite(d.degreesOfFreedom()) ? Double.NaN : d.degreesOfFreedom());
  }

  /**
   * What was read.
   *
   * @param placements by column/row/ref; empty in a file of an earlier version
   * @param pairs how two scatter against each other, by both names with a blank between
   */
  public record Next(Map<String, NextPlacement> placements, Map<String, PairSpread> pairs) {
    public Next {
      placements = Map.copyOf(placements);
      pairs = Map.copyOf(pairs);
    }
  }

  /** The same of an analysis in memory. */
  public static Next of(FirstArticleResult r) {
    Map<String, NextPlacement> byId = new HashMap<>();
    r.next().forEach(p -> byId.put(p.id(), p));
    Map<String, PairSpread> pairs = new HashMap<>();
    r.clearances().forEach(c -> pairs.put(c.a() + " " + c.b(), c.spread()));
    return new Next(byId, pairs);
  }

  /** Reads an analysis.json; bad input is an {@link org.padtrue.problem.InputException}. */
  public static Next read(Path file) {
    String name = file.toString();
    JsonIn in = new JsonIn(name, "", AnalysisJsonReader.tree(file, name, AnalysisJsonReader.MEND));
    List<NextPlacement> placements = new ArrayList<>(in.listOrEmpty(NEXT, NextJson::placement));
    Map<String, NextPlacement> byId = new HashMap<>();
    placements.forEach(p -> byId.put(p.id(), p));
    Map<String, PairSpread> pairs = new HashMap<>();
    in.listOrEmpty(CLEARANCES, c -> c).stream()
        .filter(c -> c.has("spread"))
        .forEach(c -> pairs.put(c.text("a") + " " + c.text("b"), spread(c.object("spread"))));
    return new Next(byId, pairs);
  }

  private static PairSpread spread(JsonIn in) {
    return new PairSpread(
        in.number("x"),
        in.number("y"),
        in.number("xy"),
        in.number("rotationA"),
        in.number("rotationB"));
  }

  private static NextPlacement placement(JsonIn in) {
    Xyr at = in.xyr("deviation");
    JsonIn v = in.object("variance");
    double df = in.number("degreesOfFreedom");
    return new NextPlacement(
        new BoardIndex(in.whole("column"), in.whole("row")),
        in.text("ref"),
        new DeviationDistribution(
            at.x(),
            at.y(),
            at.rotation(),
            v.number("x"),
            v.number("y"),
            v.number("rotation"),
            v.number("xy"),
            0,
            0,
            Double.isNaN(df) ? Double.POSITIVE_INFINITY : df));
  }
}
