package org.padtrue.report.plot.ink;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;

/**
 * Colours and fonts of all charts. The colours are from M. Okabe and K. Ito, "Color Universal
 * Design: how to make figures and presentations that are friendly to colorblind people", 2008.
 */
public final class Palette {
  static final Color BLACK = new Color(0x000000);
  public static final Color ORANGE = new Color(0xE69F00);
  public static final Color SKY = new Color(0x56B4E9);
  public static final Color GREEN = new Color(0x009E73);
  public static final Color BLUE = new Color(0x0072B2);
  public static final Color VERMILION = new Color(0xD55E00);

  /** As measured, before anything is changed. */
  public static final Color BEFORE = new Color(0xB27A00);

  /** With the trims entered, and what the fit leaves. */
  public static final Color AFTER = BLUE;

  /** Limits, and what is beyond them. */
  public static final Color LIMIT = VERMILION;

  public static final Color INK = new Color(0x22262B);
  public static final Color QUIET = new Color(0x6B737C);
  public static final Color GRID = new Color(0xE3E6E9);
  public static final Color OUTLINE = new Color(0x9AA2AA);
  public static final Color PAPER = Color.WHITE;

  public static final Font TITLE = new Font(Font.SANS_SERIF, Font.BOLD, 15);
  static final Font AXIS = new Font(Font.SANS_SERIF, Font.PLAIN, 13);
  public static final Font TICK = new Font(Font.SANS_SERIF, Font.PLAIN, 12);
  public static final Font SMALL = new Font(Font.SANS_SERIF, Font.PLAIN, 11);

  public static final BasicStroke HAIR = new BasicStroke(0.8f);
  public static final BasicStroke LINE = new BasicStroke(1.4f);
  public static final BasicStroke DASH =
      new BasicStroke(
          1.2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, new float[] {5, 4}, 0);

  private Palette() {}

  public static Color faint(Color c, int alpha) {
    return new Color(c.getRed(), c.getGreen(), c.getBlue(), alpha);
  }
}
