package org.padtrue.load.corrected;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Collection;
import java.util.UUID;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** Writes a file in one step, and never over one that it was made from. */
final class CorrectedFileWriter {
  private static final String MEND = "choose another file with --out";

  private CorrectedFileWriter() {}

  static void write(byte[] bytes, Path out, Collection<Path> inputs) {
    refuseInput(out, inputs);
    if (Files.isDirectory(out)) {
      throw refuse(out, "this is a folder, not a file");
    }
    Path target = out.toAbsolutePath();
    Path temporary =
        target.resolveSibling(
            ".padtrue-" + UUID.randomUUID().toString().substring(0, 8) + "-" + out.getFileName());
    try {
      Path folder = target.getParent();
      if (folder != null) {
        Files.createDirectories(folder);
      }
      Files.write(temporary, bytes, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      move(temporary, target);
    } catch (IOException e) {
      deleteQuietly(temporary);
      throw refuse(out, "the file cannot be written (" + cause(e) + ")");
    }
  }

  /** The same file by another name, through a link or in another spelling, is the same file. */
  static void refuseInput(Path out, Collection<Path> inputs) {
    for (Path in : inputs) {
      if (same(out, in)) {
        throw refuse(out, "this is the input " + in + ", which stays as it is");
      }
    }
  }

  private static boolean same(Path a, Path b) {
    try {
      return Files.exists(a) && Files.exists(b) && Files.isSameFile(a, b)
          || real(a).equals(real(b));
    } catch (IOException e) {
      return a.toAbsolutePath().normalize().equals(b.toAbsolutePath().normalize());
    }
  }

  /** A link that leads nowhere yet is followed too. */
  private static Path real(Path p) throws IOException {
    if (Files.exists(p)) {
      return p.toRealPath();
    }
    if (Files.isSymbolicLink(p)) {
      return p.toAbsolutePath().resolveSibling(Files.readSymbolicLink(p)).normalize();
    }
    Path folder = p.toAbsolutePath().getParent();
    return folder != null && Files.exists(folder, LinkOption.NOFOLLOW_LINKS)
        ? folder.toRealPath().resolve(p.getFileName())
        : p.toAbsolutePath().normalize();
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
      // the first failure is the one to report
    }
  }

  private static String cause(IOException e) {
    if (e instanceof AccessDeniedException) {
      return "no right to";
    }
    if (e instanceof NoSuchFileException) {
      return "no such folder";
    }
    if (e instanceof FileAlreadyExistsException) {
      return "something else of that name is in the way";
    }
    String m = e.getMessage();
    return m == null ? e.getClass().getSimpleName() : m;
  }

  private static InputException refuse(Path out, String found) {
    return new InputException(Problem.of(out.toString(), found, MEND));
  }
}
