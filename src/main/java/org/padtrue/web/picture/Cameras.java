package org.padtrue.web.picture;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.padtrue.report.json.CameraFile;
import org.padtrue.web.server.FileNames;
import org.padtrue.web.server.Refusal;

/** Camera files that the workspace keeps, NAME.json each: lenses, bends of scanners. */
final class Cameras {
  private static final String ENDING = ".json";
  private static final int MOST = 200;

  private final Path folder;

  Cameras(Path folder) {
    this.folder = folder;
  }

  /** Names, in order. */
  List<String> names() throws IOException {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> s = Files.list(folder)) {
      return s.map(p -> String.valueOf(p.getFileName()))
          .filter(n -> n.endsWith(ENDING))
          .map(n -> n.substring(0, n.length() - ENDING.length()))
          .filter(FileNames::isId)
          .sorted()
          .toList();
    }
  }

  /** The file of a name that is kept. */
  Path file(String name) throws IOException {
    if (!names().contains(name)) {
      throw Refusal.notThere("There is no camera '" + name + "' here.");
    }
    return folder.resolve(name + ENDING);
  }

  /** Keeps a camera under a name made of a text, beside those that are there; gives the name. */
  String keep(String called, CameraFile camera) throws IOException {
    synchronized (Cameras.class) {
      List<String> have = names();
      if (have.size() >= MOST) {
        throw Refusal.bad("More than " + MOST + " cameras are not kept; delete one first.");
      }
      Files.createDirectories(folder);
      String name = free(called, have);
      camera.write(folder.resolve(name + ENDING));
      return name;
    }
  }

  private static String free(String called, List<String> have) {
    String slug = FileNames.slug(called);
    for (int n = 1; ; n++) {
      String name = n == 1 ? slug : slug + "-" + n;
      if (!have.contains(name)) {
        return name;
      }
    }
  }

  /** Removes a camera; articles keep what was measured with it. */
  void delete(String name) throws IOException {
    Files.deleteIfExists(file(name));
  }
}
