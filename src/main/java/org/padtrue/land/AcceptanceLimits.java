package org.padtrue.land;

import java.io.IOException;
import java.io.Reader;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.JointKind;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/**
 * Limits by kind of joint and acceptance class.
 *
 * <p>Usual ones, published, from memory or common practice, travel with the program ({@code
 * shared/acceptance.csv}); a file of the same form replaces single rows:
 *
 * <pre>
 * kind,class,side_fraction,basis,side_cap_mm,end_overhang_mm,offset_fraction,source
 * chip,2,0.40,lesser,,0,,our drawing 12
 * </pre>
 *
 * {@code kind} as in part files; {@code basis} lesser or termination; an empty cap is no cap;
 * {@code end_overhang_mm} is a number or 'permitted'; {@code offset_fraction} is for balls only,
 * which have no side fraction.
 *
 * <p>Apart from these, a termination must overlap its land at all, whatever the class (without
 * overlap there is no joint); see {@link LandFit}.
 */
public final class AcceptanceLimits {
  private static final String HEADER =
      "kind,class,side_fraction,basis,side_cap_mm,end_overhang_mm,offset_fraction,source";
  private static final int COLUMNS = 8;
  private static final Map<String, JointKind> KINDS =
      Map.of(
          "chip", JointKind.CHIP,
          "melf", JointKind.MELF,
          "gullWing", JointKind.GULL_WING,
          "jLead", JointKind.J_LEAD,
          "noLead", JointKind.NO_LEAD,
          "ball", JointKind.BALL,
          "throughHole", JointKind.THROUGH_HOLE,
          "other", JointKind.OTHER);

  private final Map<Key, LimitRule> rules;

  private record Key(JointKind kind, int acceptanceClass) implements Comparable<Key> {
    @Override
    public int compareTo(Key o) {
      int k = kind.compareTo(o.kind);
      return k != 0 ? k : Integer.compare(acceptanceClass, o.acceptanceClass);
    }
  }

  private AcceptanceLimits(Map<Key, LimitRule> rules) {
    this.rules = rules;
  }

  /** The limits that travel with the program, each with its standing: every kind in every class. */
  public static AcceptanceLimits published() {
    return Holder.PUBLISHED;
  }

  private static final class Holder {
    static final AcceptanceLimits PUBLISHED =
        new AcceptanceLimits(Map.of())
            .with(parse(DataLines.bundled("acceptance.csv", COLUMNS), "acceptance.csv"));
  }

  /** These limits with some rows replaced. */
  public AcceptanceLimits with(Collection<LimitRule> own) {
    Map<Key, LimitRule> m = new TreeMap<>(rules);
    own.forEach(r -> m.put(new Key(r.kind(), r.acceptanceClass()), r));
    return new AcceptanceLimits(m);
  }

  /**
   * These limits with the rows of a user's file in place of ours.
   *
   * @param in the file's text
   * @param file its name, for messages
   * @throws InputException with every problem found
   */
  public AcceptanceLimits overriddenBy(Reader in, String file) throws IOException {
    return with(parse(DataLines.read(in, COLUMNS), file));
  }

  /** The limits for a kind of joint in a class. */
  public LimitRule rule(JointKind kind, int acceptanceClass) {
    LimitRule r = rules.get(new Key(kind, acceptanceClass));
    if (r == null) {
      throw new IllegalArgumentException(
          "acceptanceClass = " + acceptanceClass + "; expected 1, 2 or 3");
    }
    return r;
  }

  private static List<LimitRule> parse(List<DataLines.Row> rows, String file) {
    List<Problem> problems = new ArrayList<>();
    List<LimitRule> out = new ArrayList<>();
    if (rows.isEmpty() || !String.join(",", rows.get(0).cells()).equals(HEADER)) {
      int line = rows.isEmpty() ? 0 : rows.get(0).line();
      throw new InputException(
          Problem.at(file, line, "the header of the limits is not as expected", "write " + HEADER));
    }
    for (DataLines.Row row : rows.subList(1, rows.size())) {
      LimitRule r = new RowReader(row, file, problems).rule();
      if (r != null) {
        out.add(r);
      }
    }
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return out;
  }

  /** Reads one row; problems are collected, a row with problems gives no rule. */
  private static final class RowReader {
    private static final String[] NAMES = HEADER.split(",", -1);
    private final DataLines.Row row;
    private final String file;
    private final List<Problem> problems;
    private final int before;

    RowReader(DataLines.Row row, String file, List<Problem> problems) {
      this.row = row;
      this.file = file;
      this.problems = problems;
      this.before = problems.size();
    }

    @Nullable LimitRule rule() {
      if (row.cells().size() < COLUMNS) {
        problems.add(
            Problem.at(
                file,
                row.line(),
                "found " + row.cells().size() + " columns",
                "write all " + COLUMNS + ": " + HEADER));
        return null;
      }
      JointKind kind = KINDS.get(cell(0));
      if (kind == null) {
        add(0, "write one of chip, melf, gullWing, jLead, noLead, ball, throughHole, other");
      }
      int cls = cell(1).matches("[123]") ? Integer.parseInt(cell(1)) : 0;
      if (cls == 0) {
        add(1, "write 1, 2 or 3");
      }
      boolean ball = kind == JointKind.BALL;
      double side = number(2, ball, Double.NaN);
      LimitRule.Basis basis = basis(ball);
      double cap = number(4, true, Double.POSITIVE_INFINITY);
      double end =
          ball || cell(5).equals("permitted")
              ? Double.POSITIVE_INFINITY
              : number(5, false, Double.NaN);
      double offset = number(6, !ball, Double.NaN);
      if (kind == null || problems.size() > before) {
        return null;
      }
      return new LimitRule(kind, cls, side, basis, cap, end, offset, cell(7));
    }

    private LimitRule.Basis basis(boolean mayBeEmpty) {
      if (cell(3).equals("termination")) {
        return LimitRule.Basis.TERMINATION;
      }
      if (!cell(3).equals("lesser") && !(mayBeEmpty && cell(3).isEmpty())) {
        add(3, "write lesser or termination");
      }
      return LimitRule.Basis.LESSER;
    }

    private double number(int column, boolean mayBeEmpty, double whenEmpty) {
      if (cell(column).isEmpty() && mayBeEmpty) {
        return whenEmpty;
      }
      try {
        double v = Double.parseDouble(cell(column));
        if (v >= 0 && !Double.isInfinite(v)) {
          return v;
        }
      } catch (NumberFormatException e) {
        // reported below
      }
      add(column, "write a number that is 0 or more, with a decimal point");
      return 0;
    }

    private String cell(int column) {
      return row.cells().get(column);
    }

    private void add(int column, String mend) {
      problems.add(
          new Problem(
              file, row.line(), NAMES[column], "'" + cell(column) + "' cannot be used", mend));
    }
  }
}
