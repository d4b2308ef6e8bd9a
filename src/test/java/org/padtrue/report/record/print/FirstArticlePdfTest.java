package org.padtrue.report.record.print;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.preflight.ValidationResult;
import org.apache.pdfbox.preflight.parser.PreflightParser;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.report.SampleResults;
import org.padtrue.report.record.Characteristic;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.FirstArticleRecords;
import org.padtrue.report.record.Identification;
import org.padtrue.report.record.IdentificationField;
import org.padtrue.report.record.RecordOptions;

/** Paper, archive form, awkward text and cost of the printed record. */
class FirstArticlePdfTest {
  private static final String LONG = "Quarterdeck-anemometer/".repeat(9) + "end";

  @TempDir private Path dir;

  private static FirstArticleRecord record(Identification i) {
    return FirstArticleRecords.of(SampleResults.of(30), RecordOptions.withDefaults().with(i));
  }

  /** As many characteristics as wanted. */
  private static FirstArticleRecord sized(FirstArticleRecord r, int n) {
    List<Characteristic> all = new ArrayList<>();
    while (all.size() < n) {
      all.addAll(
          r.characteristics().subList(0, Math.min(r.characteristics().size(), n - all.size())));
    }
    return new FirstArticleRecord(
        r.identification(),
        r.job(),
        r.side(),
        r.stage(),
        r.reference(),
        r.acceptanceClass(),
        r.limits(),
        r.limitSummary(),
        r.articles(),
        r.measuring(),
        all,
        r.trims(),
        r.check(),
        r.moved(),
        r.attachments(),
        r.notes());
  }

  /** ANSI/ASME Y14.1, size A: 8.5 x 11 inch. */
  @Test
  void letterIsLetter() {
    PdfReading p =
        PdfReading.of(FirstArticlePdf.bytes(record(Identification.none()), Paper.LETTER));
    assertThat(p.widthMm()).isCloseTo(8.5 * 25.4, within(0.1));
    assertThat(p.heightMm()).isCloseTo(11 * 25.4, within(0.1));
    assertThat(p.edgesMm()[1]).isGreaterThan(12);
  }

  /** PDF/A-1b (ISO 19005-1) as a validator for it sees it. */
  @Test
  void isFitForTheArchive() throws Exception {
    Path f = dir.resolve("a.pdf");
    Files.write(f, FirstArticlePdf.bytes(record(Identification.none()), Paper.A4));
    ValidationResult v = PreflightParser.validate(f.toFile());
    assertThat(v.getErrorsList())
        .extracting(ValidationResult.ValidationError::getDetails)
        .isEmpty();
    assertThat(v.isValid()).isTrue();
  }

  @Test
  void awkwardTextComesOutWhole() {
    Identification i =
        Identification.none()
            .with(IdentificationField.PART_NAME, LONG)
            .with(
                IdentificationField.ORGANISATION,
                "<b>K\u00fcste & \"S\u00f6hne\"</b> &amp; \u0416\u03a9")
            .with(IdentificationField.COMMENTS, "a\u0000b\u0007c\uffffd \ud800 ]]> <!-- -->")
            .with(IdentificationField.PART_NUMBER, "</title><script>");
    PdfReading p = PdfReading.of(FirstArticlePdf.bytes(record(i), Paper.A4));
    String text = p.text().replaceAll("\\s+", " ");
    assertThat(text)
        .contains("<b>K\u00fcste & \"S\u00f6hne\"</b> &amp; \u0416\u03a9")
        .contains("]]> <!-- -->")
        .contains("</title><script>");
    assertThat(p.title()).isEqualTo("First article record, </title><script>");
    // broken over lines, not cut off: every piece is there, and nothing runs out of the page
    assertThat(text.split("anemometer", -1).length - 1).isGreaterThanOrEqualTo(9);
    assertThat(p.edgesMm()[0]).isGreaterThan(12);
    assertThat(p.edgesMm()[1]).isGreaterThan(12);
    assertThat(p.fonts().values()).containsOnly(true);
  }

  /** No field is invented: without identification every value cell is empty. */
  @Test
  void nothingIsInvented() {
    Markup m = new Markup();
    IdentificationPart.form(m, record(Identification.none()));
    assertThat(m.toString().split("<div></div>", -1)).hasSize(20 + 1);
  }

  /** Cost grows with the number of lines: processor time of four times as many. */
  @Test
  void costIsLinear() {
    FirstArticleRecord r = record(Identification.none());
    FirstArticlePdf.bytes(sized(r, 200), Paper.A4);
    double once = cpuSeconds(sized(r, 200));
    double four = cpuSeconds(sized(r, 800));
    System.out.printf("800 lines cost %.1f times as much as 200%n", four / once);
    assertThat(four / once).isLessThan(8);
  }

  private static double cpuSeconds(FirstArticleRecord r) {
    var threads = ManagementFactory.getThreadMXBean();
    long start = threads.getCurrentThreadCpuTime();
    FirstArticlePdf.bytes(r, Paper.A4);
    return (threads.getCurrentThreadCpuTime() - start) / 1e9;
  }
}
