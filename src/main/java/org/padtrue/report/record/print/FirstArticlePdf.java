package org.padtrue.report.record.print;

import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder.PdfAConformance;
import com.openhtmltopdf.util.XRLog;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import org.apache.pdfbox.pdfwriter.compress.CompressParameters;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.padtrue.report.record.FirstArticleRecord;

/**
 * The record as PDF: text that can be searched and copied, fonts embedded, page n of m, bookmarks;
 * marked as PDF/A-1b for the archive. Nothing is fetched from anywhere while it is made.
 */
public final class FirstArticlePdf {
  private FirstArticlePdf() {}

  /**
   * Writes a record; the stream stays open.
   *
   * @param record what to print
   * @param paper paper to print on
   * @param stream where to
   */
  public static void write(FirstArticleRecord record, Paper paper, OutputStream stream)
      throws IOException {
    XRLog.setLoggingEnabled(false);
    try (PDDocument document = new PDDocument();
        RecordFonts fonts = new RecordFonts(document)) {
      PdfRendererBuilder b = new PdfRendererBuilder();
      b.usePDDocument(document);
      b.useFastMode();
      // PDF/A: the library then takes embedded fonts only, and does not search the system's
      b.usePdfAConformance(PdfAConformance.PDFA_1_B);
      b.useColorProfile(ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData());
      fonts.addTo(b);
      b.useUriResolver((base, uri) -> null);
      b.withProducer("padtrue");
      b.withHtmlContent(RecordPage.of(record, paper), null);
      try (PdfBoxRenderer renderer = b.buildPdfRenderer()) {
        renderer.createPDFWithoutClosing();
        // PDF/A-1 knows no compressed object tables
        document.save(stream, CompressParameters.NO_COMPRESSION);
      }
    }
  }

  /** The same in memory. */
  public static byte[] bytes(FirstArticleRecord record, Paper paper) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      write(record, paper, out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }
}
