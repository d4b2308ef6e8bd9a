package org.padtrue.web.bench;

/**
 * A folder of the workspace of which the pages make nothing.
 *
 * @param among jobs, articles
 * @param name of the folder
 * @param why what is wrong with it
 */
record Skipped(String among, String name, String why) {
  /** One sentence for people. */
  String sentence() {
    return "The folder '"
        + name
        + "' among the "
        + among
        + " is not shown: "
        + why
        + ". Mend it or move it away; everything else is as it was.";
  }
}
