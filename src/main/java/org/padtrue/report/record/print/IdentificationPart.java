package org.padtrue.report.record.print;

import java.util.List;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.IdentificationField;

/** Who and what: the head of every page and the form on the first. */
final class IdentificationPart {
  /** Two fields side by side. */
  private static final List<List<IdentificationField>> ROWS =
      List.of(
          List.of(IdentificationField.PART_NUMBER, IdentificationField.PART_NAME),
          List.of(IdentificationField.SERIAL_NUMBER, IdentificationField.RECORD_NUMBER),
          List.of(IdentificationField.PART_REVISION, IdentificationField.ADDITIONAL_CHANGES),
          List.of(IdentificationField.DRAWING_NUMBER, IdentificationField.DRAWING_REVISION),
          List.of(IdentificationField.PROCESS_REFERENCE, IdentificationField.ORGANISATION),
          List.of(IdentificationField.SUPPLIER_CODE, IdentificationField.PURCHASE_ORDER),
          List.of(IdentificationField.SCOPE, IdentificationField.EXTENT),
          List.of(IdentificationField.MACHINE, IdentificationField.OPERATOR),
          List.of(IdentificationField.BATCH, IdentificationField.CONDITIONS),
          List.of(IdentificationField.MEASURED_BY, IdentificationField.MEASURED_ON));

  private static final List<IdentificationField> EVERY_PAGE =
      List.of(
          IdentificationField.PART_NUMBER,
          IdentificationField.PART_NAME,
          IdentificationField.SERIAL_NUMBER,
          IdentificationField.RECORD_NUMBER);

  private static final int MOST_IN_HEAD = 34;

  private IdentificationPart() {}

  /** AS9102 repeats fields 1 to 4 on every sheet. */
  static void head(Markup m, FirstArticleRecord r) {
    m.open("div", "id", "head").open("table").open("tr");
    for (IdentificationField f : EVERY_PAGE) {
      String v = r.identification().value(f).orElse("");
      String shown = v.length() > MOST_IN_HEAD ? v.substring(0, MOST_IN_HEAD - 3) + "..." : v;
      m.element("td", f.form1() + " " + f.label() + ": " + shown);
    }
    m.close("tr").close("table").close("div");
  }

  static void form(Markup m, FirstArticleRecord r) {
    m.element("h2", "Identification", "id", "identification");
    m.open("table", "class", "form");
    for (List<IdentificationField> row : ROWS) {
      m.open("tr");
      row.forEach(f -> cell(m, r, f));
      m.close("tr");
    }
    m.close("table");
    m.element(
        "p",
        "Numbers before fields and columns are those of AS9102 Rev. C, forms 1 and 3; the layout is"
            + " not the standard's. Materials and special processes (form 2) and the index of parts"
            + " (form 1, 15 to 18) are not part of this record. Empty fields are to be filled in.",
        "class",
        "quiet");
  }

  /** One field: its number and name above, its value below, or nothing to write on. */
  static void cell(Markup m, FirstArticleRecord r, IdentificationField f, String... attributes) {
    m.open("td", attributes);
    m.element("div", label(f), "class", "label");
    m.element("div", r.identification().value(f).orElse(""));
    m.close("td");
  }

  private static String label(IdentificationField f) {
    return f.form1() == 0 ? f.label() : f.form1() + "  " + f.label();
  }
}
