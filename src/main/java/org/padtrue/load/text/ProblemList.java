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
    Map<String, Integer> files = new LinkedHashMap<>();
    problems.forEach(p -> files.putIfAbsent(p.file(), files.size()));
    List<Problem> all = new ArrayList<>(problems);
    all.sort(
        Comparator.<Problem>comparingInt(p -> files.getOrDefault(p.file(), 0))
            .thenComparingInt(Problem::line)
            .thenComparingInt(ProblemList::position));
    if (dropped > 0) {
      all.add(Problem.of(file, dropped + " more problems are not shown", "mend the first ones"));
    }
    return List.copyOf(all);
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
