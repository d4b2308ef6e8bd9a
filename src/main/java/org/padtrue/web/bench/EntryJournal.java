package org.padtrue.web.bench;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.padtrue.web.server.Refusal;

/**
 * What was entered for one article, in a file that only grows. When {@link #append} returns, the
 * entries are on disk; a line that a crash cut short is left out when the file is read again.
 */
public final class EntryJournal {
  private final Path file;
  private final List<Entry> entries = new ArrayList<>();
  private final List<Damage.Line> damaged = new ArrayList<>();
  private long highest;

  private EntryJournal(Path file) {
    this.file = file;
  }

  /** The journal of a file, empty when there is none yet. */
  static EntryJournal open(Path file) throws IOException {
    EntryJournal j = new EntryJournal(file);
    if (Files.exists(file)) {
      // a byte that is no UTF-8 costs its line, which then fails its check sum
      String text = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
      j.read(text);
      if (!text.isEmpty() && !text.endsWith("\n")) {
        // the rest of a cut line must not run into the next entry
        j.put("\n");
      }
    }
    return j;
  }

  private void read(String text) {
    String[] lines = text.split("\n", -1);
    for (int k = 0; k < lines.length; k++) {
      String line = lines[k];
      Optional<Entry> e = EntryLine.read(line);
      e.ifPresent(entries::add);
      if (e.isEmpty() && !line.isBlank()) {
        damaged.add(new Damage.Line(k + 1L, EntryLine.placement(line), lastRead()));
      }
    }
    // numbers of damaged lines are not given again
    highest = Math.max(lastRead(), entries.size() + damaged.size());
  }

  private long lastRead() {
    return entries.isEmpty() ? 0 : entries.get(entries.size() - 1).sequence();
  }

  /** Lines that could not be read when the file was opened. */
  synchronized List<Damage.Line> damaged() {
    return List.copyOf(damaged);
  }

  /** Writes entries down, all in one go; gives them back with their numbers. */
  public synchronized List<Entry> append(List<Entry> added) throws IOException {
    Instant now = Instant.now().truncatedTo(ChronoUnit.MILLIS);
    List<Entry> numbered = new ArrayList<>();
    StringBuilder lines = new StringBuilder();
    for (Entry e : added) {
      Entry n = e.numbered(last() + numbered.size() + 1, now);
      numbered.add(n);
      lines.append(EntryLine.write(n)).append('\n');
    }
    put(lines.toString());
    entries.addAll(numbered);
    highest += numbered.size();
    return numbered;
  }

  /**
   * Writes down what was typed of one placement, unless it holds something else by now.
   *
   * @param seen number of the last entry of this placement that the person saw; 0 none
   * @return the entry with its number, or what stands there and was not seen
   */
  public synchronized Entered enter(Entry e, long seen) throws IOException {
    Entry stands = standing(e.placement());
    if (stands != null && stands.sequence() > seen) {
      return new Entered(stands, e.sameValue(stands));
    }
    return new Entered(append(List.of(e)).get(0), true);
  }

  /**
   * What became of a typed value.
   *
   * @param entry what stands in the journal now
   * @param taken true when that is what was typed
   */
  public record Entered(Entry entry, boolean taken) {}

  /** Number of the last such entry, by placement. */
  synchronized Map<String, Long> standing() {
    Map<String, Long> m = new HashMap<>();
    for (Entry e : entries) {
      if (says(e)) {
        m.put(e.placement(), e.sequence());
      }
    }
    return m;
  }

  private static boolean says(Entry e) {
    return switch (e.kind()) {
      case MEASURED, CLEARED, LEFT_OUT -> true;
      case PLANNED, TAKEN_IN -> false;
    };
  }

  /**
   * The last entry that says what was measured of a placement, or what is wrong with it; or null.
   */
  public synchronized @Nullable Entry standing(String placement) {
    for (int k = entries.size() - 1; k >= 0; k--) {
      Entry e = entries.get(k);
      if (says(e) && e.placement().equals(placement)) {
        return e;
      }
    }
    return null;
  }

  private void put(String text) throws IOException {
    try (FileChannel c =
        FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
      long before = c.size();
      try {
        ByteBuffer b = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
        while (b.hasRemaining()) {
          c.write(b);
        }
        c.force(true);
      } catch (IOException e) {
        // a full disk may have taken a part of it
        c.truncate(before);
        throw e;
      }
    } catch (NoSuchFileException e) {
      throw Refusal.notThere(
          "This article was deleted meanwhile, so nothing was stored. It can be taken back under"
              + " Deleted, at the end of the list of jobs.");
    }
  }

  /** Number of the last entry, 0 when there is none. */
  public synchronized long last() {
    return highest;
  }

  /** Entries after a number, in order. */
  public synchronized List<Entry> since(long sequence) {
    return entries.stream().filter(e -> e.sequence() > sequence).toList();
  }
}
