package org.padtrue.web.kept;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.padtrue.load.article.ArticleExtras;
import org.padtrue.panel.BoardIndex;
import org.padtrue.panel.Factor;
import org.padtrue.panel.Levels;
import org.padtrue.panel.Measured;
import org.padtrue.panel.article.Article;
import org.padtrue.panel.article.MeasuredFault;
import org.padtrue.panel.article.MeasuredFiducial;
import org.padtrue.quantity.Angles;

/**
 * An article as a file that says all that the article says: mm and degrees, poses where the article
 * had poses, else deviations; numbers at full precision.
 */
public final class SavedCsv {
  /** Comments that the head of this file says in its own way, or that name a unit. */
  private static final Pattern SAID =
      Pattern.compile(
          "(?i).*(temperature|registered[\\s=:_-]+on|type offset not known"
              + "|\\b(units?|mm|cm|mils?|inch(es)?|in|um|\u00b5m|\u03bcm|microns?|metric|imperial)\\b).*");

  private final Article article;
  private final ArticleExtras extras;
  private final Map<String, Instant> typed;
  private final StringBuilder out = new StringBuilder();

  private SavedCsv(Article article, ArticleExtras extras, Map<String, Instant> typed) {
    this.article = article;
    this.extras = extras;
    this.typed = typed;
  }

  /**
   * The file.
   *
   * @param extras what the uploaded file says besides
   * @param typed when placements were typed, by panel/column/row/ref
   */
  public static String of(Article article, ArticleExtras extras, Map<String, Instant> typed) {
    SavedCsv csv = new SavedCsv(article, extras, typed);
    csv.head();
    csv.rows();
    return csv.out.toString();
  }

  private void head() {
    if (article.partsRegistered()) {
      out.append("# registered on parts\n");
    }
    if (article.landsRegistered()) {
      out.append("# registered on lands\n");
    }
    article.temperatureC().ifPresent(t -> out.append("# temperature = " + number(t) + " C\n"));
    if (!article.relativeTypes().isEmpty()) {
      out.append("# type offset not known: ")
          .append(String.join("; ", new TreeSet<>(article.relativeTypes())))
          .append('\n');
    }
    for (String c : extras.comments()) {
      if (!c.isBlank() && !SAID.matcher(c).matches()) {
        out.append("# ").append(c.strip()).append('\n');
      }
    }
    List<String> head = new ArrayList<>(List.of("panel", "column", "row", "ref"));
    head.addAll(
        article.poses()
            ? List.of("x (mm)", "y (mm)", "rotation")
            : List.of("dx (mm)", "dy (mm)", "drotation"));
    head.addAll(List.of("u (mm)", "urotation"));
    Factor.listedOnes().forEach(f -> head.add(f.key()));
    head.addAll(List.of("order", "time", "status", "note"));
    out.append(String.join(",", head)).append('\n');
  }

  private void rows() {
    for (MeasuredFiducial f : article.fiducials()) {
      boolean pose = article.poses();
      row(
          f.panel(),
          f.board(),
          f.fiducial().name(),
          pose ? f.nominalXMm() + f.dxMm() : f.dxMm(),
          pose ? f.nominalYMm() + f.dyMm() : f.dyMm(),
          Double.NaN,
          f.uMm(),
          Double.NaN,
          Levels.NONE,
          Double.NaN,
          List.of("", "", ""));
    }
    for (Measured m : article.measured()) {
      boolean pose = article.poses();
      Instant at = typed.get(m.panel() + "/" + m.id());
      String time = at == null ? extras.times().getOrDefault(m.line(), "") : at.toString();
      row(
          m.panel(),
          m.board(),
          m.placement().ref(),
          pose ? m.nominal().xMm() + m.dxMm() : m.dxMm(),
          pose ? m.nominal().yMm() + m.dyMm() : m.dyMm(),
          turn(m.dRotationDeg(), m.nominal().rotationDeg()),
          m.uMm(),
          m.uRotationDeg(),
          m.levels(),
          m.order(),
          List.of(time, "", m.note()));
    }
    for (MeasuredFault f : article.faults()) {
      boolean pose = article.poses();
      row(
          f.panel(),
          f.board(),
          f.placement().ref(),
          pose ? f.nominal().xMm() + f.dxMm() : f.dxMm(),
          pose ? f.nominal().yMm() + f.dyMm() : f.dyMm(),
          turn(f.dRotationDeg(), f.nominal().rotationDeg()),
          Double.NaN,
          Double.NaN,
          Levels.NONE,
          Double.NaN,
          List.of(
              extras.times().getOrDefault(f.line(), ""),
              f.said().isEmpty() ? f.kind().key() : f.said(),
              ""));
    }
  }

  private double turn(double dRotationDeg, double nominalDeg) {
    return article.poses() ? Angles.wrap(nominalDeg + dRotationDeg) : dRotationDeg;
  }

  private void row(
      String panel,
      BoardIndex board,
      String ref,
      double x,
      double y,
      double rotation,
      double u,
      double uRotation,
      Levels levels,
      double order,
      List<String> texts) {
    List<String> cells = new ArrayList<>();
    cells.add(quoted(panel));
    cells.add(Integer.toString(board.column()));
    cells.add(Integer.toString(board.row()));
    cells.add("\"" + ref.replace("\"", "\"\"") + "\"");
    for (double v : new double[] {x, y, rotation, u, uRotation}) {
      cells.add(number(v));
    }
    for (Factor f : Factor.listedOnes()) {
      String level = levels.get(f);
      cells.add(level == null ? "" : quoted(level));
    }
    cells.add(number(order));
    texts.forEach(t -> cells.add(quoted(t)));
    out.append(String.join(",", cells)).append('\n');
  }

  private static String quoted(String s) {
    return s.matches("[\\p{L}\\p{N}_.:+-]*") ? s : "\"" + s.replace("\"", "\"\"") + "\"";
  }

  /** A number at full precision; empty when not known. */
  public static String number(double v) {
    return Double.isNaN(v) ? "" : new BigDecimal(Double.toString(v)).toPlainString();
  }
}
