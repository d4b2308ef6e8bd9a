package org.padtrue.report.record.print;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.padtrue.report.record.Attachment;
import org.padtrue.report.record.FirstArticleRecord;
import org.padtrue.report.record.IdentificationField;
import org.padtrue.report.words.ResultWords;

/** Attachments, cautions and lines to sign. */
final class ClosingPart {
  private ClosingPart() {}

  static void attachments(Markup m, FirstArticleRecord r) {
    m.element("h2", "Attachments", "id", "attachments");
    Set<String> attached = new HashSet<>();
    if (!r.attachments().isEmpty()) {
      m.open("table", "class", "long rows").open("thead").open("tr");
      m.element("th", "File", "style", "width: 20%");
      m.element("th", "What", "style", "width: 11%");
      m.element("th", "Bytes", "style", "width: 8%", "class", "n");
      m.element("th", "SHA-256");
      m.close("tr").close("thead").open("tbody");
      for (Attachment a : r.attachments()) {
        attached.add(a.file());
        m.open("tr").element("td", a.file()).element("td", a.role());
        m.element("td", Long.toString(a.bytes()), "class", "n");
        m.element("td", a.sha256(), "class", "hash").close("tr");
      }
      m.close("tbody").close("table");
    }
    List<String> missing = r.articles().stream().filter(a -> !attached.contains(a)).toList();
    if (!missing.isEmpty()) {
      m.element(
          "p", "Measured articles that are not attached: " + String.join(", ", missing) + ".");
    }
    notes(m, r.notes());
  }

  private static void notes(Markup m, List<String> notes) {
    if (notes.isEmpty()) {
      return;
    }
    m.open("div", "class", "block").element("h2", "Notes").open("ul");
    notes.forEach(n -> m.element("li", ResultWords.page(n)));
    m.close("ul").close("div");
  }

  static void cautions(Markup m) {
    m.open("div", "class", "block").element("h2", "Cautions").open("ul");
    FirstArticleRecord.CAUTIONS.forEach(c -> m.element("li", c));
    m.close("ul").close("div");
  }

  static void sign(Markup m, FirstArticleRecord r) {
    m.open("div", "class", "block").element("h2", "Signatures", "id", "signatures");
    m.open("table", "class", "form");
    m.open("tr");
    IdentificationPart.cell(m, r, IdentificationField.NONCONFORMANCE, "class", "wide");
    IdentificationPart.cell(m, r, IdentificationField.COMMENTS, "class", "wide");
    m.close("tr").close("table");
    m.open("table", "class", "form", "style", "margin-top: 2mm");
    line(m, r, IdentificationField.VERIFIED_BY, IdentificationField.VERIFIED_ON);
    line(m, r, IdentificationField.APPROVED_BY, IdentificationField.APPROVED_ON);
    line(m, r, IdentificationField.CUSTOMER_APPROVAL, IdentificationField.CUSTOMER_APPROVED_ON);
    m.close("table").close("div");
  }

  private static void line(
      Markup m, FirstArticleRecord r, IdentificationField who, IdentificationField when) {
    m.open("tr");
    IdentificationPart.cell(m, r, who, "class", "sign", "style", "width: 38%");
    m.open("td", "class", "sign").element("div", "Signature", "class", "label").close("td");
    IdentificationPart.cell(m, r, when, "class", "sign", "style", "width: 20%");
    m.close("tr");
  }
}
