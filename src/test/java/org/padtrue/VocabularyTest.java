package org.padtrue;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.padtrue.load.table.Field;
import org.padtrue.panel.Factor;
import org.padtrue.panel.term.FixedTerm;
import org.padtrue.panel.term.TermFamily;

/**
 * The names of factors and terms stand in the vocabulary alone: elsewhere they are types, so that a
 * new factor is followed everywhere or the compiler says where not.
 */
class VocabularyTest {
  private static final Path MAIN = Path.of("src/main/java/org/padtrue");

  /** The vocabulary: factors, terms, what a machine takes, columns of files. */
  private static final Set<String> HOME =
      Set.of(
          "panel/Factor.java",
          "panel/TrimKind.java",
          "panel/term/FixedTerm.java",
          "panel/term/TermFamily.java",
          "load/table/Field.java");

  private static final Pattern COMMENT = Pattern.compile("(?s)/\\*.*?\\*/|(?m)^\\s*//.*$");
  private static final Pattern LITERAL = Pattern.compile("\"((?:[^\"\\\\]++|\\\\.)*+)\"");

  /** What stands before a literal that something is compared with. */
  private static final Pattern COMPARED =
      Pattern.compile(
          "(?:\\bcase(?:\\s+\"\\w+\",)*|\\.(?:equals|equalsIgnoreCase|startsWith|endsWith|contains|indexOf)\\()\\s*$");

  /** Listed factors have no other meaning, but for a page's head and a cause of drift. */
  @Test
  void noKeyOfAListedFactorStandsElsewhere() throws IOException {
    Set<String> keys = Factor.listedOnes().stream().map(Factor::key).collect(Collectors.toSet());
    assertThat(
            found(
                (literal, before) ->
                    keys.contains(literal.strip())
                        && !before.matches("(?s).*\\b(open|close)\\([^;]*$")
                        && !before.matches("(?s).*\\bNOZZLE\\($")))
        .isEmpty();
  }

  @Test
  void nothingIsComparedWithAName() throws IOException {
    Set<String> names =
        Stream.of(
                Arrays.stream(Factor.values()).map(Factor::key),
                Arrays.stream(FixedTerm.values()).flatMap(t -> Stream.of(t.series(), t.label())),
                Arrays.stream(TermFamily.values()).map(TermFamily::key))
            .flatMap(s -> s)
            .collect(Collectors.toSet());
    // the frames part and panel are compared where results are read; so is the axis rotation
    names.remove(Factor.PART.key());
    names.remove(FixedTerm.ROTATION.series());
    assertThat(
            found(
                (literal, before) ->
                    COMPARED.matcher(before).find()
                        && names.contains(literal.strip().replaceFirst(" .*", ""))))
        .isEmpty();
  }

  @Test
  void everyListedFactorHasItsColumn() {
    for (Factor f : Factor.listedOnes()) {
      assertThat(Field.of(f).key()).isEqualTo(f.key());
      assertThat(f.trim()).as("a kind of trim for " + f.key()).isPresent();
    }
  }

  /** Literals outside the vocabulary, by what they say and what stands before them. */
  private static List<String> found(BiPredicate<String, String> wrong) throws IOException {
    List<Path> files;
    try (Stream<Path> all = Files.walk(MAIN)) {
      files = all.filter(f -> f.toString().endsWith(".java")).sorted().toList();
    }
    List<String> found = new ArrayList<>();
    for (Path f : files) {
      String name = MAIN.relativize(f).toString().replace('\\', '/');
      String text = COMMENT.matcher(Files.readString(f)).replaceAll("");
      Matcher m = LITERAL.matcher(text);
      while (!HOME.contains(name) && m.find()) {
        String before = text.substring(Math.max(0, m.start() - 120), m.start());
        if (wrong.test(m.group(1), before)) {
          found.add(name + ": " + m.group());
        }
      }
    }
    return found;
  }
}
