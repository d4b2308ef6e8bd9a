package org.padtrue.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.firstarticle.result.PlacementResult;
import org.padtrue.firstarticle.result.TrimLine;

class CsvTablesTest {
  /** Six decimals are written. */
  private static final double HALF_STEP_TOL = 0.5000001e-6;

  @Test
  void trimsComeBackAsWritten() throws IOException {
    FirstArticleResult r = SampleResults.of(120);
    List<Map<String, String>> rows = read(trims(r));
    assertThat(rows).hasSameSizeAs(r.trims());
    for (int i = 0; i < rows.size(); i++) {
      TrimLine t = r.trims().get(i);
      Map<String, String> row = rows.get(i);
      assertThat(row.keySet()).containsExactlyElementsOf(CsvTables.TRIM_COLUMNS);
      assertThat(row.get("where")).isEqualTo(t.where());
      assertThat(row.get("kind")).doesNotContainPattern("[a-z][A-Z]");
      assertThat(row.get("about")).isEqualTo(t.about());
      assertThat(row.get("why")).isEqualTo(t.why());
      same(row.get("add_x"), t.addX());
      same(row.get("add_y"), t.addY());
      same(row.get("add_rotation_deg"), t.addRotation());
      assertThat(row.get("add_turn_deg")).isEqualTo(t.addTurn() == 0 ? "" : "" + t.addTurn());
    }
  }

  @Test
  void everyMeasuredPlacementHasALine() throws IOException {
    FirstArticleResult r = SampleResults.of(400);
    List<PlacementResult> measured =
        r.placements().stream().filter(p -> !Double.isNaN(p.deviation().x())).toList();
    List<Map<String, String>> rows = read(residuals(r));
    assertThat(rows).hasSize(r.counts().measured()).hasSameSizeAs(measured);
    for (int i = 0; i < rows.size(); i++) {
      PlacementResult p = measured.get(i);
      Map<String, String> row = rows.get(i);
      assertThat(row.get("column") + "/" + row.get("row") + "/" + row.get("ref")).isEqualTo(p.id());
      same(row.get("nominal_x_mm"), p.nominal().xMm());
      same(row.get("dx_mm"), p.deviation().x());
      same(row.get("drotation_deg"), p.deviation().rotation());
      same(row.get("residual_y_mm"), p.residual().y());
      same(row.get("after_trim_x_mm"), p.afterTrim().x());
      same(row.get("margin_to_limit_mm"), p.margin());
    }
    assertThat(rows.stream().filter(row -> row.get("kind").equals("a quarter turn"))).hasSize(2);
    assertThat(rows.stream().filter(row -> row.get("kind").equals("used")))
        .hasSize(r.counts().used());
  }

  @Test
  void headersAreThoseDocumented() throws IOException {
    assertThat(trims(SampleResults.nothingToDo(20)))
        .isEqualTo(
            "where,kind,from,add_x,add_y,unit,add_rotation_deg,add_turn_deg,add_squareness_mrad,se_x,se_y,se_rotation_deg,se_squareness_mrad,takes_out_um_rms,fewer_outside,frame,about,why\n");
    assertThat(residuals(SampleResults.of(20)))
        .startsWith(
            "panel,column,row,ref,part,nominal_x_mm,nominal_y_mm,nominal_rotation_deg,dx_mm,dy_mm,"
                + "drotation_deg,residual_x_mm,residual_y_mm,residual_rotation_deg,after_trim_x_mm,"
                + "after_trim_y_mm,after_trim_rotation_deg,margin_to_limit_mm,"
                + "margin_to_limit_after_trim_mm,verdict,kind\n");
  }

  @Test
  void hostileNamesStayInTheirFields() throws IOException {
    FirstArticleResult r = HostileResults.of(SampleResults.of(60));
    List<Map<String, String>> rows = read(trims(r));
    assertThat(rows.get(0).get("where")).isEqualTo(r.trims().get(0).where());
    assertThat(rows.get(0).get("why")).isEqualTo(HostileResults.EVIL);
    assertThat(read(residuals(r)).get(0).get("ref")).isEqualTo(r.placements().get(0).ref());
  }

  private static void same(String written, double value) {
    if (Double.isNaN(value)) {
      assertThat(written).isEmpty();
    } else {
      assertThat(written).doesNotContain("E");
      assertThat(Double.parseDouble(written)).isEqualTo(value, within(HALF_STEP_TOL));
    }
  }

  private static String trims(FirstArticleResult r) throws IOException {
    ByteArrayOutputStream b = new ByteArrayOutputStream();
    CsvTables.trims(r.trims(), b);
    return b.toString(StandardCharsets.UTF_8);
  }

  private static String residuals(FirstArticleResult r) throws IOException {
    ByteArrayOutputStream b = new ByteArrayOutputStream();
    CsvTables.residuals(r, b);
    return b.toString(StandardCharsets.UTF_8);
  }

  private static List<Map<String, String>> read(String csv) throws IOException {
    try (MappingIterator<Map<String, String>> it =
        new CsvMapper()
            .readerForMapOf(String.class)
            .with(CsvSchema.emptySchema().withHeader())
            .readValues(csv)) {
      return it.readAll();
    }
  }
}
