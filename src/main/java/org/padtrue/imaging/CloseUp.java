package org.padtrue.imaging;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * One close-up: a picture of one placement from a camera at a known place.
 *
 * @param picture file
 * @param panel panel name
 * @param column board column
 * @param row board row
 * @param ref reference designator
 * @param xMm panel position below the picture's middle, mm; NaN: the placement's nominal position
 * @param yMm likewise
 */
public record CloseUp(
    Path picture, String panel, int column, int row, String ref, double xMm, double yMm) {

  private static final Pattern NAME =
      Pattern.compile("(?:([Pp][A-Za-z0-9]+)_)?(?:(\\d+)_(\\d+)_)?([A-Za-z]+\\d+[A-Za-z]?)");

  /**
   * Reads panel, column, row and ref from a file name such as {@code R7.jpg}, {@code 2_1_R7.jpg} or
   * {@code P3_2_1_R7.png}; empty when the name is not of that form.
   */
  public static Optional<CloseUp> named(Path picture) {
    Path file = picture.getFileName();
    if (file == null) {
      return Optional.empty();
    }
    String name = file.toString().replaceFirst("\\.[A-Za-z]+$", "");
    Matcher m = NAME.matcher(name);
    if (!m.matches()) {
      return Optional.empty();
    }
    String panel = m.group(1) == null ? "P1" : m.group(1).toUpperCase(Locale.ROOT);
    int column = m.group(2) == null ? 1 : Integer.parseInt(m.group(2));
    int row = m.group(3) == null ? 1 : Integer.parseInt(m.group(3));
    return Optional.of(
        new CloseUp(picture, panel, column, row, m.group(4), Double.NaN, Double.NaN));
  }

  /**
   * Reads all of them.
   *
   * @throws InputException when names do not say which placement they show, one sentence each
   */
  public static List<CloseUp> named(List<Path> pictures) {
    List<CloseUp> all = new ArrayList<>();
    List<Problem> problems = new ArrayList<>();
    for (Path p : pictures) {
      named(p)
          .ifPresentOrElse(
              all::add,
              () ->
                  problems.add(
                      Problem.of(
                          p.toString(),
                          "the file name does not say which placement this is",
                          "name it R7.png, COLUMN_ROW_R7.png or P2_COLUMN_ROW_R7.png")));
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return all;
  }
}
