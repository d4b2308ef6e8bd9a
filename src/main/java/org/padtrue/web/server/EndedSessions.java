package org.padtrue.web.server;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Sessions that were signed out, in a file of lines {@code id seconds}, so that their cookies are
 * refused after a restart too; each until it would have ended by itself.
 */
public final class EndedSessions {
  private final Path file;
  private final Map<String, Instant> until = new ConcurrentHashMap<>();

  private EndedSessions(Path file) {
    this.file = file;
  }

  /** Those of a file; none when it is not there. */
  public static EndedSessions of(Path file, Instant now) throws IOException {
    EndedSessions e = new EndedSessions(file);
    if (Files.exists(file)) {
      new String(Files.readAllBytes(file), StandardCharsets.US_ASCII)
          .lines()
          .filter(l -> l.matches("[A-Za-z0-9_-]+ \\d{1,12}"))
          .map(l -> l.split(" ", 2))
          .forEach(l -> e.until.put(l[0], Instant.ofEpochSecond(Long.parseLong(l[1]))));
      e.until.values().removeIf(now::isAfter);
      e.write(
          e.until.entrySet().stream()
              .map(x -> line(x.getKey(), x.getValue()))
              .collect(java.util.stream.Collectors.joining()),
          StandardOpenOption.TRUNCATE_EXISTING);
    }
    return e;
  }

  /** Ends a session, here at once and for later starts once it is on disk. */
  void end(Session s, Instant now) throws IOException {
    Instant last = now.plus(Session.LASTS);
    until.put(s.id(), last);
    write(line(s.id(), last), StandardOpenOption.APPEND);
  }

  boolean has(Session s) {
    return until.containsKey(s.id());
  }

  private static String line(String id, Instant last) {
    return id + " " + last.getEpochSecond() + "\n";
  }

  private synchronized void write(String text, StandardOpenOption how) throws IOException {
    Files.writeString(
        file,
        text,
        StandardCharsets.US_ASCII,
        StandardOpenOption.CREATE,
        StandardOpenOption.WRITE,
        how);
  }
}
