package org.padtrue.web.server;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/** The few values that were asked for last, by key; safe for many threads. */
public final class Newest {
  private static final float LOAD = 0.75f;

  private Newest() {}

  /** An empty map that forgets the value asked for longest ago when it would hold more. */
  public static <K, V> Map<K, V> of(int most) {
    return Collections.synchronizedMap(
        new LinkedHashMap<>(most, LOAD, true) {
          private static final long serialVersionUID = 1;

          @Override
          protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
            return size() > most;
          }
        });
  }
}
