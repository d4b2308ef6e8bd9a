package org.padtrue;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.padtrue.cli.Main;
import org.padtrue.web.help.Handbook;
import picocli.CommandLine.Command;

/** README, DEVELOPERS.md and the handbook: short, linked, and about what there is. */
class HandbookTest {
  private static final Path README = Path.of("README.md");
  private static final Path DEVELOPERS = Path.of("DEVELOPERS.md");
  private static final Path PAGES = Path.of("src/site/markdown");
  private static final Path RESOURCES = Path.of("src/site/resources");

  /** Destination of a link or picture. */
  private static final Pattern LINK = Pattern.compile("\\]\\(([^)\\s]+)\\)");

  private static final Pattern CODE = Pattern.compile("`([^`\n]+)`");
  private static final Pattern MENU = Pattern.compile("<item name=\"([^\"]+)\" href=\"([^\"]+)\"");

  private static List<String> all(Pattern p, String text) {
    return p.matcher(text).results().map((MatchResult m) -> m.group(1)).toList();
  }

  private static String page(String name) throws IOException {
    return Files.readString(PAGES.resolve(name + ".md"));
  }

  static List<Path> documents() {
    List<Path> all = new ArrayList<>(List.of(README, DEVELOPERS));
    Handbook.NAMES.forEach(n -> all.add(PAGES.resolve(n + ".md")));
    return all;
  }

  /** As {@code wc -w} counts. */
  private static long words(Path file) throws IOException {
    return Arrays.stream(Files.readString(file).split("\\s+")).filter(w -> !w.isEmpty()).count();
  }

  @Test
  void theFirstTwoDocumentsAreShort() throws IOException {
    assertThat(words(README)).isLessThanOrEqualTo(1400);
    assertThat(words(DEVELOPERS)).isLessThanOrEqualTo(1500);
  }

  @Test
  void theReadmeStartsWithTheTwoCommandsAndAPicture() throws IOException {
    String text = Files.readString(README);
    assertThat(text)
        .contains(
            "\n    mvn -q compile exec:java ", "\n    mvn -q verify ", "interlocks", "](src/site");
    assertThat(text.lines().filter(l -> l.startsWith("!["))).hasSize(1);
  }

  @ParameterizedTest
  @MethodSource("documents")
  void everyLinkLeadsToAFile(Path document) throws IOException {
    boolean page = document.startsWith(PAGES);
    Path folder = page ? PAGES : Path.of("");
    for (String to : all(LINK, Files.readString(document))) {
      assertThat(to).as(document + ": the handbook is read without internet").doesNotContain(":");
      String file = to.replaceAll("#.*", "");
      Path there = page && file.startsWith("images/") ? RESOURCES : folder;
      assertThat(there.resolve(file)).as("%s links to %s", document, to).isRegularFile();
    }
  }

  @Test
  void theReadmeLeadsToEveryPage() throws IOException {
    List<String> links = all(LINK, Files.readString(README));
    assertThat(links)
        .containsAll(Handbook.NAMES.stream().map(n -> PAGES + "/" + n + ".md").toList());
  }

  @Test
  void everyPageIsListedAndEveryPictureIsShown() throws IOException {
    try (Stream<Path> s = Files.list(PAGES)) {
      assertThat(s.map(p -> p.getFileName().toString().replaceFirst("\\.md$", "")))
          .containsExactlyInAnyOrderElementsOf(Handbook.NAMES);
    }
    Set<String> shown = new TreeSet<>();
    for (Path document : documents()) {
      all(LINK, Files.readString(document)).stream()
          .filter(l -> l.contains("images/"))
          .forEach(l -> shown.add(l.replaceFirst(".*images/", "")));
    }
    try (Stream<Path> s = Files.list(RESOURCES.resolve("images"))) {
      assertThat(s.map(p -> p.getFileName().toString())).containsExactlyInAnyOrderElementsOf(shown);
    }
  }

  /** The menu of {@code mvn site} is that of the served pages: the same names in the same order. */
  @Test
  void bothMenusAreAlike() throws IOException {
    List<String> menu =
        MENU.matcher(Files.readString(Path.of("src/site/site.xml")))
            .results()
            .map(m -> m.group(2) + " " + m.group(1))
            .toList();
    List<String> served =
        Handbook.get().pages().stream().map(p -> p.name() + ".html " + p.title()).toList();
    assertThat(menu).isEqualTo(served);
  }

  @Test
  void theReadmeListsEveryCommand() throws IOException {
    List<String> commands =
        Main.COMMANDS.stream().map(c -> c.getAnnotation(Command.class).name()).toList();
    List<String> listed = all(Pattern.compile("(?m)^\\| `([a-z]+)"), Files.readString(README));
    assertThat(listed).containsExactlyInAnyOrderElementsOf(commands);
    StringBuilder book = new StringBuilder();
    for (String name : Handbook.NAMES) {
      book.append(page(name));
    }
    assertThat(commands)
        .allMatch(c -> book.indexOf("padtrue " + c) >= 0 || book.indexOf("`" + c) >= 0);
  }

  private static Set<String> files(String... roots) throws IOException {
    Set<String> names = new TreeSet<>();
    for (String root : roots) {
      try (Stream<Path> s = Files.walk(Path.of(root))) {
        s.filter(Files::isRegularFile).forEach(p -> names.add(p.getFileName().toString()));
      }
    }
    return names;
  }

  /** Files that the guide names; a star stands for any letters. */
  @Test
  void theGuideNamesFilesThatExist() throws IOException {
    List<Path> roots =
        Stream.of(
                "",
                "src/main/java/org/padtrue",
                "src/test/java/org/padtrue",
                "src/test/r",
                "src/main/resources/org/padtrue/schema")
            .map(Path::of)
            .toList();
    Set<String> everywhere = files("src");
    for (String code : all(CODE, Files.readString(DEVELOPERS))) {
      if (code.matches("[\\w./]+\\.(java|json|xml|md|R)") && code.indexOf('/') >= 0) {
        assertThat(roots.stream().map(r -> r.resolve(code)).anyMatch(Files::isRegularFile))
            .as("DEVELOPERS.md names " + code)
            .isTrue();
      } else if (code.matches("\\w[\\w.]*\\.(java|json|R)")) {
        assertThat(everywhere).as("DEVELOPERS.md names " + code).contains(code);
      }
    }
  }

  /** Classes by their names alone, so that a move to another package needs no new text. */
  @Test
  void testsAndClassesThatAreNamedExist() throws IOException {
    Set<String> classes =
        files("src").stream()
            .filter(f -> f.endsWith(".java"))
            .map(f -> f.replace(".java", ""))
            .collect(Collectors.toCollection(TreeSet::new));
    for (String code : all(CODE, page("accuracy") + Files.readString(DEVELOPERS))) {
      if (code.matches("([a-z0-9]+\\.)*[A-Z]\\w*(Test|Properties|Benchmark)")) {
        assertThat(classes).as("named is " + code).contains(code.replaceFirst(".*\\.", ""));
      }
    }
    for (String code : all(CODE, page("method"))) {
      if (code.matches("([a-z0-9]+\\.)*[A-Z]\\w+") && !code.equals("X")) {
        assertThat(classes).as("named is " + code).contains(code.replaceFirst(".*\\.", ""));
      }
    }
  }
}
