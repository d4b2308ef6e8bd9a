package org.padtrue.load.table;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.padtrue.load.names.LandPatternNames;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Understands a placement file without header by its values: refs are letters and digits that do
 * not repeat, three columns hold numbers, and only one of these can be an angle.
 *
 * <p>The first two numbers are x and y, in that order (common practice); where more than one column
 * of numbers looks like angles, the user must say.
 */
final class Headerless {
  private static final int SAMPLE = 2000;
  private static final Pattern REF = Pattern.compile("[A-Za-z]{1,6}[-_]?\\d+\\w{0,4}");

  /** How the file was understood. */
  record Guess(Header header, HeaderFinder.Found place, Splitter splitter) {}

  private final TextFile file;
  private final TableSpec spec;
  private final String s;
  private final List<List<String>> rows = new ArrayList<>();
  private final Map<Field, Integer> columns = new EnumMap<>(Field.class);

  private Headerless(TextFile file, TableSpec spec) {
    this.file = file;
    this.spec = spec;
    this.s = file.chars();
  }

  static Optional<Guess> understand(TextFile file, TableSpec spec) {
    for (char d : new char[] {',', ';', '\t', '|', '!', HeaderFinder.BLANKS}) {
      Splitter splitter =
          d == HeaderFinder.BLANKS
              ? new BlankSplitter(file.chars(), 1)
              : new DelimitedSplitter(file.chars(), d);
      Optional<Guess> g = new Headerless(file, spec).with(splitter, d);
      if (g.isPresent()) {
        return g;
      }
    }
    return Optional.empty();
  }

  private Optional<Guess> with(Splitter splitter, char delimiter) {
    Cells cells = new Cells(s);
    int start = -1;
    int line = 0;
    int startLine = 0;
    int width = 0;
    int others = 0;
    for (int at = 0; at < s.length() && rows.size() < SAMPLE && others <= 400; ) {
      line++;
      int ink = Comments.ink(s, at);
      int end = Lines.end(s, at);
      if (ink < end && !Comments.isComment(s, ink, delimiter) && !Comments.isRule(s, ink, end)) {
        splitter.split(at, cells, Splitter.Quotes.USUAL);
        if (looksLikeRow(cells) && (start < 0 || cells.count() == width)) {
          if (start < 0) {
            start = at;
            startLine = line;
            width = cells.count();
          }
          rows.add(texts(cells));
        } else {
          others += start >= 0 ? 20 : 1;
        }
      }
      at = Lines.next(s, end);
    }
    if (rows.isEmpty() || others > 400) {
      return Optional.empty();
    }
    assign(width);
    return Optional.of(guess(width, start, startLine, delimiter, splitter));
  }

  private Guess guess(int width, int start, int startLine, char delimiter, Splitter splitter) {
    List<String> names = new ArrayList<>();
    for (int i = 1; i <= width; i++) {
      names.add(String.valueOf(i));
    }
    HeaderFinder.Found place =
        new HeaderFinder.Found(
            startLine - 1, start, 0, start, delimiter, new HeaderMatch(List.of(), spec));
    return new Guess(new Header(0, names, columns, Map.of()), place, splitter);
  }

  private static List<String> texts(Cells c) {
    List<String> t = new ArrayList<>();
    for (int i = 0; i < c.count(); i++) {
      t.add(c.text(i));
    }
    return t;
  }

  /** A ref and three numbers at least. */
  private static boolean looksLikeRow(Cells c) {
    int numbers = 0;
    boolean ref = false;
    for (int i = 0; i < c.count(); i++) {
      numbers += isNumber(c.text(i)) ? 1 : 0;
      ref |= REF.matcher(c.text(i)).matches();
    }
    return ref && numbers >= 3;
  }

  /** A number; 0805 is the size of a chip. */
  private static boolean isNumber(String t) {
    if (t.length() > 1 && t.charAt(0) == '0' && t.chars().allMatch(Character::isDigit)) {
      return false;
    }
    NumberReader r = new NumberReader();
    return r.length(t, 0, t.length(), '.') == NumberReader.Result.OK
        || r.length(t, 0, t.length(), ',') == NumberReader.Result.OK;
  }

  private void assign(int width) {
    spec.mapping()
        .forEach(
            (f, name) -> {
              if (name.matches("[1-9]\\d{0,3}") && Integer.parseInt(name) <= width) {
                columns.put(f, Integer.parseInt(name) - 1);
              } else {
                throw refuse("'" + name + "' is no number of a column");
              }
            });
    List<Integer> free = new ArrayList<>();
    for (int i = 0; i < width; i++) {
      if (!columns.containsValue(i)) {
        free.add(i);
      }
    }
    assignRef(free);
    assignNumbers(free);
    assignSide(free);
    assignPart(free);
  }

