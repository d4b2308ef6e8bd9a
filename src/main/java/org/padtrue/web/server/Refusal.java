package org.padtrue.web.server;

import io.javalin.http.HttpStatus;

/** A request that is not answered, with one sentence for the person who sent it. */
public final class Refusal extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final HttpStatus status;

  Refusal(HttpStatus status, String sentence) {
    super(sentence);
    this.status = status;
  }

  public static Refusal notThere(String what) {
    return new Refusal(HttpStatus.NOT_FOUND, what);
  }

  public static Refusal bad(String sentence) {
    return new Refusal(HttpStatus.BAD_REQUEST, sentence);
  }

  HttpStatus status() {
    return status;
  }

  public String sentence() {
    return String.valueOf(getMessage());
  }
}
