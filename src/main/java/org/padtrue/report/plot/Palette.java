package org.padtrue.report.plot;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;

/**
 * Colours and fonts of all charts. The colours are from M. Okabe and K. Ito, "Color Universal
 * Design: how to make figures and presentations that are friendly to colorblind people", 2008.
 */
final class Palette {
  static final Color BLACK = new Color(0x000000);
  static final Color ORANGE = new Color(0xE69F00);
  static final Color SKY = new Color(0x56B4E9);
  static final Color GREEN = new Color(0x009E73);
  static final Color BLUE = new Color(0x0072B2);
  static final Color VERMILION = new Color(0xD55E00);

  /** As measured, before anything is changed. */
  static final Color BEFORE = new Color(0xB27A00);

  /** With the trims entered, and what the fit leaves. */
  static final Color AFTER = BLUE;

  /** Limits, and what is beyond them. */
  static final Color LIMIT = VERMILION;

  static final Color INK = new Color(0x22262B);
  static final Color QUIET = new Color(0x6B737C);
  static final Color GRID = new Color(0xE3E6E9);
  static final Color OUTLINE = new Color(0x9AA2AA);
  static final Color PAPER = Color.WHITE;

  static final Font TITLE = new Font(Font.SANS_SERIF, Font.BOLD, 15);
  static final Font AXIS = new Font(Font.SANS_SERIF, Font.PLAIN, 13);
  static final Font TICK = new Font(Font.SANS_SERIF, Font.PLAIN, 12);
  static final Font SMALL = new Font(Font.SANS_SERIF, Font.PLAIN, 11);

  static final BasicStroke HAIR = new BasicStroke(0.8f);
  static final BasicStroke LINE = new BasicStroke(1.4f);
  static final BasicStroke DASH =
      new BasicStroke(
          1.2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, new float[] {5, 4}, 0);

  private Palette() {}

  static Color faint(Color c, int alpha) {
    return new Color(c.getRed(), c.getGreen(), c.getBlue(), alpha);
  }
}
