package org.padtrue.history;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Takes the rows of an export as they come; nothing is held in memory. */
public interface RowSink {
  /** A table begins: its name and its columns. */
  void table(String name, List<String> columns);

  /** A row: String, Long or Double, or null where unknown, in the order of the columns. */
  void row(List<@Nullable Object> values);
}
