package org.padtrue.load.part;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import org.padtrue.load.names.ChipCodes;
import org.padtrue.load.names.LandPatternNames;
import org.padtrue.load.text.TextFile;
import org.padtrue.panel.PartType;

/** The part types that travel with the program, and other names of their outlines. */
public final class StarterLibrary {
  private static final String PLACE = "/org/padtrue/shared/";

  private StarterLibrary() {}

  /** Its part types by name. */
  public static Map<String, PartType> parts() {
    return PartsLoader.load(text("parts.json")).orThrow();
  }

  /** Other names of its outlines: name to part type. */
  public static Map<String, String> aliases() {
    Map<String, String> all = new LinkedHashMap<>();
    for (String line : text("aliases.csv").chars().split("\\R")) {
      if (!line.startsWith("#") && !line.startsWith("type,")) {
        String[] cells = line.split(",", 3);
        for (String alias : cells[1].split(" ")) {
          all.put(alias, cells[0]);
        }
      }
    }
    return all;
  }

  /** Finds its part types by name. */
  public static LandPatternNames names(ChipCodes codes) {
    return new LandPatternNames(parts().values(), aliases(), codes);
  }

  private static TextFile text(String name) {
    try (InputStream in = StarterLibrary.class.getResourceAsStream(PLACE + name)) {
      if (in == null) {
        throw new IllegalStateException("the program lacks its file " + PLACE + name);
      }
      return TextFile.of(name, new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new IllegalStateException("cannot read " + PLACE + name, e);
    }
  }
}
