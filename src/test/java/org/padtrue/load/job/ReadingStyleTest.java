package org.padtrue.load.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.panel.Job;
import org.padtrue.panel.Placement;
import org.padtrue.quantity.Angles;

/**
 * The same placements, written in any mix of delimiter, encoding, unit, decimal sign, line end,
 * header spelling, banner and axes, are the same placements when read.
 *
 * <p>The writer below shares no code with the reader.
 */
class ReadingStyleTest {
  enum Delimiter {
    COMMA(","),
    SEMICOLON(";"),
    TAB("\t"),
    BLANKS("  ");

    final String text;

    Delimiter(String text) {
      this.text = text;
    }
  }

  enum Encoding {
    UTF8(StandardCharsets.UTF_8),
    UTF8_BOM(StandardCharsets.UTF_8, 0xEF, 0xBB, 0xBF),
    UTF16_LE(StandardCharsets.UTF_16LE, 0xFF, 0xFE),
    UTF16_BE(StandardCharsets.UTF_16BE, 0xFE, 0xFF),
    LATIN1(StandardCharsets.ISO_8859_1);

    final Charset charset;
    final int[] mark;

    Encoding(Charset charset, int... mark) {
      this.charset = charset;
      this.mark = mark;
    }
  }

  /** Where the unit is stated. */
  enum UnitPlace {
    HEADER,
    BANNER,
    SUFFIX
  }

  enum Unit {
    MM("mm", "1", 4),
    MIL("mil", "0.0254", 3),
    INCH("inch", "25.4", 6),
    UM("um", "0.001", 1);

    final String word;
    final BigDecimal mm;
    final int decimals;

    Unit(String word, String mm, int decimals) {
      this.word = word;
      this.mm = new BigDecimal(mm);
      this.decimals = decimals;
    }
  }

  enum Names {
    OURS("ref", "part", "x", "y", "rotation", "side"),
    SHORT("RefDes", "Part", "X", "Y", "Rot", "TB"),
    LONG("Designator", "Part Number", "Mid X", "Mid Y", "Angle", "Layer"),
    POS("Ref", "Part", "PosX", "PosY", "Rotation", "Side"),
    CENTRE("Reference", "Part", "Center-X", "Center-Y", "Rotation", "Side");

    final String[] names;

    Names(String... names) {
      this.names = names;
    }
  }

  private static final int DRAWS = 400;

  @TempDir Path dir;

  private record Row(String ref, String part, double x, double y, double turn) {}

