package org.padtrue.load.article;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What comment lines of an article say. */
final class ArticleComments {
  private static final Pattern TEMPERATURE =
      Pattern.compile(
          "temperature\\s*[=:]?\\s*([-+]?\\d+(?:[.,]\\d+)?)\\s*(?:\u00b0|deg(?:rees)?)?\\s*([cfk]?)(?![\\p{L}\\d])");

  private static final Pattern RELATIVE =
      Pattern.compile("type offset not known\\s*[:=]\\s*(.*)", Pattern.CASE_INSENSITIVE);

  private ArticleComments() {}

  /** The temperature in degrees Celsius; a bare number is Celsius. */
  static OptionalDouble temperatureC(List<String> comments) {
    for (String c : comments) {
      Matcher m = TEMPERATURE.matcher(c.toLowerCase(Locale.ROOT));
      if (m.find()) {
        double v = Double.parseDouble(m.group(1).replace(',', '.'));
        return OptionalDouble.of(
            switch (m.group(2)) {
              case "f" -> (v - 32) / 1.8;
              case "k" -> v - 273.15;
              default -> v;
            });
      }
    }
    return OptionalDouble.empty();
  }

  static boolean registeredOnParts(List<String> comments) {
    return says(comments, "registered on parts");
  }

  static boolean registeredOnLands(List<String> comments) {
    return says(comments, "registered on lands");
  }

  private static boolean says(List<String> comments, String words) {
    return comments.stream()
        .map(c -> c.toLowerCase(Locale.ROOT).replaceAll("[\\s=:_-]+", " "))
        .anyMatch(c -> c.contains(words));
  }

  /** Part types that were measured against a sample whose place nobody knows. */
  static Set<String> relativeTypes(List<String> comments) {
    Set<String> types = new TreeSet<>();
    for (String c : comments) {
      Matcher m = RELATIVE.matcher(c);
      if (m.find()) {
        for (String t : m.group(1).split(";", -1)) {
          if (!t.isBlank()) {
            types.add(t.strip());
          }
        }
      }
    }
    return types;
  }
}
