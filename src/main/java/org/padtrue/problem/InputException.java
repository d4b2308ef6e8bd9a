package org.padtrue.problem;

import java.util.List;
import java.util.stream.Collectors;

/** Input that cannot be used. Carries every problem found; never wraps a fault of the program. */
public class InputException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient List<Problem> problems;

  /** One exception for all problems found in one go; the list is not empty. */
  public InputException(List<Problem> problems) {
    super(
        problems.stream()
            .map(Problem::sentence)
            .collect(Collectors.joining(System.lineSeparator())));
    if (problems.isEmpty()) {
      throw new IllegalArgumentException("an InputException needs at least one problem");
    }
    this.problems = List.copyOf(problems);
  }

  /** A single problem. */
  public InputException(Problem problem) {
    this(List.of(problem));
  }

  /** Every problem found, in the order of the input. */
  public List<Problem> problems() {
    return problems;
  }
}
