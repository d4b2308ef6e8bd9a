package org.padtrue.cli.option;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.padtrue.panel.TrimKind;
import picocli.CommandLine;

/** The kinds of trim that a command line names. */
public final class TrimKinds {
  private static final Set<TrimKind> PANEL =
      EnumSet.of(TrimKind.REGISTRATION, TrimKind.ROTATION, TrimKind.SCALE, TrimKind.ARRAY);

  private TrimKinds() {}

  /**
   * Kinds by name as an option gives them; 'panel' stands for all that act on the panel, 'all' for
   * everything.
   */
  public static Set<TrimKind> parse(String option, List<String> words, CommandLine line) {
    Set<TrimKind> kinds = EnumSet.noneOf(TrimKind.class);
    for (String w : words) {
      String word = w.trim();
      if (word.equals("all")) {
        kinds.addAll(EnumSet.allOf(TrimKind.class));
      } else if (word.equals("panel")) {
        kinds.addAll(PANEL);
      } else {
        kinds.add(
            TrimKind.parse(word)
                .orElseThrow(
                    () ->
                        new CommandLine.ParameterException(
                            line, option + " names '" + word + "'; expected some of " + names())));
      }
    }
    return kinds;
  }

  static String names() {
    return Stream.concat(Stream.of(TrimKind.values()).map(TrimKind::key), Stream.of("panel", "all"))
        .collect(Collectors.joining(", "));
  }
}
