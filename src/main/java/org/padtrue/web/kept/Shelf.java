package org.padtrue.web.kept;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.padtrue.web.server.FileNames;

/**
 * A folder of folders, each a job or an article by the file that it holds. What is none is told of
 * and left alone.
 */
public final class Shelf {
  private final Path folder;
  private final String among;
  private final String mark;

  /**
   * @param among what stands here: jobs, articles
   * @param mark the file that makes a folder one of them
   */
  public Shelf(Path folder, String among, String mark) {
    this.folder = folder;
    this.among = among;
    this.mark = mark;
  }

  public Path folder() {
    return folder;
  }

  public String among() {
    return among;
  }

  /** Names of the whole ones, the newest first; tells of every other folder. */
  public List<String> names(Consumer<Skipped> skipped) throws IOException {
    List<Path> whole = new ArrayList<>();
    try (Stream<Path> s = Files.list(folder)) {
      for (Path p : s.sorted().toList()) {
        String name = String.valueOf(p.getFileName());
        if (Files.isDirectory(p)) {
          Optional<String> why = trouble(name);
          why.ifPresent(w -> skipped.accept(new Skipped(among, name, w)));
          if (why.isEmpty()) {
            whole.add(p);
          }
        }
      }
    }
    return whole.stream()
        .sorted(Comparator.comparing(Shelf::changed).reversed().thenComparing(p -> p))
        .map(p -> String.valueOf(p.getFileName()))
        .toList();
  }

  /** What is wrong with the folder of that name; empty when it is a whole one. */
  public Optional<String> trouble(String name) {
    Path p = folder.resolve(name);
    if (!FileNames.isId(name)) {
      return Optional.of("the program gives no such names");
    }
    if (Files.isSymbolicLink(p)) {
      return Optional.of("it is a link to somewhere else");
    }
    if (!Files.isReadable(p) || !Files.isExecutable(p)) {
      return Optional.of("it may not be read");
    }
    Path file = p.resolve(mark);
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      return Optional.of("it holds no " + mark);
    }
    return Files.isReadable(file) ? Optional.empty() : Optional.of(mark + " may not be read");
  }

  public boolean has(String name) {
    return Files.exists(folder.resolve(name), LinkOption.NOFOLLOW_LINKS);
  }

  /** Moves a whole folder in, in one go. */
  public void take(Path whole, String name) throws IOException {
    Files.move(whole, folder.resolve(name), StandardCopyOption.ATOMIC_MOVE);
  }

  private static long changed(Path p) {
    try {
      return Files.getLastModifiedTime(p).toMillis();
    } catch (IOException e) {
      return 0;
    }
  }
}
