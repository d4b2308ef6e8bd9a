package org.padtrue.load.table;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;
import org.padtrue.load.text.TextPieces;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.quantity.LengthUnit;

/** A table whose header, delimiter, decimal sign and stated unit have been found. */
public final class Table {
  private static final int LONGEST_LINE = 1 << 16;

  private final TextFile file;
  private final Header header;
  private final char delimiter;
  private final Splitter splitter;
  private final char decimal;
  private final int rowsFrom;
  private final int rowsLine;
  private final List<Comments.Line> comments;
  private final @Nullable StatedUnit statedUnit;

  private Table(
      TextFile file,
      Header header,
      char delimiter,
      Splitter splitter,
      char decimal,
      int rowsFrom,
      int rowsLine,
      List<Comments.Line> comments,
      @Nullable StatedUnit statedUnit) {
    this.file = file;
    this.header = header;
    this.delimiter = delimiter;
    this.splitter = splitter;
    this.decimal = decimal;
    this.rowsFrom = rowsFrom;
    this.rowsLine = rowsLine;
    this.comments = comments;
    this.statedUnit = statedUnit;
  }

  /**
   * Finds out how a file is laid out.
   *
   * @throws InputException when it is no such table, or could be read in more than one way
   */
  public static Table of(TextFile file, TableSpec spec) {
    String s = file.chars();
    int[] tooLong = Lines.tooLong(s, LONGEST_LINE);
    if (tooLong != null) {
      throw new InputException(
          Problem.at(
              file.name(),
              tooLong[0],
              "the line is " + tooLong[1] + " characters long, so this is no " + spec.what(),
              "export it again, one placement on a line"));
    }
    HeaderFinder finder = new HeaderFinder(s, spec);
    HeaderFinder.Found found = finder.found();
    if (found == null) {
      return withoutHeader(file, spec, finder.nearly());
    }
    boolean blanks = found.delimiter() == HeaderFinder.BLANKS;
    BlankLayout.Way way = blanks ? new BlankLayout(s, found, spec).choose() : null;
    HeaderMatch match = way == null ? found.match() : new HeaderMatch(way.header(), spec);
    Splitter splitter = way == null ? new DelimitedSplitter(s, found.delimiter()) : way.splitter();
    ProblemList problems = new ProblemList(file.name());
    Header header = match.header(found.line(), problems);
    problems.throwIfAny();
    return build(file, spec, header, match.weakRefs(), found, splitter);
  }

  private static Table withoutHeader(
      TextFile file, TableSpec spec, HeaderFinder.@Nullable Found nearly) {
    if (nearly != null) {
      throw new InputException(missingColumns(file, nearly));
    }
    if (spec.headerless()) {
      Optional<Headerless.Guess> guess = Headerless.understand(file, spec);
      if (guess.isPresent()) {
        Headerless.Guess g = guess.get();
        return build(file, spec, g.header(), List.of(), g.place(), g.splitter());
      }
    }
    String needed =
        spec.needed().stream()
            .map(n -> TextPieces.and(n.stream().sorted().map(Field::key).toList()))
            .collect(Collectors.joining(", or "));
    throw new InputException(
        Problem.of(
            file.name(),
            "no header line with columns for " + needed + " was found",
            "name the columns in the first line of this " + spec.what()));
  }

  private static Problem missingColumns(TextFile file, HeaderFinder.Found nearly) {
    List<Field> fields = nearly.match().missing();
    Optional<String> wanted = nearly.match().unmatched(fields.get(0));
    if (wanted.isPresent()) {
      return Problem.at(
          file.name(),
          nearly.line(),
          HeaderMatch.lacks(fields.get(0), wanted.get()),
          "the header has " + TextPieces.list(nearly.match().texts(), 12));
    }
    List<String> missing = fields.stream().map(Field::key).toList();
    return Problem.at(
        file.name(),
        nearly.line(),
        "the header has no column for "
            + TextPieces.and(missing)
            + " among "
            + TextPieces.list(nearly.match().texts(), 12),
        "say which one it is in the job, \"columns\": {\"" + missing.get(0) + "\": \"NAME\"}");
  }

