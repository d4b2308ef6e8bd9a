package org.padtrue.report.record.print;

/** How the printed record looks. */
final class RecordStyle {
  private static final String SHEET =
      """
      @page {
        size: %s portrait; margin: 24mm 13mm 17mm 13mm;
        @top-left { content: element(head); vertical-align: bottom; width: 100%%; }
        @bottom-left { content: "First article record"; font: 8pt Record; color: #444; }
        @bottom-right { content: "page " counter(page) " of " counter(pages);
                        font: 8pt Record; color: #444; }
      }
      #head { position: running(head); font-size: 8pt; color: #444; padding-bottom: 2.5mm; }
      #head table { border-bottom: 0.5pt solid #888; }
      #head td { padding: 0 2mm 1mm 0; border: 0; }
      body { font: 9pt/1.3 Record; color: #111; margin: 0; }
      h1 { font-size: 17pt; margin: 0 0 1mm 0; line-height: 1.15; }
      h2 { font-size: 11.5pt; margin: 5mm 0 1.5mm 0; page-break-after: avoid; }
      p { margin: 0 0 1.5mm 0; }
      .lead { font-size: 10pt; }
      .quiet { color: #444; font-size: 8pt; }
      .block { page-break-inside: avoid; }
      table { border-collapse: collapse; width: 100%%; table-layout: fixed; }
      table.long { -fs-table-paginate: paginate; -fs-border-rendering: no-bevel; }
      td, th { padding: 0.7mm 1.2mm; text-align: left; vertical-align: top;
               word-wrap: break-word; border-bottom: 0.4pt solid #bbb; }
      th { font-size: 8pt; border-bottom: 0.8pt solid #333; background: #eee;
           vertical-align: bottom; }
      tr { page-break-inside: avoid; }
      thead { display: table-header-group; }
      .n { text-align: right; }
      .rows td { font-size: 8pt; line-height: 1.2; padding: 0.45mm 1mm; }
      .rows th { padding: 0.6mm 1mm; }
      .first td { border-top: 0.6pt solid #777; }
      .out { font-weight: bold; background: #f3d9d9; }
      .open { font-weight: bold; }
      .form { border-collapse: separate; border-spacing: 0; border-top: 0.5pt solid #999;
              border-left: 0.5pt solid #999; }
      .form td { border: 0; border-right: 0.5pt solid #999; border-bottom: 0.5pt solid #999;
                 height: 8.5mm; }
      .form .wide { height: 11mm; }
      .form .sign { height: 13mm; }
      .label { font-size: 7.5pt; color: #444; }
      .hash { font: 7.5pt RecordMono; }
      .box { border: 0.8pt solid #333; padding: 2mm 3mm; margin: 2mm 0; }
      ul { margin: 0 0 1.5mm 0; padding-left: 5mm; }
      li { margin: 0 0 0.6mm 0; }
      """;

  private RecordStyle() {}

  static String of(Paper paper) {
    return SHEET.formatted(paper.css());
  }
}
