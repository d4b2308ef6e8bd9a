package org.padtrue.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What no text for people may hold: idiom, names of keys, raw braces, a +- that says nothing. */
public final class WordScan {
  private static final List<Pattern> FORBIDDEN =
      List.of(
          pattern("\\bbuy(s|ing)?\\b"),
          pattern("dead band"),
          pattern("(?<!--)\\bslip(s|ped)?\\b"),
          pattern("\\blaid on"),
          pattern("\\bbetters\\b"),
          pattern("\\beats?\\b"),
          pattern("\\bworth\\b(?! typing)"),
          pattern("\\bchas(e|ing)\\b"),
          pattern("\\bpromis"),
          pattern("\\bin force\\b"),
          pattern("\\bovershot\\b"),
          pattern("\\bnudg"),
          pattern("\\breckon"),
          pattern("registration shift"),
          pattern("\\bland margin\\b"),
          pattern("\\bleft before the limit\\b"));

  private static final Pattern CAMEL = Pattern.compile("\\b[a-z]+[A-Z][A-Za-z]*\\b");
  private static final Pattern BRACES = Pattern.compile("[{}]");
  private static final Pattern PLUS_MINUS = Pattern.compile("\\+-|\u00b1");
  private static final Pattern ASCII_MINUS = Pattern.compile("(?<![\\w.\\-/:+])-\\d");

  /** Keys that a person types into a job, a log or a command: written as they have to be. */
  private static final Set<String> KEYS =
      Set.of(
          "hV",
          "asIs",
          "rotationZero",
          "rotationUncertainty",
          "panelRotationResolution",
          "panelRepeatability",
          "panelLocation",
          "shiftX",
          "scaleXPpm",
          "minutesRunning",
          "serialNumber");

  private WordScan() {}

  private static Pattern pattern(String regex) {
    return Pattern.compile(regex, Pattern.CASE_INSENSITIVE);
  }

  /** What is wrong with a text for people, with the words around it; empty when nothing is. */
  public static List<String> faults(String text) {
    List<String> out = new ArrayList<>();
    for (Pattern p : FORBIDDEN) {
      add(out, p, text, "says");
    }
    add(out, BRACES, text, "has a brace");
    Matcher m = CAMEL.matcher(text);
    while (m.find()) {
      if (!KEYS.contains(m.group())) {
        out.add("has the key " + around(text, m));
      }
    }
    boolean means = text.contains("standard error") || text.contains("95 %");
    if (!means) {
      add(out, PLUS_MINUS, text, "does not say what +- is");
    }
    return out;
  }

  /** The same of a page, on which a minus is a minus sign and a length is in \u00b5m. */
  public static List<String> faultsOfPage(String html) {
    String text = text(html);
    List<String> out = faults(text);
    add(out, ASCII_MINUS, text, "has a hyphen for a minus");
    add(out, Pattern.compile("(?<=\\d )um\\b|\\+-"), text, "has the console's sign");
    return out;
  }

  /** What a person sees of a page. */
  public static String text(String html) {
    return html.replaceAll("(?s)<(script|style|code)\\b.*?</\\1>", " ")
        .replaceAll("(?s)<[^>]*>", " ")
        .replace("&#39;", "'")
        .replace("&quot;", "\"")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&amp;", "&")
        .replaceAll("\\s+", " ");
  }

  private static void add(List<String> out, Pattern p, String text, String what) {
    Matcher m = p.matcher(text);
    while (m.find()) {
      out.add(what + " " + around(text, m));
    }
  }

  private static String around(String text, Matcher m) {
    int from = Math.max(0, m.start() - 60);
    int to = Math.min(text.length(), m.end() + 40);
    return "'" + text.substring(from, to).replaceAll("\\s+", " ") + "'";
  }
}
