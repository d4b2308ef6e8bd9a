package org.padtrue.web.result;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.Xyr;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.picture.PicturesView;
import org.padtrue.web.server.ShownNumbers;

/**
 * One placement in full.
 *
 * @param title its name
 * @param lines what is known, name and value
 * @param remarks what else there is to say
 * @param crop what a picture shows of it, or null
 * @param article its article, for the picture
 */
public record PlacementView(
    String title,
    List<Line> lines,
    List<String> remarks,
    PicturesView.@Nullable Card crop,
    String article) {
  /** One thing that is known. */
  public record Line(String name, String value) {}

  static PlacementView of(
      FirstArticleResult r, PlacementResult p, PicturesView.@Nullable Card crop, String article) {
    List<Line> lines = new ArrayList<>();
    lines.add(new Line("part type", p.part()));
    lines.add(
        new Line(
            "nominal",
            "x "
                + ShownNumbers.number(p.nominal().xMm(), 3)
                + ", y "
                + ShownNumbers.number(p.nominal().yMm(), 3)
                + " mm, "
                + ShownNumbers.number(p.nominal().rotationDeg(), 3)
                + "\u00b0"));
    lines.add(new Line("measured minus nominal", xyr(p.deviation())));
    lines.add(new Line("left by the fit", xyr(p.residual())));
    lines.add(new Line("with the trims entered", xyr(p.afterTrim())));
    lines.add(
        new Line(
            "left before the limit",
            ShownNumbers.number(p.margin() * 1000, 0)
                + " \u00b5m, with the trims "
                + ShownNumbers.number(p.marginAfterTrim() * 1000, 0)
                + " \u00b5m"));
    lines.add(new Line("verdict", p.verdict()));
    List<String> remarks =
        r.excluded().stream()
            .filter(
                e ->
                    e.panel().equals(p.panel())
                        && e.board().equals(p.board())
                        && e.ref().equals(p.ref()))
            .map(e -> ResultWords.page(e.sentence()))
            .toList();
    return new PlacementView(p.id(), lines, remarks, crop, article);
  }

  private static String xyr(Xyr d) {
    return Double.isFinite(d.x())
        ? "x "
            + ShownNumbers.um(d.x())
            + ", y "
            + ShownNumbers.um(d.y())
            + " \u00b5m, "
            + ShownNumbers.signed(d.rotation(), 3)
            + "\u00b0"
        : "not measured";
  }
}
