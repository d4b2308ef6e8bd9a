package org.padtrue.report.record.print;

/** Paper to print on, upright. */
public enum Paper {
  /** 210 x 297 mm (ISO 216). */
  A4("A4"),
  /** 8.5 x 11 inch (ANSI/ASME Y14.1, size A). */
  LETTER("letter");

  private final String css;

  Paper(String css) {
    this.css = css;
  }

  /** Its name in style sheets. */
  String css() {
    return css;
  }
}
