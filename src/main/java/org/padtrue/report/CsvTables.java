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
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.Excluded;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TrimEffect;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.report.words.KeyWords;
import org.padtrue.report.words.Show;
import org.padtrue.report.words.TrimText;

/**
 * The two tables for a spreadsheet: comma, decimal point, UTF-8, one header line, quotes where
 * needed, empty where a value does not apply or is not known.
 *
 * <pre>
 * trims.csv      where,kind,from,add_x,add_y,unit,add_rotation_deg,add_turn_deg,add_squareness_mrad,
 *                se_x,se_y,se_rotation_deg,se_squareness_mrad,takes_out_um_rms,fewer_outside,
 *                frame,about,why
 * residuals.csv  panel,column,row,ref,part,nominal_x_mm,nominal_y_mm,nominal_rotation_deg,dx_mm,
 *                dy_mm,drotation_deg,residual_x_mm,residual_y_mm,residual_rotation_deg,
 *                after_trim_x_mm,after_trim_y_mm,after_trim_rotation_deg,margin_to_limit_mm,
 *                margin_to_limit_after_trim_mm,verdict,kind
 * </pre>
 *
 * <p>Panel frame, to six decimals (a nanometre). {@code unit} is that of add_x, add_y, se_x, se_y:
 * mm, or ppm for the scale of the axes; se is one standard error of the estimate that is corrected;
 * a turn (90, 180, 270) is empty for none. {@code kind} of residuals is {@code used} or why a
 * placement was left out of the fit, in words.
 */
final class CsvTables {
  static final List<String> TRIM_COLUMNS =
      List.of(
          "where",
          "kind",
          "from",
          "add_x",
          "add_y",
          "unit",
          "add_rotation_deg",
          "add_turn_deg",
          "add_squareness_mrad",
          "se_x",
          "se_y",
          "se_rotation_deg",
          "se_squareness_mrad",
          "takes_out_um_rms",
          "fewer_outside",
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
          "nominal_x_mm",
          "nominal_y_mm",
          "nominal_rotation_deg",
          "dx_mm",
          "dy_mm",
          "drotation_deg",
          "residual_x_mm",
          "residual_y_mm",
          "residual_rotation_deg",
          "after_trim_x_mm",
          "after_trim_y_mm",
          "after_trim_rotation_deg",
          "margin_to_limit_mm",
          "margin_to_limit_after_trim_mm",
          "verdict",
          "kind");

  private CsvTables() {}

  /** One line per thing to change. */
  static void trims(List<TrimLine> trims, OutputStream stream) throws IOException {
    try (SequenceWriter w = writer(TRIM_COLUMNS, stream)) {
      for (TrimLine t : trims) {
        TrimEffect e = t.effect();
        boolean plane = !Double.isNaN(t.addX()) || !Double.isNaN(t.addY());
        w.write(
            List.of(
                t.where(),
                KeyWords.trimKind(t.kind()),
                t.from(),
                Show.plain(t.addX()),
                Show.plain(t.addY()),
                plane ? TrimText.units(t).get(0) : "",
                Show.plain(t.addRotation()),
                t.addTurn() == 0 ? "" : Integer.toString(t.addTurn()),
                Show.plain(t.addSquareness()),
                error(t.addX(), e.standardErrors().x()),
                error(t.addY(), e.standardErrors().y()),
                error(t.addRotation(), e.standardErrors().rotation()),
                error(t.addSquareness(), e.squarenessError()),
                Show.plain(1000 * e.takesOutMm()),
                Show.plain(e.fewerOutside()),
                t.frame(),
                t.about(),
                t.why()));
      }
    }
  }

  private static String error(double value, double se) {
    return Double.isNaN(value) ? "" : Show.plain(se);
  }

  /** One line per measured placement. */
  static void residuals(FirstArticleResult r, OutputStream stream) throws IOException {
    Map<String, String> kinds = new HashMap<>();
    for (Excluded e : r.excluded()) {
      kinds.put(e.panel() + "/" + e.board() + "/" + e.ref(), KeyWords.kind(e.kind()));
    }
    try (SequenceWriter w = writer(RESIDUAL_COLUMNS, stream)) {
      for (PlacementResult p : r.placements()) {
        if (!Double.isNaN(p.deviation().x())) {
          String otherwise = p.used() ? "used" : "not used";
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
        KeyWords.verdict(p.verdict()),
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