  private void assignRef(List<Integer> free) {
    if (columns.containsKey(Field.REF)) {
      return;
    }
    for (int i : free) {
      Set<String> seen = new HashSet<>();
      if (rows.stream().allMatch(r -> seen.add(r.get(i)) && REF.matcher(r.get(i)).matches())) {
        put(Field.REF, i, free);
        return;
      }
    }
    throw refuse("no column holds refs that do not repeat");
  }

  private void assignNumbers(List<Integer> free) {
    List<Integer> numeric = new ArrayList<>();
    for (int i : free) {
      if (rows.stream().allMatch(r -> isNumber(r.get(i)))) {
        numeric.add(i);
      }
    }
    List<Field> open = new ArrayList<>(List.of(Field.X, Field.Y, Field.ROTATION));
    open.removeAll(columns.keySet());
    if (open.contains(Field.ROTATION)) {
      List<Integer> angles = numeric.stream().filter(this::looksLikeAngles).toList();
      if (angles.size() != 1 || numeric.size() != open.size()) {
        throw refuse(
            "which of the columns "
                + TextPieces.and(numeric.stream().map(i -> String.valueOf(i + 1)).toList())
                + " is the rotation cannot be told");
      }
      put(Field.ROTATION, angles.get(0), free);
      numeric.remove(angles.get(0));
      open.remove(Field.ROTATION);
    }
    if (numeric.size() < open.size()) {
      throw refuse("there are not three columns of numbers");
    }
    for (int k = 0; k < open.size(); k++) {
      put(open.get(k), numeric.get(k), free);
    }
  }

  /** Multiples of 15 degrees within a turn, nearly all of them. */
  private boolean looksLikeAngles(int column) {
    NumberReader r = new NumberReader();
    long good =
        rows.stream()
            .map(row -> row.get(column))
            .filter(
                t -> {
                  NumberReader.Result ok = r.number(t, 0, t.length(), '.');
                  if (ok != NumberReader.Result.OK) {
                    ok = r.number(t, 0, t.length(), ',');
                  }
                  return ok == NumberReader.Result.OK
                      && Math.abs(r.value()) <= 360
                      && r.value() % 15 == 0;
                })
            .count();
    return good >= 0.9 * rows.size();
  }

  private void assignSide(List<Integer> free) {
    for (int i : List.copyOf(free)) {
      if (columns.containsKey(Field.SIDE) || columns.containsKey(Field.MIRRORED)) {
        return;
      }
      if (rows.stream().allMatch(r -> SideWord.known(r.get(i)))) {
        put(Field.SIDE, i, free);
      } else if (rows.stream().allMatch(r -> r.get(i).isEmpty() || r.get(i).equals("m"))
          && rows.stream().anyMatch(r -> r.get(i).equals("m"))) {
        put(Field.MIRRORED, i, free);
      }
    }
  }

  private void assignPart(List<Integer> free) {
    if (columns.containsKey(Field.PART) || columns.containsKey(Field.PACKAGE)) {
      return;
    }
    free.removeIf(i -> rows.stream().allMatch(r -> r.get(i).isEmpty()));
    if (free.size() > 1) {
      keepPackage(free);
    }
    if (free.size() > 1) {
      throw refuse(
          "which of the columns "
              + TextPieces.and(free.stream().map(i -> String.valueOf(i + 1)).toList())
              + " is the part type cannot be told");
    }
    if (free.size() == 1) {
      columns.put(Field.PART, free.get(0));
    }
  }

  /** Of texts, the one column in which most rows name a land pattern is the part type. */
  private void keepPackage(List<Integer> free) {
    List<Integer> named =
        free.stream()
            .filter(
                i ->
                    2 * rows.stream().filter(r -> LandPatternNames.states(r.get(i))).count()
                        > rows.size())
            .toList();
    if (named.size() == 1) {
      if (free.size() == 2 && !columns.containsKey(Field.VALUE)) {
        free.stream()
            .filter(i -> !i.equals(named.get(0)))
            .forEach(i -> columns.put(Field.VALUE, i));
      }
      free.retainAll(named);
    }
  }

  private void put(Field f, Integer column, List<Integer> free) {
    columns.put(f, column);
    free.remove(column);
  }

  private InputException refuse(String found) {
    return new InputException(
        Problem.of(
            file.name(),
            "the file has no header line, and " + found,
            "number the columns in the job, \"columns\": {\"ref\": 1, \"part\": 2, \"x\": 3, \"y\":"
                + " 4, \"rotation\": 5}"));
  }
}
