package org.padtrue.load;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.table.Field;
import org.padtrue.load.table.NumberReader;
import org.padtrue.panel.Pose;
import org.padtrue.panel.Side;
import org.padtrue.quantity.LengthUnit;

/**
 * Writes a placement file again with corrections added to x, y and rotation. Nothing else changes,
 * byte for byte: columns, order, comments, quoting, line ends, encoding and the style of numbers
 * stay.
 *
 * <p>A number gets as many decimals as it had, or as many more as a tenth of a micrometre (or
 * 0.0001 degrees) needs. A number that a correction does not change at that resolution is left as
 * it stands, so 360.00 stays 360.00. In a table parted by blanks the blanks beside a number make
 * room.
 */
final class PlacementWriter {
  private final PlacementFile file;
  private final String chars;
  private final StringBuilder out;
  private int copied;

  PlacementWriter(PlacementFile file) {
    this.file = file;
    this.chars = file.text().chars();
    this.out = new StringBuilder(chars.length() + 1024);
  }

  /**
   * The file's bytes with corrections added.
   *
   * @param add row number to what to add, mm and degrees, in the canonical frame of the placed side
   * @param jobSide side of rows whose file does not say one
   */
  byte[] write(Map<Integer, Pose> add, Side jobSide) {
    for (Map.Entry<Integer, Pose> e : new TreeMap<>(add).entrySet()) {
      row(e.getKey(), e.getValue(), jobSide);
    }
    out.append(chars, copied, chars.length());
    return file.text().encode(out.toString());
  }

  private void row(int row, Pose add, Side jobSide) {
    RowCells c = file.cells(row);
    Axes axes = file.options().axes();
    Side stated = file.rows().get(row).side();
    Side side = stated == null ? jobSide : stated;
    Map<Integer, Change> changes = new TreeMap<>();
    put(changes, c.x(), Field.X, axes.signX(side) * add.xMm());
    put(changes, c.y(), Field.Y, axes.signY() * add.yMm());
    put(changes, c.rotation(), Field.ROTATION, axes.signRotation(side) * add.rotationDeg());
    changes.values().forEach(this::apply);
  }

  private record Change(RowCells.Span span, int numberEnd, String text) {}

  private void put(Map<Integer, Change> changes, RowCells.Span span, Field f, double add) {
    NumberReader reader = new NumberReader();
    char decimal = file.table().decimal();
    if (f == Field.ROTATION) {
      reader.angle(chars, span.start(), span.end(), decimal);
    } else {
      reader.length(chars, span.start(), span.end(), decimal);
    }
    LengthUnit unit = f == Field.ROTATION ? null : unit(reader.unit(), f);
    String raw = chars.substring(span.start(), reader.numberEnd());
    String text = added(raw, decimal, unit, add);
    if (!text.equals(raw)) {
      changes.put(span.start(), new Change(span, reader.numberEnd(), text));
    }
  }

  private LengthUnit unit(@Nullable LengthUnit suffix, Field f) {
    return suffix != null ? suffix : file.table().header().unit(f).orElse(file.unit());
  }

  /** Decimals that show a tenth of a micrometre, or 0.0001 degrees for no unit. */
  private static int decimals(@Nullable LengthUnit unit) {
    if (unit == null) {
      return 4;
    }
    return switch (unit) {
      case MM -> 4;
      case UM -> 1;
      case MIL -> 3;
      case INCH -> 6;
    };
  }

  static String added(String raw, char decimal, @Nullable LengthUnit unit, double add) {
    BigDecimal step = BigDecimal.valueOf(unit == null ? add : fromMm(add, unit));
    int fine = decimals(unit);
    step = step.setScale(fine, RoundingMode.HALF_EVEN);
    if (step.signum() == 0) {
      return raw;
    }
    BigDecimal old = new BigDecimal(raw.replace(decimal, '.').replace('\u2212', '-'));
    int had = Math.max(0, old.scale());
    BigDecimal sum = old.add(step);
    if (sum.scale() > had) {
      BigDecimal bare = sum.stripTrailingZeros();
      sum = bare.setScale(Math.max(had, bare.scale()), RoundingMode.UNNECESSARY);
    }
    String text = sum.toPlainString().replace('.', decimal);
    if (raw.startsWith("+") && sum.signum() >= 0) {
      return "+" + text;
    }
    return raw.startsWith("\u2212") ? text.replace('-', '\u2212') : text;
  }

  private static double fromMm(double mm, LengthUnit unit) {
    return switch (unit) {
      case MM -> mm;
      case UM -> mm * 1000;
      case MIL -> mm * 10_000 / 254;
      case INCH -> mm * 10 / 254;
    };
  }

  private void apply(Change c) {
    int more = c.text.length() - (c.numberEnd - c.span.start());
    int before = 0;
    int after = 0;
    if (file.table().aligned() && more > 0) {
      before = Math.min(more, blanks(c.span.start() - 1, -1) - 1);
      before = Math.max(0, before);
      after = Math.max(0, Math.min(more - before, blanks(c.span.end(), 1) - 1));
    }
    out.append(chars, copied, c.span.start() - before);
    if (file.table().aligned() && more < 0) {
      out.append(" ".repeat(-more));
    }
    out.append(c.text).append(chars, c.numberEnd, c.span.end());
    copied = c.span.end() + after;
  }

  /** Number of blanks from a place on, in a direction; the line's end counts as one. */
  private int blanks(int from, int step) {
    int n = 0;
    int i = from;
    while (i >= 0 && i < chars.length() && chars.charAt(i) == ' ') {
      n++;
      i += step;
    }
    return n;
  }
}
