package org.padtrue.report.page;

/** A small drawing of what plus means; lines take the colour of the text. */
final class SignFigure {
  private SignFigure() {}

  static void into(Html h) {
    h.open("figure", "class", "sign");
    h.raw(
        """
        <svg viewBox="0 0 450 170" role="img" aria-labelledby="signt signd">
        <title id="signt">What plus means</title>
        <desc id="signd">Panel frame: plus x to the right, plus y up, plus rotation \
        counter-clockwise, seen from the side being placed. Part frame: the same axes turned with \
        the part; for a part placed at 90 degrees, plus x of the part points up and plus y of the \
        part points left.</desc>
        <g fill="none" stroke="currentColor" stroke-width="1.6">
        <path d="M40 130H150"/><path d="M40 130V20"/>
        <path d="M94 124A54 54 0 0 0 61 80" stroke-dasharray="4 3"/>
        <path d="M312 112V22"/><path d="M312 112H222"/>
        <rect x="297" y="82" width="30" height="60" rx="3"/>
        </g>
        <g fill="currentColor">
        <path d="M158 130l-10-4.5v9z"/><path d="M40 12l-4.5 10h9z"/>
        <path d="M55 76l11 2-6 8z"/>
        <path d="M312 14l-4.5 10h9z"/><path d="M214 112l10-4.5v9z"/>
        <circle cx="302.500" cy="136.500" r="2.500"/>
        <g font-size="13">
        <text x="162" y="134">+x</text><text x="48" y="20">+y</text>
        <text x="92" y="88">+ rotation</text>
        <text x="322" y="24">+x of the part</text><text x="196" y="102">+y of the part</text>
        <text x="40" y="162" font-weight="600">Panel frame</text>
        <text x="214" y="162" font-weight="600">Part frame, part at 90\u00b0</text>
        </g></g></svg>
        """);
    h.element(
        "figcaption",
        "What plus means: seen from the side being placed, x to the right, y up, rotation"
            + " counter-clockwise. A value in the part frame turns with the part.");
    h.close("figure");
  }
}
