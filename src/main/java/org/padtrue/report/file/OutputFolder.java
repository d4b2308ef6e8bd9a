package org.padtrue.report.file;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.plot.ink.DrawnChart;

/**
 * A folder that gets either all files of a report or none: each is written under a temporary name
 * beside its place, and only when all are written are they moved, each in one step.
 */
public final class OutputFolder implements AutoCloseable {
  /** Writes one file's content; the stream is closed afterwards. */
  public interface Content {
    void writeTo(OutputStream stream) throws IOException;
  }

  private final Path folder;
  private final Map<Path, Path> pending = new LinkedHashMap<>();
  private final List<Path> made = new ArrayList<>();

  /** A folder, made when the first file is written. */
  public OutputFolder(Path folder) {
    this.folder = folder;
  }

  /** Writes one file under a temporary name; {@code name} may contain folders ("charts/a.png"). */
  public void write(String name, Content content) {
    Path target = folder.resolve(name);
    try {
      int slash = name.lastIndexOf('/');
      makeFolders(slash < 0 ? folder : folder.resolve(name.substring(0, slash)));
      if (Files.isDirectory(target)) {
        throw new FileAlreadyExistsException(target.toString());
      }
      Path temporary = temporary(target);
      pending.put(target, temporary);
      try (OutputStream out =
          new BufferedOutputStream(
              Files.newOutputStream(
                  temporary, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE),
              1 << 16)) {
        content.writeTo(out);
      }
    } catch (IOException e) {
      throw cannotWrite(target, e);
    }
  }

  /** Writes charts in every format that they were drawn in; {@code before} starts their names. */
  public void write(String before, List<DrawnChart> pictures) {
    for (DrawnChart p : pictures) {
      p.files().forEach((f, bytes) -> write(before + p.name() + f.ending(), s -> s.write(bytes)));
    }
  }

  /** Moves every file to its place and names them, in the order written. */
  public List<Path> commit() {
    List<Path> done = new ArrayList<>();
    for (Map.Entry<Path, Path> e : pending.entrySet()) {
      try {
        move(e.getValue(), e.getKey());
      } catch (IOException x) {
        throw cannotWrite(e.getKey(), x);
      }
      done.add(e.getKey());
    }
    pending.clear();
    made.clear();
    return done;
  }

  /** Leaves nothing behind of what was not committed. */
  @Override
  public void close() {
    pending.values().forEach(OutputFolder::deleteQuietly);
    for (int i = made.size() - 1; i >= 0; i--) {
      deleteQuietly(made.get(i));
    }
  }

  /** Why a file could not be used, in a few words. */
  public static String cause(IOException e) {
    if (e instanceof AccessDeniedException) {
      return "no right to";
    }
    if (e instanceof NoSuchFileException) {
      return "no such file or folder";
    }
    if (e instanceof NotDirectoryException || e instanceof FileAlreadyExistsException) {
      return "something else of that name is in the way";
    }
    String m = e.getMessage();
    return m == null ? e.getClass().getSimpleName() : m;
  }

  /** A plain new file: the usual rights, which a temporary file of the system would not have. */
  private static Path temporary(Path target) {
    return target.resolveSibling(
        ".padtrue-" + UUID.randomUUID().toString().substring(0, 8) + "-" + target.getFileName());
  }

  private void makeFolders(Path path) throws IOException {
    if (Files.isDirectory(path)) {
      return;
    }
    if (Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
      throw new NotDirectoryException(path.toString());
    }
    Path parent = path.toAbsolutePath().getParent();
    if (parent != null) {
      makeFolders(parent);
    }
    Files.createDirectory(path);
    made.add(path);
  }

  private static void move(Path from, Path to) throws IOException {
    try {
      Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
    }
  }

  private static void deleteQuietly(Path p) {
    try {
      Files.deleteIfExists(p);
    } catch (IOException e) {
      // a folder that has got other files meanwhile stays
    }
  }

  private static InputException cannotWrite(Path target, IOException e) {
    return new InputException(
        Problem.of(
            target.toString(),
            "the file cannot be written (" + cause(e) + ")",
            "choose another folder with --out"));
  }
}