  private static List<Row> rows(int seed, int count, boolean latin) {
    Random r = new Random(seed);
    String[] parts = {"R0603", "C0402", "SOT23", latin ? "Spule 4\u00b5" : "QFN32"};
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      rows.add(
          new Row(
              "RCUD".charAt(r.nextInt(4)) + "" + (i + 1),
              parts[r.nextInt(parts.length)],
              // a board of 70 x 50 mm: on a larger one a lone far part may be taken as parked
              Math.rint(r.nextDouble() * 700_000) / 10_000,
              Math.rint(r.nextDouble() * 500_000) / 10_000,
              new double[] {0, 90, 180, 270, 45, 12.5}[r.nextInt(6)]));
    }
    return rows;
  }

  /** One way to write a file. */
  private record Style(
      int seed,
      int count,
      Delimiter delimiter,
      Encoding encoding,
      Unit unit,
      UnitPlace place,
      Names names,
      boolean comma,
      boolean quotes,
      boolean banner,
      boolean hashHeader,
      boolean crlf,
      int axes) {
    static Style drawn(SplittableRandom r) {
      return new Style(
          1 + r.nextInt(10_000),
          4 + r.nextInt(37),
          one(r, Delimiter.values()),
          one(r, Encoding.values()),
          one(r, Unit.values()),
          one(r, UnitPlace.values()),
          one(r, Names.values()),
          r.nextBoolean(),
          r.nextBoolean(),
          r.nextBoolean(),
          r.nextBoolean(),
          r.nextBoolean(),
          r.nextInt(16));
    }

    private static <T> T one(SplittableRandom r, T[] all) {
      return all[r.nextInt(all.length)];
    }
  }

  @Test
  void sameWhateverTheStyle() throws IOException {
    SplittableRandom random = new SplittableRandom(160_326L);
    for (int i = 0; i < DRAWS; i++) {
      readsTheSame(Style.drawn(random));
    }
  }

  private void readsTheSame(Style s) throws IOException {
    int axes = s.axes;
    Delimiter delimiter = s.delimiter;
    Encoding encoding = s.encoding;
    Unit unit = s.unit;
    UnitPlace place = s.place;
    Names names = s.names;
    boolean comma = s.comma;
    boolean bottom = (axes & 1) != 0;
    boolean yDown = (axes & 2) != 0;
    boolean clockwise = (axes & 4) != 0;
    boolean fromBottom = (axes & 8) != 0;
    // A decimal comma in a comma-separated file needs s.quotes; blanks part no names with blanks.
    boolean quoted =
        s.quotes && delimiter != Delimiter.BLANKS || comma && delimiter == Delimiter.COMMA;
    boolean spaced = delimiter != Delimiter.BLANKS;
    List<Row> rows = rows(s.seed, s.count, spaced && encoding != Encoding.UTF8);
    StringBuilder text = new StringBuilder();
    String end = s.crlf ? "\r\n" : "\n";
    if (s.banner || place == UnitPlace.BANNER) {
      text.append("Placements of the test board").append(end);
      if (place == UnitPlace.BANNER) {
        text.append("Units: ").append(unit.word).append(end);
      }
      text.append(end);
    }
    List<String> header = new ArrayList<>();
    for (int i = 0; i < names.names.length; i++) {
      String name = spaced ? names.names[i] : names.names[i].replace(" ", "");
      boolean length = i == 2 || i == 3;
      String stated = spaced ? name + " (" + unit.word + ")" : name + "(" + unit.word + ")";
      header.add(length && place == UnitPlace.HEADER ? stated : name);
    }
    List<List<String>> table = new ArrayList<>();
    table.add(header);
    for (Row r : rows) {
      double x = bottom && !fromBottom ? -r.x : r.x;
      double y = yDown ? -r.y : r.y;
      double turn = (bottom && !fromBottom) != clockwise ? -r.turn : r.turn;
      String suffix = place == UnitPlace.SUFFIX ? unit.word : "";
      table.add(
          List.of(
              r.ref,
              r.part,
              length(x, unit, comma) + suffix,
              length(y, unit, comma) + suffix,
              number(BigDecimal.valueOf(turn), comma),
              bottom ? "Bottom" : "Top"));
    }
    write(text, table, delimiter, quoted, s.hashHeader, end);
    Path file = Files.write(dir.resolve("p.csv"), bytes(text.toString(), encoding));
    Path jobFile =
        Files.writeString(
            dir.resolve("job.json"),
            """
            {"placements": "p.csv", "side": "%s",
             "axes": {"y": "%s", "rotation": "%s", "bottomX": "%s"}}
            """
                .formatted(
                    bottom ? "bottom" : "top",
                    yDown ? "down" : "up",
                    clockwise ? "clockwise" : "counterclockwise",
                    fromBottom ? "asSeenFromBottom" : "asSeenFromTop"));
    Job job = JobLoader.load(jobFile).orThrow();
    assertThat(job.placements()).as(s.toString()).hasSize(rows.size());
    double fine = 0.51 * Math.pow(10, -unit.decimals) * unit.mm.doubleValue() + 1e-12;
    for (int i = 0; i < rows.size(); i++) {
      Placement p = job.placements().get(i);
      Row r = rows.get(i);
      assertThat(p.ref()).as(s.toString()).isEqualTo(r.ref);
      assertThat(p.part()).isEqualTo(r.part);
      assertThat(p.pose().xMm()).isCloseTo(r.x, within(fine));
      assertThat(p.pose().yMm()).isCloseTo(r.y, within(fine));
      assertThat(Angles.wrap(p.pose().rotationDeg() - r.turn)).isCloseTo(0, within(1e-9));
    }
  }

  private static String length(double mm, Unit unit, boolean comma) {
    return number(
        BigDecimal.valueOf(mm)
            .divide(unit.mm, 12, RoundingMode.HALF_EVEN)
            .setScale(unit.decimals, RoundingMode.HALF_EVEN),
        comma);
  }

  private static String number(BigDecimal v, boolean comma) {
    String s = v.toPlainString();
    return comma ? s.replace('.', ',') : s;
  }

  private static void write(
      StringBuilder text,
      List<List<String>> table,
      Delimiter delimiter,
      boolean quoted,
      boolean hash,
      String end) {
    int[] width = new int[table.get(0).size()];
    for (List<String> row : table) {
      for (int i = 0; i < width.length; i++) {
        width[i] = Math.max(width[i], row.get(i).length());
      }
    }
    for (int n = 0; n < table.size(); n++) {
      List<String> cells = new ArrayList<>();
      for (int i = 0; i < width.length; i++) {
        String c = table.get(n).get(i);
        String padded = delimiter == Delimiter.BLANKS ? c + " ".repeat(width[i] - c.length()) : c;
        cells.add(quoted ? '"' + padded + '"' : padded);
      }
      text.append(hash && n == 0 ? "# " : hash && delimiter == Delimiter.BLANKS ? "  " : "")
          .append(String.join(delimiter.text, cells).stripTrailing())
          .append(end);
    }
  }

  private static byte[] bytes(String text, Encoding encoding) {
    try {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      for (int b : encoding.mark) {
        out.write(b);
      }
      out.write(text.getBytes(encoding.charset));
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
