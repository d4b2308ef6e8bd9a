package org.padtrue.report;

import com.fasterxml.jackson.databind.SequenceWriter;
import com.fasterxml.jackson.dataformat.csv.CsvGenerator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.OutputStream;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.analysis.Excluded;
import org.padtrue.analysis.FirstArticleResult;
import org.padtrue.analysis.PlacementResult;
import org.padtrue.analysis.TrimLine;

/**
 * The two tables for a spreadsheet: comma, decimal point, UTF-8, one header line, quotes where
 * needed, empty where a value does not apply or is not known.
 *
 * <pre>
 * trims.csv      where,kind,from,addX,addY,addRotation,addTurn,unit,frame,about,why
 * residuals.csv  panel,column,row,ref,part,nominalX,nominalY,nominalRotation,dx,dy,drotation,
 *                residualX,residualY,residualRotation,afterTrimX,afterTrimY,afterTrimRotation,
 *                margin,marginAfterTrim,verdict,kind
 * </pre>
 *
 * <p>Lengths are mm, angles degrees, panel frame, to six decimals (a nanometre); values of
 * trims.csv are in the unit that their line names, {@code addTurn} (90, 180, 270; empty for none)
 * in degrees. {@code kind} is {@code used} or why a placement was left out of the fit.
 */
final class CsvTables {
  static final List<String> TRIM_COLUMNS =
      List.of(
          "where",
          "kind",
          "from",
          "addX",
          "addY",
          "addRotation",
          "addTurn",
          "unit",
          "frame",
          "about",
          "why");
  static final List<String> RESIDUAL_COLUMNS =
      List.of(
          "panel",
          "column",
          "row",
          "ref",
          "part",
          "nominalX",
          "nominalY",
          "nominalRotation",
          "dx",
          "dy",
          "drotation",
          "residualX",
          "residualY",
          "residualRotation",
          "afterTrimX",
          "afterTrimY",
          "afterTrimRotation",
          "margin",
          "marginAfterTrim",
          "verdict",
          "kind");

  private CsvTables() {}

  /** One line per thing to change. */
  static void trims(List<TrimLine> trims, OutputStream stream) throws IOException {
    try (SequenceWriter w = writer(TRIM_COLUMNS, stream)) {
      for (TrimLine t : trims) {
        w.write(
            List.of(
                t.where(),
                t.kind(),
                t.from(),
                Show.plain(t.addX()),
                Show.plain(t.addY()),
                Show.plain(t.addRotation()),
                t.addTurn() == 0 ? "" : Integer.toString(t.addTurn()),
                t.unit(),
                t.frame(),
                t.about(),
                t.why()));
      }
    }
  }

  /** One line per measured placement. */
  static void residuals(FirstArticleResult r, OutputStream stream) throws IOException {
    Map<String, String> kinds = new HashMap<>();
    for (Excluded e : r.excluded()) {
      kinds.put(e.panel() + "/" + e.board() + "/" + e.ref(), e.kind());
    }
    try (SequenceWriter w = writer(RESIDUAL_COLUMNS, stream)) {
      for (PlacementResult p : r.placements()) {
        if (!Double.isNaN(p.deviation().x())) {
          String otherwise = p.used() ? "used" : "notUsed";
          w.write(residual(p, kinds.getOrDefault(p.panel() + "/" + p.id(), otherwise)));
        }
      }
    }
  }

  private static List<String> residual(PlacementResult p, String kind) {
    return List.of(
        p.panel(),
        Integer.toString(p.board().column()),
        Integer.toString(p.board().row()),
        p.ref(),
        p.part(),
        Show.plain(p.nominal().xMm()),
        Show.plain(p.nominal().yMm()),
        Show.plain(p.nominal().rotationDeg()),
        Show.plain(p.deviation().x()),
        Show.plain(p.deviation().y()),
        Show.plain(p.deviation().rotation()),
        Show.plain(p.residual().x()),
        Show.plain(p.residual().y()),
        Show.plain(p.residual().rotation()),
        Show.plain(p.afterTrim().x()),
        Show.plain(p.afterTrim().y()),
        Show.plain(p.afterTrim().rotation()),
        Show.plain(p.margin()),
        Show.plain(p.marginAfterTrim()),
        p.verdict(),
        kind);
  }

  private static SequenceWriter writer(List<String> columns, OutputStream stream)
      throws IOException {
    CsvSchema.Builder b = CsvSchema.builder();
    columns.forEach(b::addColumn);
    CsvMapper mapper = new CsvMapper();
    mapper.enable(CsvGenerator.Feature.STRICT_CHECK_FOR_QUOTING);
    return mapper.writer(b.build().withHeader().withLineSeparator("\n")).writeValues(stream);
  }
}
