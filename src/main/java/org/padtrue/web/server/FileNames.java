package org.padtrue.web.server;

import io.javalin.http.HttpStatus;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.text.Normalizer;
import java.util.Locale;
import java.util.regex.Pattern;

/** Names that clients send, made into names of files inside a folder, or refused. */
public final class FileNames {
  private static final Pattern ID = Pattern.compile("[a-z0-9][a-z0-9-]{0,59}");
  private static final int LONGEST = 100;

  private FileNames() {}

  /** An id of a job or an article as it stands in an address. */
  public static String id(String text) {
    if (!ID.matcher(text).matches()) {
      throw Refusal.notThere("There is nothing of that name here.");
    }
    return text;
  }

  /** The last part of an uploaded file's name, without what a file system could misread. */
  static String upload(String name) {
    String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
    String plain = last.replaceAll("[\\p{Cntrl}<>:\"|?*]", "_").strip();
    plain = plain.length() > LONGEST ? plain.substring(plain.length() - LONGEST) : plain;
    if (plain.isEmpty() || plain.startsWith(".") || plain.endsWith(".part")) {
      throw new Refusal(HttpStatus.BAD_REQUEST, "A file without a usable name cannot be taken.");
    }
    return plain;
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
