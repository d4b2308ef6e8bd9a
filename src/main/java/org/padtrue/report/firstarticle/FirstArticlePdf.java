package org.padtrue.report.firstarticle;

import com.openhtmltopdf.extend.FSSupplier;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder.PdfAConformance;
import com.openhtmltopdf.util.XRLog;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;

/**
 * The record as PDF: text that can be searched and copied, fonts embedded, page n of m, bookmarks;
 * marked as PDF/A-1b for the archive. Nothing is fetched from anywhere while it is made.
 */
public final class FirstArticlePdf {
  private static final String FONTS = "/liberation/Liberation";

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
    PdfRendererBuilder b = new PdfRendererBuilder();
    b.useFastMode();
    // PDF/A: the library then takes embedded fonts only, and does not search the system's
    b.usePdfAConformance(PdfAConformance.PDFA_1_B);
    b.useColorProfile(ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData());
    font(b, "Sans-Regular", "Record", 400);
    font(b, "Sans-Bold", "Record", 700);
    font(b, "Mono-Regular", "RecordMono", 400);
    b.useUriResolver((base, uri) -> null);
    b.withProducer("padtrue");
    b.withHtmlContent(RecordPage.of(record, paper), null);
    b.toStream(stream);
    b.run();
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

  private static void font(PdfRendererBuilder b, String file, String family, int weight) {
    FSSupplier<InputStream> bytes =
        () -> {
          InputStream in = FirstArticlePdf.class.getResourceAsStream(FONTS + file + ".ttf");
          if (in == null) {
            throw new IllegalStateException("font " + file + " is not on the class path");
          }
          return in;
        };
    b.useFont(bytes, family, weight, FontStyle.NORMAL, true);
  }
}
