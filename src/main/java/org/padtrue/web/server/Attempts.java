package org.padtrue.web.server;

import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Wrong pass phrases by address: from the fifth on, an address waits, each time twice as long; from
 * the fiftieth wrong one within the memory of this server, everybody waits.
 */
public final class Attempts {
  private static final int FREE = 5;
  private static final int FREE_FOR_ALL = 50;
  private static final Duration FIRST = Duration.ofSeconds(30);
  private static final Duration LONGEST = Duration.ofMinutes(30);
  private static final int MOST_ADDRESSES = 10_000;

  private record Wrong(int count, Instant until) {}

  private final Map<String, Wrong> byAddress = new LinkedHashMap<>();
  private Wrong all = new Wrong(0, Instant.MIN);

  /** How long an address still has to wait; zero when it may try. */
  public synchronized Duration wait(String address, Instant now) {
    Wrong own = byAddress.getOrDefault(address, new Wrong(0, Instant.MIN));
    Instant until = own.until.isAfter(all.until) ? own.until : all.until;
    return until.isAfter(now) ? Duration.between(now, until) : Duration.ZERO;
  }

  public synchronized void wrong(String address, Instant now) {
    Wrong before = byAddress.getOrDefault(address, new Wrong(0, Instant.MIN));
    if (byAddress.size() >= MOST_ADDRESSES && !byAddress.containsKey(address)) {
      byAddress.remove(byAddress.keySet().iterator().next());
    }
    byAddress.put(address, next(before, FREE, now));
    all = next(all, FREE_FOR_ALL, now);
  }

  public synchronized void right(String address) {
    byAddress.remove(address);
  }

  private static Wrong next(Wrong before, int free, Instant now) {
    int count = before.count + 1;
    if (count < free) {
      return new Wrong(count, Instant.MIN);
    }
    Duration d = FIRST.multipliedBy(1L << Math.min(10, count - free));
    return new Wrong(count, now.plus(d.compareTo(LONGEST) > 0 ? LONGEST : d));
  }
}
