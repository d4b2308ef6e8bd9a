package org.padtrue.report.record.print;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PDFontSupplier;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/**
 * The fonts of a document, embedded as subsets: Liberation Sans and Mono (Latin, Greek, Cyrillic).
 * Ligatures are off: they make long tables three times slower and copied text worse.
 */
final class RecordFonts implements AutoCloseable {
  private static final String FOLDER = "/liberation/Liberation";

  private final PDDocument document;
  private final List<TrueTypeFont> open = new ArrayList<>();

  RecordFonts(PDDocument document) {
    this.document = document;
  }

  /** Makes the families Record (regular and bold) and RecordMono known. */
  void addTo(PdfRendererBuilder b) throws IOException {
    add(b, "Sans-Regular", "Record", 400);
    add(b, "Sans-Bold", "Record", 700);
    add(b, "Mono-Regular", "RecordMono", 400);
  }

  private void add(PdfRendererBuilder b, String file, String family, int weight)
      throws IOException {
    TrueTypeFont font = parse(file);
    font.setEnableGsub(false);
    open.add(font);
    PDFontSupplier supplier = new PDFontSupplier(PDType0Font.load(document, font, true));
    b.useFont(supplier, family, weight, FontStyle.NORMAL, true);
  }

  private static TrueTypeFont parse(String file) throws IOException {
    try (InputStream in = RecordFonts.class.getResourceAsStream(FOLDER + file + ".ttf")) {
      if (in == null) {
        throw new IllegalStateException("font " + file + " is not on the class path");
      }
      return new TTFParser().parse(new RandomAccessReadBuffer(in));
    }
  }

  @Override
  public void close() throws IOException {
    for (TrueTypeFont f : open) {
      f.close();
    }
  }
}
