package org.padtrue.web.kept;

import java.util.regex.Pattern;

/** What a person without a job file does about a bill of materials: send it, or choose below. */
public final class BillWords {
  private static final Pattern UNLISTED =
      Pattern.compile("say \"bom\": \\{.*?\\} in the job if nothing is, or \"keep\"");
  private static final Pattern MISSING =
      Pattern.compile("name the bill of materials that has them as \"bom\" in the job\\b.*");

  private BillWords() {}

  /** The sentence for somebody who has no job file. */
  public static String forPage(String sentence) {
    String s = UNLISTED.matcher(sentence).replaceAll("say below whether something is");
    return MISSING
        .matcher(s)
        .replaceAll("send the bill of materials that has them, or name that column \"part\"");
  }
}
