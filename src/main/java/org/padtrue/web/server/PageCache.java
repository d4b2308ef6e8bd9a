package org.padtrue.web.server;

import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Pages that many ask for at once, each made once for what it shows. */
final class PageCache {
  private static final int MOST = 32;

  /** One address: what its page was made of, and the page. */
  private static final class Slot {
    private @Nullable List<Object> of;
    private String html = "";

    synchronized String get(List<Object> now, Supplier<String> make) {
      if (!now.equals(of)) {
        html = make.get();
        of = now;
      }
      return html;
    }
  }

  private final Map<String, Slot> slots = Newest.of(MOST);

  /**
   * The page of an address.
   *
   * @param address path with its query
   * @param of everything that the page shows; equal lists show the same
   * @param make makes it
   */
  String get(String address, List<Object> of, Supplier<String> make) {
    return slots.computeIfAbsent(address, a -> new Slot()).get(of, make);
  }
}
