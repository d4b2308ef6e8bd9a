package org.padtrue.firstarticle.result;

/** What to do with a term. */
public enum Decision {
  /** Change it. */
  TRIM("trim"),
  /** Leave it alone. */
  LEAVE("leave"),
  /** Another term does the same thing, or the reference hides it: the article cannot tell. */
  CANNOT_TELL("cannotTell"),
  /** Worth changing, but the machine does not accept it: comes as corrected coordinates. */
  NOT_ACCEPTED("notAccepted");

  private final String key;

  Decision(String key) {
    this.key = key;
  }

  /** The word used in files. */
  public String key() {
    return key;
  }
}
