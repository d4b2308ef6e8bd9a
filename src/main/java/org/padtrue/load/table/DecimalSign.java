package org.padtrue.load.table;

import java.util.regex.Pattern;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextPieces;

/**
 * Tells a decimal comma from a decimal point by all numbers of a table.
 *
 * <p>Commas that all have three digits behind them may part thousands. They are decimal when other
 * numbers show it (0,5; 12,25; 1500 without comma) or when the table spans at least 5 as decimals;
 * else nobody can tell.
 */
final class DecimalSign {
  private static final Pattern SURE =
      Pattern.compile("[-+\u2212]?(?:\\d+,(?:\\d{0,2}|\\d{4,})|0+,\\d+|,\\d+|\\d{4,},\\d+)\\D*");
  private static final Pattern THREE = Pattern.compile("[-+\u2212]?\\d{1,3},\\d{3}\\D*");

  private final String s;
  private final Header header;
  private int sure;
  private int three;
  private int points;
  private boolean thousandWithout;
  private String example = "";
  private double least = Double.POSITIVE_INFINITY;
  private double most = Double.NEGATIVE_INFINITY;

  DecimalSign(String s, Header header) {
    this.s = s;
    this.header = header;
  }

  /** The decimal sign of the rows from a place on. */
  char find(int from, char delimiter, Splitter splitter, ProblemList problems) {
    // unquoted cells of a comma-separated file hold no commas
    boolean possible = delimiter != ',' || s.indexOf('"', from) >= 0;
    if (!possible || s.indexOf(',', from) < 0) {
      return '.';
    }
    count(from, splitter);
    if (sure + three == 0 || points > sure + three) {
      return '.';
    }
    if (sure > 0 || thousandWithout || most - least >= 5) {
      return ',';
    }
    if (points == 0) {
      problems.add(
          header.line(),
          "numbers such as "
              + TextPieces.quoted(example)
              + " may have a decimal comma or a comma between thousands",
          "say \"decimal\": \"comma\" or \"point\" in the job");
    }
    return '.';
  }

  private void count(int from, Splitter splitter) {
    Cells cells = new Cells(s);
    Field[] numeric =
        header.columns().keySet().stream().filter(Field::numeric).toArray(Field[]::new);
    for (int at = from; at < s.length(); ) {
      at = Lines.next(s, splitter.split(at, cells, Splitter.Quotes.USUAL));
      for (Field f : numeric) {
        int i = header.column(f);
        if (!cells.isEmpty(i)) {
          look(f, cells, i);
        }
      }
    }
  }

  private void look(Field f, Cells cells, int i) {
    boolean hasPoint = holds(cells, i, '.');
    if (!holds(cells, i, ',')) {
      points += hasPoint ? 1 : 0;
      thousandWithout |= !hasPoint && f.kind() == Field.Kind.LENGTH && fourDigits(cells, i);
      return;
    }
    String text = cells.text(i);
    if (SURE.matcher(text).matches()) {
      sure++;
    } else if (THREE.matcher(text).matches()) {
      three++;
      example = example.isEmpty() ? text : example;
      span(text);
    }
  }

  private boolean holds(Cells cells, int i, char c) {
    for (int k = cells.start(i); k < cells.end(i); k++) {
      if (s.charAt(k) == c) {
        return true;
      }
    }
    return false;
  }

  private boolean fourDigits(Cells cells, int i) {
    int a = cells.start(i);
    a += a < cells.end(i) && !Character.isDigit(s.charAt(a)) ? 1 : 0;
    int n = 0;
    while (a + n < cells.end(i) && Character.isDigit(s.charAt(a + n))) {
      n++;
    }
    return n >= 4;
  }

  private void span(String text) {
    NumberReader r = new NumberReader();
    NumberReader.Result ok = r.length(text, 0, text.length(), ',');
    if (ok == NumberReader.Result.OK) {
      least = Math.min(least, r.value());
      most = Math.max(most, r.value());
    }
  }
}
