package org.padtrue.history;

/**
 * What a person says when signing off an article, or when withdrawing that.
 *
 * @param name who
 * @param role as what: quality, line engineer ...
 * @param note free text; why, for a withdrawal
 */
public record SignOff(String name, String role, String note) {
  public SignOff {
    if (name.isBlank() || role.isBlank()) {
      throw new IllegalArgumentException("a sign-off needs a name and a role");
    }
  }
}
