package org.padtrue;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** What makes the house easy to find one's way in: short folders, one name for one thing. */
class HouseTest {
  private static final Path MAIN = Path.of("src/main/java/org/padtrue");
  private static final int MOST = 30;

  private static List<Path> sources() throws IOException {
    try (Stream<Path> all = Files.walk(MAIN)) {
      return all.filter(f -> f.toString().endsWith(".java")).toList();
    }
  }

  private static Map<String, List<String>> grouped(boolean byFolder) throws IOException {
    Map<String, List<String>> groups = new TreeMap<>();
    for (Path f : sources()) {
      String folder = MAIN.relativize(f).getParent() + "";
      String name = f.getFileName().toString();
      groups
          .computeIfAbsent(byFolder ? folder : name, k -> new ArrayList<>())
          .add(byFolder ? name : folder);
    }
    return groups;
  }

  @Test
  void noFolderHasMoreThanThirtyFiles() throws IOException {
    Map<String, List<String>> folders = grouped(true);

    assertThat(folders).hasSizeGreaterThan(50);
    assertThat(folders)
        .allSatisfy((folder, files) -> assertThat(files).hasSizeLessThanOrEqualTo(MOST));
  }

  @Test
  void noTwoClassesHaveOneName() throws IOException {
    Map<String, List<String>> names = grouped(false);
    names.remove("package-info.java");

    assertThat(names).hasSizeGreaterThan(500);
    assertThat(names).allSatisfy((name, folders) -> assertThat(folders).hasSize(1));
  }

  @Test
  void everyFolderSaysWhatItAnswers() throws IOException {
    assertThat(grouped(true))
        .allSatisfy((folder, files) -> assertThat(files).contains("package-info.java"));
  }
}
