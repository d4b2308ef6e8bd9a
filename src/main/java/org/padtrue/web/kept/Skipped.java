package org.padtrue.web.kept;

/**
 * A folder of the workspace of which the pages make nothing.
 *
 * @param among jobs, articles
 * @param name of the folder
 * @param why what is wrong with it
 */
public record Skipped(String among, String name, String why) {
  /** One sentence for people. */
  public String sentence() {
    return "The folder '"
        + name
        + "' among the "
        + among
        + " is not shown: "
        + why
        + ". Mend it or move it away; everything else is as it was.";
  }
}
