package org.padtrue.load.text;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Collects problems of one input; a file that is wrong in every row does not fill the memory. */
public final class ProblemList {
  private static final int MOST = 1000;
  private static final int MOST_ALIKE = 3;
  private static final int LINES_SHOWN = 6;

  private final String file;
  private final List<Problem> problems = new ArrayList<>();
  private int dropped;

  /**
   * @param file the name that messages give
   */
  public ProblemList(String file) {
    this.file = file;
  }

  /** Adds a problem of the whole file. */
  public void add(String found, String mend) {
    add(0, "", found, mend);
  }

  /** Adds a problem at a line. */
  public void add(int line, String found, String mend) {
    add(line, "", found, mend);
  }

  /** Adds a problem at a line and column. */
  public void add(int line, String column, String found, String mend) {
    add(new Problem(file, line, column, found, mend));
  }

  /** Adds a problem. */
  public void add(Problem p) {
    if (problems.size() < MOST) {
      problems.add(p);
    } else {
      dropped++;
    }
  }

  /** Adds all problems of another list. */
  public void addAll(List<Problem> more) {
    more.forEach(this::add);
  }

  /** True when so many were found that looking for advice on more is wasted. */
  public boolean many() {
    return problems.size() >= 50;
  }

  /** True when there are none. */
  public boolean isEmpty() {
    return problems.isEmpty();
  }

  /** How many there are. */
  public int size() {
    return problems.size() + dropped;
  }

  /**
   * All of them, those of one file in the order of its lines; a last one tells what is left out.
   */
  public List<Problem> all() {
    return sorted(new ArrayList<>(problems));
  }

  /** The same, many that differ by their line alone as one that names the lines. */
  public List<Problem> allAtOnce() {
    return sorted(alike(problems));
  }

  private List<Problem> sorted(List<Problem> all) {
    Map<String, Integer> files = new LinkedHashMap<>();
    problems.forEach(p -> files.putIfAbsent(p.file(), files.size()));
    all.sort(
        Comparator.<Problem>comparingInt(p -> files.getOrDefault(p.file(), 0))
            .thenComparingInt(Problem::line)
            .thenComparingInt(ProblemList::position));
    if (dropped > 0) {
      all.add(Problem.of(file, dropped + " more problems are not shown", "mend the first ones"));
    }
    return List.copyOf(all);
  }

  /** Many problems that differ by their line alone become one that names the lines. */
  private static List<Problem> alike(List<Problem> all) {
    Map<Problem, List<Problem>> kinds = new LinkedHashMap<>();
    for (Problem p : all) {
      kinds
          .computeIfAbsent(
              new Problem(p.file(), 0, p.column(), p.found(), p.mend()), k -> new ArrayList<>())
          .add(p);
    }
    List<Problem> out = new ArrayList<>();
    kinds.forEach(
        (kind, of) -> {
          if (of.size() <= MOST_ALIKE) {
            out.addAll(of);
            return;
          }
          List<String> lines =
              of.stream().skip(1).limit(LINES_SHOWN).map(p -> "" + p.line()).toList();
          int more = of.size() - 1 - lines.size();
          out.add(
              new Problem(
                  kind.file(),
                  of.get(0).line(),
                  kind.column(),
                  kind.found()
                      + ", and so in lines "
                      + (more > 0
                          ? String.join(", ", lines) + " and " + more + " more"
                          : TextPieces.and(lines)),
                  kind.mend()));
        });
    return out;
  }

  private static int position(Problem p) {
    return p.column().matches("\\d{1,9}") ? Integer.parseInt(p.column()) : 0;
  }

  /** Stops when there are any. */
  public void throwIfAny() {
    if (!problems.isEmpty()) {
      throw new InputException(all());
    }
  }
}
