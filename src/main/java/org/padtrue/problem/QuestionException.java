package org.padtrue.problem;

/** Input that looks like a usual mistake: not used until somebody says that it is really so. */
public final class QuestionException extends InputException {
  private static final long serialVersionUID = 1L;

  private final transient Question question;

  /** Stops with a question. */
  public QuestionException(Question question) {
    super(question.problem());
    this.question = question;
  }

  /** What is asked. */
  public Question question() {
    return question;
  }
}
