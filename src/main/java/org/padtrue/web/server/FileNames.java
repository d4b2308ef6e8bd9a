package org.padtrue.web.server;

import io.javalin.http.HttpStatus;
import java.nio.charset.StandardCharsets;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.text.Normalizer;
import java.util.Locale;
import java.util.regex.Pattern;

/** Names that clients send, made into names of files inside a folder, or refused. */
public final class FileNames {
  private static final Pattern ID = Pattern.compile("[a-z0-9][a-z0-9-]{0,59}");
  private static final int MOST_BYTES = 180;

  /** Names that the program writes itself, and names that a file system keeps for devices. */
  private static final Pattern TAKEN =
      Pattern.compile(
          "(?i)settings\\.properties|about\\.properties|entries\\.log|before\\.json"
              + "|entered\\.values|record|gauge|readings\\.txt|pictures|lock"
              + "|secret|shown-\\d+\\.jpg|(con|prn|aux|nul|com\\d|lpt\\d)(\\..*)?");

  private static final String JOB = "job.json";

  private FileNames() {}

  /** An id of a job or an article as it stands in an address. */
  public static String id(String text) {
    if (!isId(text)) {
      throw Refusal.notThere("There is nothing of that name here.");
    }
    return text;
  }

  /** True for a name that the program gives to a folder. */
  public static boolean isId(String text) {
    return ID.matcher(text).matches();
  }

  /** The last part of an uploaded file's name, without what a file system could misread. */
  static String upload(String name) {
    String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
    String plain = last.replaceAll("[\\p{Cntrl}\\p{Cf}\\p{Cs}<>:\"|?*]", "_").strip();
    // a file system that drops dots at the end would make another name of it
    plain = shortened(plain).replaceAll("[. ]+$", "");
    if (plain.isEmpty() || plain.startsWith(".") || plain.endsWith(".part")) {
      throw new Refusal(HttpStatus.BAD_REQUEST, "A file without a usable name cannot be taken.");
    }
    boolean nearlyJob = plain.equalsIgnoreCase(JOB) && !plain.equals(JOB);
    return nearlyJob || TAKEN.matcher(plain).matches() ? aside(plain) : plain;
  }

  /** A name for a file that must not stand under its own. */
  public static String aside(String name) {
    return "sent-" + name;
  }

  /** The end of a name, which has the ending, short enough for every file system. */
  private static String shortened(String name) {
    String s = name;
    while (s.getBytes(StandardCharsets.UTF_8).length > MOST_BYTES) {
      s = s.substring(s.offsetByCodePoints(0, 1));
    }
    return s.strip();
  }

  /** A file of a folder; refused when the name leads elsewhere. */
  public static Path within(Path folder, String name) {
    try {
      Path p = folder.resolve(name).normalize();
      if (p.startsWith(folder.normalize()) && !p.equals(folder.normalize())) {
        return p;
      }
    } catch (InvalidPathException e) {
      // said below
    }
    throw Refusal.bad("'" + name + "' leads out of the folder of the job.");
  }

  /** Letters, digits and hyphens of a name, for a folder; "job" when nothing is left. */
  public static String slug(String name) {
    String ascii = Normalizer.normalize(name, Normalizer.Form.NFD).toLowerCase(Locale.ROOT);
    String s = ascii.replaceAll("[^a-z0-9]+", "-").replaceAll("^-+", "");
    s = s.substring(0, Math.min(40, s.length())).replaceAll("-+$", "");
    return s.isEmpty() ? "job" : s;
  }
}
