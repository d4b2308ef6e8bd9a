package org.padtrue.report.json;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.padtrue.imaging.taught.TaughtLook;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.file.OneFile;
import org.padtrue.report.file.OutputFolder;

/**
 * A folder of taught looks: for each part type a PNG and a JSON file of the same name.
 *
 * <pre>
 * {"schema": "padtrue/taught/1", "part": "XL-3", "sample": "1/1/L1 in panel.png",
 *  "picture": "XL-3.png", "pxPerMm": 20.01, "originX": 46.1, "originY": 44.5,
 *  "length": 3.4, "width": 3.2, "u": null, "urotation": null}
 * </pre>
 *
 * <p>The picture shows the part at rotation 0, opaque where it counts; its origin is px from the
 * centre of the first pixel, y down; length and width are mm; u and urotation, mm and degrees, say
 * how well it is known where the sample stood, null that it is not. What is made transparent by
 * hand in a picture editor does not count any more.
 */
public final class TaughtFolder {
  private static final String SCHEMA = "padtrue/taught/1";
  private static final String MEND = "teach the type again with --teach";

  private TaughtFolder() {}

  /** Complains where looks could not be written; nothing is left behind. */
  public static void checkPlace(Path folder) {
    OneFile.checkPlace(folder.resolve("look.json"));
  }

  /** Writes looks, all or none; those of other types in the folder stay. */
  public static List<Path> write(List<TaughtLook> looks, Path folder) {
    try (OutputFolder out = new OutputFolder(folder)) {
      Set<String> taken = new HashSet<>();
      for (TaughtLook t : looks) {
        String name = fileName(t.part(), taken);
        byte[] png = t.png();
        out.write(name + ".png", s -> s.write(png));
        out.write(
            name + ".json",
            s -> {
              try (JsonOut o = new JsonOut(s)) {
                o.begin().text("schema", SCHEMA).text("part", t.part()).text("sample", t.sample());
                o.text("picture", name + ".png").number("pxPerMm", t.pxPerMm());
                o.number("originX", t.originXPx()).number("originY", t.originYPx());
                o.number("length", t.lengthMm()).number("width", t.widthMm());
                o.number("u", t.uMm()).number("urotation", t.uRotationDeg());
                o.end();
              }
            });
      }
      return out.commit();
    }
  }

  /** A name that any file system takes; two types never share one. */
  private static String fileName(String part, Set<String> taken) {
    String plain = part.replaceAll("[^A-Za-z0-9._-]+", "_").replaceAll("^\\.+", "_");
    String base = plain.equals(part) ? plain : plain + "-" + Integer.toHexString(part.hashCode());
    String name = base;
    for (int i = 2; !taken.add(name.toLowerCase(Locale.ROOT)); i++) {
      name = base + "-" + i;
    }
    return name;
  }

  /** True when a folder holds looks already. */
  public static boolean holdsSome(Path folder) {
    return !files(folder).isEmpty();
  }

  private static List<Path> files(Path folder) {
    List<Path> files = new ArrayList<>();
    if (Files.isDirectory(folder)) {
      try (Stream<Path> all = Files.list(folder)) {
        all.filter(p -> p.toString().endsWith(".json")).sorted().forEach(files::add);
      } catch (IOException e) {
        throw refuse(folder, "the folder cannot be read (" + OutputFolder.cause(e) + ")");
      }
    }
    return files;
  }

  /**
   * Reads every look of a folder.
   *
   * @throws InputException when there is none or one is damaged
   */
  public static List<TaughtLook> read(Path folder) {
    List<Path> files = files(folder);
    if (files.isEmpty()) {
      throw new InputException(
          Problem.of(
              folder.toString(),
              "there is no folder with taught looks here",
              "give the one that --teach wrote, or teach first"));
    }
    List<TaughtLook> looks = new ArrayList<>();
    for (Path f : files) {
      TaughtLook t = look(f);
      if (looks.stream().anyMatch(o -> o.part().equals(t.part()))) {
        throw refuse(f, "a second look of type '" + t.part() + "'");
      }
      looks.add(t);
    }
    return looks;
  }

  private static TaughtLook look(Path file) {
    String name = file.toString();
    try {
      JsonNode tree = new ObjectMapper().readTree(Files.readAllBytes(file));
      JsonIn in = new JsonIn(name, "", tree, MEND);
      if (!in.text("schema").equals(SCHEMA)) {
        throw in.bad("the schema is '" + in.text("schema") + "', expected '" + SCHEMA + "'");
      }
      for (String k : List.of("pxPerMm", "length", "width")) {
        if (!(in.number(k) > 0)) {
          throw in.bad("'" + k + "' should be more than 0");
        }
      }
      for (String k : List.of("originX", "originY")) {
        if (!(Math.abs(in.number(k)) < 1e5)) {
          throw in.bad("'" + k + "' should be a place in the picture");
        }
      }
      String picture = in.text("picture");
      if (!picture.equals(String.valueOf(Path.of(picture).getFileName()))) {
        throw in.bad("'picture' should name a file beside this one");
      }
      Path at = file.resolveSibling(picture);
      if (!Files.isRegularFile(at) || Files.size(at) > 64L << 20) {
        throw refuse(at, "there is no such picture beside " + file.getFileName());
      }
      return TaughtLook.of(
          in.text("part"),
          in.text("sample"),
          in.number("pxPerMm"),
          in.number("originX"),
          in.number("originY"),
          in.number("length"),
          in.number("width"),
          in.numberOrNaN("u"),
          in.numberOrNaN("urotation"),
          at.toString(),
          Files.readAllBytes(at));
    } catch (JsonProcessingException e) {
      throw refuse(file, "this is no JSON: " + e.getOriginalMessage());
    } catch (IOException e) {
      throw refuse(file, "the file cannot be read (" + OutputFolder.cause(e) + ")");
    }
  }

  private static InputException refuse(Path file, String found) {
    return new InputException(Problem.of(file.toString(), found, MEND));
  }
}
