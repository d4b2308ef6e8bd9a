package org.padtrue.problem;

import java.util.List;

/**
 * A value that could be read, and what was wrong on the way.
 *
 * @param value what could be read; good rows go on when bad ones are found
 * @param problems every problem, in the order of the input
 */
public record WithProblems<T>(T value, List<Problem> problems) {
  public WithProblems {
    problems = List.copyOf(problems);
  }

  /** The value, or an {@link InputException} with all problems. */
  public T orThrow() {
    if (!problems.isEmpty()) {
      throw new InputException(problems);
    }
    return value;
  }
}
