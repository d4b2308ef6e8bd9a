package org.padtrue.web.kept;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.padtrue.apply.EnteredLine;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * What was entered in the machine before an article was placed, beside the analysis that proposed
 * it: a line for every line of the trim sheet, {@code entered x y rotation turn squareness}.
 */
public final class Entered {
  private static final String FILE = "entered.values";
  private static final int FIELDS = 6;

  private Entered() {}

  /**
   * What was entered; all as proposed where nobody said otherwise.
   *
   * @throws InputException when the file is not of this trim sheet
   */
  public static List<EnteredLine> read(Path folder, List<TrimLine> sheet) {
    Path file = folder.resolve(FILE);
    if (!Files.exists(file)) {
      return sheet.stream().map(EnteredLine::asProposed).toList();
    }
    List<EnteredLine> lines = new ArrayList<>();
    try {
      for (String line : Files.readAllLines(file)) {
        lines.add(line(line));
      }
    } catch (IOException | NumberFormatException e) {
      throw damaged();
    }
    if (lines.size() != sheet.size()) {
      throw damaged();
    }
    return lines;
  }

  private static EnteredLine line(String line) {
    String[] f = line.split(" ", -1);
    if (f.length != FIELDS) {
      throw damaged();
    }
    return new EnteredLine(
        f[0].equals("true"),
        Double.parseDouble(f[1]),
        Double.parseDouble(f[2]),
        Double.parseDouble(f[3]),
        Integer.parseInt(f[4]),
        Double.parseDouble(f[5]));
  }

  private static InputException damaged() {
    return new InputException(
        Problem.of(FILE, "what was entered in the machine cannot be read", "say it once more"));
  }

  /** The file as it stands, to tell whether it has changed; empty when there is none. */
  public static String text(Path folder) throws IOException {
    Path file = folder.resolve(FILE);
    return Files.exists(file) ? Files.readString(file) : "";
  }

  /** Keeps what was entered. */
  public static void write(Path folder, List<EnteredLine> lines) throws IOException {
    Aside.write(
        folder.resolve(FILE),
        lines.stream().map(Entered::text).collect(Collectors.joining("\n", "", "\n")));
  }

  private static String text(EnteredLine e) {
    return e.entered()
        + " "
        + e.x()
        + " "
        + e.y()
        + " "
        + e.rotation()
        + " "
        + e.turn()
        + " "
        + e.squareness();
  }

  /** Nobody says otherwise any more. */
  public static void forget(Path folder) throws IOException {
    Files.deleteIfExists(folder.resolve(FILE));
  }
}
