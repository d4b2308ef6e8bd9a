package org.padtrue.check;

/** What became of one trim, as a second article shows it. */
public enum TrimCheckFinding {
  /** It did what it promised. */
  HELD("held"),
  /** The term doubled: entered with the wrong sign. */
  WRONG_SIGN("wrongSign"),
  /** The change turned with the parts where it should not, or did not where it should. */
  WRONG_FRAME("wrongFrame"),
  /** The term overshot by a unit: a value in mm entered where inches are taken. */
  WRONG_UNIT("wrongUnit"),
  /** The term is as it was. */
  NOT_ENTERED("notEntered"),
  /** The term overshot by its own size. */
  ENTERED_TWICE("enteredTwice"),
  /** It changed in a way that no usual mistake explains. */
  OTHER("other"),
  /** The article does not show it well enough. */
  CANNOT_TELL("cannotTell");

  private final String key;

  TrimCheckFinding(String key) {
    this.key = key;
  }

  /** The word used in files. */
  public String key() {
    return key;
  }

  /** True for a trim that did not do what it promised. */
  public boolean failed() {
    return this != HELD && this != CANNOT_TELL;
  }
}
