package org.padtrue.problem;

/**
 * What an input looks like instead of what it says it is, to be answered by whoever gave it.
 *
 * @param key names what it looks like, in a job's {@code asIs}
 * @param file file name as the user gave it
 * @param found what it looks like, one clause without a full stop
 * @param mend what to do when that is right, one clause
 */
public record Question(String key, String file, String found, String mend) {

  /** The question as a problem; the sentence says how to answer that it is really so. */
  public Problem problem() {
    return Problem.of(
        file,
        found,
        mend
            + ", or say --as-is if it is really so (\"asIs\": [\""
            + key
            + "\"] in the job keeps that answer)");
  }

  /** The same for a page, which has a button for the answer. */
  public String sentence() {
    return Problem.of(file, found, mend).sentence();
  }
}
