package org.padtrue.load.names;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.PartType;

/**
 * Which part type of a library a name means.
 *
 * @param name the name as the file has it
 * @param level how sure that is
 * @param type the library's name of it; empty where there is none
 * @param part the part type under the file's own name, its height as the name states it; null where
 *     there is none
 * @param how what says so, a few words; where nothing is matched, why not
 * @param candidates where a code can be read two ways: what each reading means
 */
public record NameMatch(
    String name,
    Level level,
    String type,
    @Nullable PartType part,
    String how,
    List<String> candidates) {

  /** How sure a match is. */
  public enum Level {
    /** The library has that very name. */
    SAME_NAME,
    /** The name states the land pattern by a standard's naming, and all that it states agrees. */
    STANDARD,
    /** Something is left out or differs: a person has to agree. */
    LIKELY,
    /** A code in inch or in metric: a person has to say. */
    TWO_WAYS,
    /** The library has nothing like it. */
    NONE
  }

  public NameMatch {
    candidates = List.copyOf(candidates);
  }

  /** True where the match holds without being asked about. */
  public boolean certain() {
    return level == Level.SAME_NAME || level == Level.STANDARD;
  }
}
