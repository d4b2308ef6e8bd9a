package org.padtrue.report.record.print;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;

/**
 * What a PDF says to another reader: text by page, fonts, bookmarks, and how near text comes to the
 * edges.
 *
 * @param title its title
 * @param widthMm width of every page; NaN when they differ
 * @param heightMm height of every page
 * @param pages text of each page
 * @param fonts name of every font, and whether all of it is embedded
 * @param bookmarks titles
 * @param edgesMm least distance of a letter from the left and the right edge
 */
public record PdfReading(
    String title,
    double widthMm,
    double heightMm,
    List<String> pages,
    TreeMap<String, Boolean> fonts,
    List<String> bookmarks,
    double[] edgesMm) {
  private static final double MM = 25.4 / 72;

  /** Reads a PDF. */
  public static PdfReading of(byte[] pdf) {
    try (PDDocument d = Loader.loadPDF(new RandomAccessReadBuffer(new ByteArrayInputStream(pdf)))) {
      PDPage first = d.getPage(0);
      double width = first.getMediaBox().getWidth() * MM;
      double height = first.getMediaBox().getHeight() * MM;
      TreeMap<String, Boolean> fonts = new TreeMap<>();
      for (PDPage p : d.getPages()) {
        for (var name : p.getResources().getFontNames()) {
          var font = p.getResources().getFont(name);
          fonts.merge(font.getName(), font.isEmbedded(), Boolean::logicalAnd);
        }
        if (p.getMediaBox().getWidth() != first.getMediaBox().getWidth()
            || p.getMediaBox().getHeight() != first.getMediaBox().getHeight()) {
          width = Double.NaN;
        }
      }
      double[] edges = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
      List<String> pages = new ArrayList<>();
      for (int i = 1; i <= d.getNumberOfPages(); i++) {
        pages.add(text(d, i, width, edges));
      }
      return new PdfReading(
          d.getDocumentInformation().getTitle(), width, height, pages, fonts, bookmarks(d), edges);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Text of all pages. */
  public String text() {
    return String.join("\n", pages);
  }

  private static String text(PDDocument d, int page, double widthMm, double[] edges)
      throws IOException {
    PDFTextStripper s =
        new PDFTextStripper() {
          @Override
          protected void writeString(String text, List<TextPosition> at) throws IOException {
            for (TextPosition t : at) {
              edges[0] = Math.min(edges[0], t.getX() * MM);
              edges[1] = Math.min(edges[1], widthMm - (t.getX() + t.getWidth()) * MM);
            }
            super.writeString(text, at);
          }
        };
    s.setSortByPosition(true);
    s.setStartPage(page);
    s.setEndPage(page);
    return s.getText(d);
  }

  private static List<String> bookmarks(PDDocument d) {
    List<String> all = new ArrayList<>();
    var outline = d.getDocumentCatalog().getDocumentOutline();
    if (outline != null) {
      for (PDOutlineItem i : outline.children()) {
        all.add(i.getTitle());
      }
    }
    return all;
  }
}
