package org.padtrue.web.picture;

import java.io.IOException;
import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What the pictures of an article said, worst first, as a file beside it.
 *
 * @param shots the pictures
 * @param readings one for every placement looked for
 * @param notes what a reader should know
 * @param remarks what must be said of the whole article that comes of them, as comment lines
 */
public record PictureReadings(
    List<Shot> shots, List<PictureReading> readings, List<String> notes, List<String> remarks) {
  private static final String FILE = "readings.txt";

  public PictureReadings {
    shots = List.copyOf(shots);
    readings = List.copyOf(readings);
    notes = List.copyOf(notes);
    remarks = List.copyOf(remarks);
  }

  public static boolean in(Path folder) {
    return Files.exists(folder.resolve(FILE));
  }

  void write(Path folder) throws IOException {
    List<String> lines = new ArrayList<>();
    remarks.forEach(r -> lines.add(line("remark", r)));
    for (Shot s : shots) {
      lines.add(
          line(
              "shot",
              s.file(),
              s.width(),
              s.height(),
              s.pxPerMm(),
              s.rotationDeg(),
              s.mirrored(),
              s.sentence()));
    }
    for (PictureReading r : readings) {
      lines.add(
          line(
              "reading",
              r.key(),
              r.part(),
              r.status(),
              r.shot(),
              r.xPx(),
              r.yPx(),
              r.dxMm(),
              r.dyMm(),
              r.dRotationDeg(),
              r.uMm(),
              r.uRotationDeg(),
              r.poseDeg(),
              r.score(),
              r.length(),
              r.width(),
              r.note()));
    }
    notes.forEach(n -> lines.add(line("note", n)));
    Path part = folder.resolve(FILE + ".part");
    Files.write(part, lines);
    Files.move(
        part,
        folder.resolve(FILE),
        StandardCopyOption.REPLACE_EXISTING,
        StandardCopyOption.ATOMIC_MOVE);
  }

  private static String line(Object... fields) {
    return Stream.of(fields)
        .map(f -> URLEncoder.encode(String.valueOf(f), StandardCharsets.UTF_8))
        .collect(Collectors.joining(" "));
  }

  public static PictureReadings read(Path folder) throws IOException {
    List<Shot> shots = new ArrayList<>();
    List<PictureReading> readings = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    List<String> remarks = new ArrayList<>();
    for (String l : Files.readAllLines(folder.resolve(FILE))) {
      Fields f = new Fields(l);
      switch (f.text()) {
        case "remark" -> remarks.add(f.text());
        case "registered" -> {
          // as it was kept before there were other remarks
          if (f.text().equals("parts")) {
            remarks.add("registered on parts");
          }
        }
        case "shot" -> shots.add(shot(f));
        case "reading" -> readings.add(reading(f));
        default -> notes.add(f.text());
      }
    }
    return new PictureReadings(shots, readings, notes, remarks);
  }

  private static Shot shot(Fields f) {
    return new Shot(
        f.text(), (int) f.number(), (int) f.number(), f.number(), f.number(), f.yes(), f.text());
  }

  private static PictureReading reading(Fields f) {
    return new PictureReading(
        f.text(),
        f.text(),
        f.text(),
        (int) f.number(),
        f.number(),
        f.number(),
        f.number(),
        f.number(),
        f.number(),
        f.number(),
        f.number(),
        f.number(),
        f.number(),
        f.number(),
        f.number(),
        f.text());
  }

  /** Fields of a line, one after the other. */
  private static final class Fields {
    private final String[] fields;
    private int next;

    Fields(String line) {
      fields = line.split(" ", -1);
    }

    String text() {
      return URLDecoder.decode(fields[next++], StandardCharsets.UTF_8);
    }

    double number() {
      return Double.parseDouble(text());
    }

    boolean yes() {
      return text().equals("true");
    }
  }
}
