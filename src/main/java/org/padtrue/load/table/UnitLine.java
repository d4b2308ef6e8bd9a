package org.padtrue.load.table;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.padtrue.quantity.LengthUnit;

/**
 * Finds the unit that a banner or comment line states: "Units used: mil", "## Unit = mm, Angle =
 * deg.", "X,Y in mils", "Coordinates in mm", or the unit alone on its line.
 */
final class UnitLine {
  private static final String UNIT =
      "(mm|millimet(?:er|re)s?|um|\u00b5m|\u03bcm|microns?|micromet(?:er|re)s?|mils?|thou|inch(?:es)?|in)"
          + "(?![\\p{L}\\d])";
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;

  private static final List<Pattern> PATTERNS =
      List.of(
          Pattern.compile(
              "(?:unit(?:s|e)?|einheit(?:en)?)(?:\\s+(?:used|is|are|of\\s+\\w+))?\\s*[:=,;\\t ]?\\s*[\"'(\\[]?\\s*"
                  + UNIT,
              FLAGS),
          Pattern.compile(
              "(?:x\\s*(?:,|/|and|&|\\+)\\s*y|coordinates?|dimensions?|positions?|locations?|values?"
                  + "|lengths?|distances?)\\s*(?:values?|coordinates?|positions?)?"
                  + "\\s*(?:are|is|given|all)?\\s*(?:in|-|:|=|\\(|\\[)\\s*"
                  + UNIT,
              FLAGS),
          Pattern.compile("^\\W*" + UNIT + "\\W*$", FLAGS));

  private UnitLine() {}

  static Optional<LengthUnit> of(String line) {
    for (Pattern p : PATTERNS) {
      Matcher m = p.matcher(line);
      if (m.find()) {
        return LengthUnit.parse(m.group(1));
      }
    }
    return Optional.empty();
  }
}