  private static Table build(
      TextFile file,
      TableSpec spec,
      Header header,
      List<Integer> weakRefs,
      HeaderFinder.Found found,
      Splitter splitter) {
    String s = file.chars();
    ProblemList problems = new ProblemList(file.name());
    Header h =
        weakRefs.isEmpty() ? header : refFrom(s, header, weakRefs, found, splitter, problems);
    char decimal =
        spec.decimal() != null
            ? spec.decimal()
            : new DecimalSign(s, h).find(found.next(), found.delimiter(), splitter, problems);
    Comments.Head head = Comments.head(s, found.next(), found.line());
    List<Comments.Line> comments = Comments.collect(s, head.end(), found.delimiter());
    StatedUnit stated = stated(comments, header.line(), problems);
    problems.throwIfAny();
    return new Table(
        file, h, found.delimiter(), splitter, decimal, head.end(), head.line(), comments, stated);
  }

  /** Takes the first doubtful column whose values do not repeat as the ref. */
  private static Header refFrom(
      String s,
      Header header,
      List<Integer> columns,
      HeaderFinder.Found found,
      Splitter splitter,
      ProblemList problems) {
    List<String> names = new ArrayList<>();
    for (int c : columns) {
      if (unique(s, c, found, splitter)) {
        return header.column(Field.PART) == c
            ? header.moved(Field.PART, Field.REF)
            : header.with(Field.REF, c);
      }
      names.add(header.names().get(c));
    }
    problems.add(
        header.line(),
        "there is no column for ref: the values of " + TextPieces.list(names, 3) + " repeat",
        "say which column it is in the job, \"columns\": {\"ref\": \"NAME\"}");
    return header;
  }

  private static boolean unique(String s, int column, HeaderFinder.Found found, Splitter splitter) {
    Set<String> seen = new HashSet<>();
    Cells cells = new Cells(s);
    for (int at = found.next(); at < s.length(); ) {
      int ink = Comments.ink(s, at);
      int end = splitter.split(at, cells, Splitter.Quotes.USUAL);
      boolean row = ink < end && !Comments.isComment(s, ink, found.delimiter());
      if (row && !cells.isEmpty(column) && !seen.add(cells.text(column))) {
        return false;
      }
      at = Lines.next(s, end);
    }
    return true;
  }

  private static @Nullable StatedUnit stated(
      List<Comments.Line> comments, int headerLine, ProblemList problems) {
    StatedUnit first = null;
    for (Comments.Line c : comments) {
      Optional<LengthUnit> u =
          c.line() == headerLine ? Optional.empty() : UnitLine.of(Comments.strip(c.text()));
      if (u.isPresent() && first == null) {
        first = new StatedUnit(u.get(), c.line());
      } else if (u.isPresent() && first != null && u.get() != first.unit()) {
        problems.add(
            c.line(),
            "this line states the unit "
                + u.get().label()
                + " and line "
                + first.line()
                + " states "
                + first.unit().label(),
            "leave only the one that holds");
        return first;
      }
    }
    return first;
  }

  /** The file. */
  public TextFile file() {
    return file;
  }

  /** What the columns mean. */
  public Header header() {
    return header;
  }

  /** Decimal point or comma. */
  public char decimal() {
    return decimal;
  }

  /** The unit that a banner or comment line states. */
  public Optional<StatedUnit> statedUnit() {
    return Optional.ofNullable(statedUnit);
  }

  /** Comment and banner lines, the first thousand, as the file has them. */
  public List<String> comments() {
    return comments.stream().map(Comments.Line::text).toList();
  }

  /** What parts the cells, in words. */
  public String delimiterWords() {
    return switch (delimiter) {
      case ',' -> "comma";
      case ';' -> "semicolon";
      case '\t' -> "tab";
      case HeaderFinder.BLANKS -> splitter instanceof FixedSplitter ? "aligned blanks" : "blanks";
      default -> "'" + delimiter + "'";
    };
  }

  /** True when cells are parted by blanks, so that a longer cell moves what stands behind it. */
  public boolean aligned() {
    return delimiter == HeaderFinder.BLANKS;
  }

  /** Reads the rows; problems of rows that cannot be taken apart are added to the list. */
  public RowReader rows(ProblemList problems) {
    return new RowReader(this, splitter, delimiter, rowsFrom, rowsLine, problems);
  }
}
