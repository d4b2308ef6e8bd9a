package org.padtrue.report.file;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.padtrue.imaging.ArticleRow;
import org.padtrue.imaging.DetectionResult;

/**
 * The article that pictures gave, as {@code analyse} reads it: comma, decimal point, UTF-8.
 *
 * <pre>
 * panel,column,row,ref,x,y,rotation,u,urotation,note
 * P1,1,1,R1,12.54137,19.96912,90.184,0.00412,0.061,
 * P1,1,1,R2,,,,,,part missing: its bare lands show
 * P1,1,1,F1,-3.99871,3.00102,,0.00088,,
 * # registered on parts
 * </pre>
 *
 * <p>Millimetres and degrees, panel frame. Remarks on the whole file stand behind the rows, so that
 * the header stays the first line.
 */
public final class ArticleCsv {
  private static final String HEADER = "panel,column,row,ref,x,y,rotation,u,urotation,note";

  private ArticleCsv() {}

  /** Complains where an article could not be written; nothing is left behind. */
  public static void checkPlace(Path to) {
    OneFile.checkPlace(to);
  }

  /**
   * Writes an article, whole or not at all.
   *
   * @param rows what was measured
   * @param remarks comment lines, without their mark
   * @param to CSV file
   */
  public static void write(List<ArticleRow> rows, List<String> remarks, Path to) {
    OneFile.write(to, out -> write(rows, remarks, out));
  }

  /** What must be said of an article that pictures gave, as comment lines without their mark. */
  public static List<String> remarks(DetectionResult r) {
    List<String> remarks = new ArrayList<>();
    if (r.partsRegistered()) {
      remarks.add("registered on parts: panel shift and rotation cannot be known");
    }
    if (r.landsRegistered()) {
      remarks.add("registered on lands: board stretch and scale cannot be told apart");
    }
    if (!r.typesWithoutOffset().isEmpty()) {
      remarks.add("type offset not known: " + String.join("; ", r.typesWithoutOffset()));
    }
    return remarks;
  }

  private static void write(List<ArticleRow> rows, List<String> remarks, OutputStream out)
      throws IOException {
    out.write(text(rows, remarks).getBytes(StandardCharsets.UTF_8));
  }

  /** The same as text. */
  public static String text(List<ArticleRow> rows, List<String> remarks) {
    StringBuilder b = new StringBuilder(HEADER).append('\n');
    for (ArticleRow r : rows) {
      b.append(text(r.panel())).append(',').append(r.column()).append(',').append(r.row());
      b.append(',').append(text(r.ref()));
      b.append(',').append(number(r.xMm(), 5)).append(',').append(number(r.yMm(), 5));
      b.append(',').append(number(r.rotationDeg(), 4));
      b.append(',').append(number(r.uMm(), 5)).append(',').append(number(r.uRotationDeg(), 4));
      b.append(',').append(text(r.note())).append('\n');
    }
    remarks.forEach(c -> b.append("# ").append(c).append('\n'));
    return b.toString();
  }

  private static String number(double v, int digits) {
    return Double.isFinite(v) ? String.format(Locale.ROOT, "%." + digits + "f", v) : "";
  }

  private static String text(String s) {
    return s.matches("(?s).*[\",\\r\\n#].*") ? "\"" + s.replace("\"", "\"\"") + "\"" : s;
  }
}
