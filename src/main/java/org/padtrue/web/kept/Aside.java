package org.padtrue.web.kept;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import org.padtrue.web.server.Secret;

/** Small files written aside and moved to their place: whole or not at all, and on disk. */
public final class Aside {
  private Aside() {}

  /** Writes a text, UTF-8. */
  public static void write(Path to, String text) throws IOException {
    write(to, text.getBytes(StandardCharsets.UTF_8));
  }

  /** Writes a file; when this returns, it is on disk. */
  public static void write(Path to, byte[] content) throws IOException {
    Path part = to.resolveSibling(to.getFileName() + "." + Secret.name() + ".part");
    try {
      try (FileChannel c =
          FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
        ByteBuffer b = ByteBuffer.wrap(content);
        while (b.hasRemaining()) {
          c.write(b);
        }
        c.force(true);
      }
      Files.move(part, to, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }
}
