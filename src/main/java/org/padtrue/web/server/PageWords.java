package org.padtrue.web.server;

import java.util.regex.Pattern;

/** Sentences of the program's own, made fit for a page: no folders of this machine, no options. */
public final class PageWords {
  /** A path from the root, down to the name at its end. */
  private static final Pattern PATH =
      Pattern.compile(
          "(?<![\\w/.:\"])(?:/|[A-Za-z]:\\\\)(?:[^/\\\\'\":;,()\\n]+[/\\\\])+(?=[^\\s/\\\\])");

  private static final Pattern CLAUSE =
      Pattern.compile(
          "(?:[;,]\\s(?:or\\s|and\\s)?|\\s\\()[^;,.()]*--[a-z](?:[^;,.()]|\\.(?=\\S))*(?:\\([^()]*\\))?\\)?");
  private static final Pattern OPTION = Pattern.compile("--([a-z][a-z-]*)");

  private PageWords() {}

  /** The sentence for a page. */
  public static String plain(String sentence) {
    String s = PATH.matcher(sentence).replaceAll("");
    s = CLAUSE.matcher(s).replaceAll("");
    s = s.replace("--history:", "the log:").replace("run the command again", "try again");
    return OPTION.matcher(s).replaceAll("\"$1\"");
  }
}
