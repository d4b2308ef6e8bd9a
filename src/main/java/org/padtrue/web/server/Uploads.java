package org.padtrue.web.server;

import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;

/** Files that a browser sent, written under their own plain names. */
public final class Uploads {
  /** Files of one request together, MB. */
  public static final int MOST_TOGETHER_MB = 256;

  private static final int MOST_FILES = 20;
  private static final int MOST_FILE_MB = 64;

  private Uploads() {}

  /** Refuses a request that says that it is too large, before any of it is read. */
  static void limit(Context ctx) {
    if (ctx.req().getContentLengthLong() > (long) MOST_TOGETHER_MB << 20) {
      throw tooLarge("What was sent is too large");
    }
  }

  private static Refusal tooLarge(String what) {
    return new Refusal(
        HttpStatus.CONTENT_TOO_LARGE,
        what
            + ": files may have "
            + MOST_FILE_MB
            + " MB each, "
            + MOST_TOGETHER_MB
            + " MB together.");
  }

  /** What was cut short on its way, or is more than is taken. */
  static Refusal cutShort() {
    return tooLarge("What was sent was cut short or is too large");
  }

  /** Files of a form's field, the empty ones left out. */
  public static List<UploadedFile> of(Context ctx, String field) {
    return of(ctx, field, MOST_FILES);
  }

  /** The same, at most so many. */
  public static List<UploadedFile> of(Context ctx, String field, int most) {
    List<UploadedFile> files =
        ctx.uploadedFiles(field).stream().filter(f -> !f.filename().isBlank()).toList();
    if (files.isEmpty()) {
      throw Refusal.bad("No file was sent; choose one first.");
    }
    if (files.size() > most) {
      throw Refusal.bad("More than " + most + " files at once are not taken.");
    }
    for (UploadedFile f : files) {
      if (f.size() > (long) MOST_FILE_MB << 20) {
        throw tooLarge(f.filename() + " is too large");
      }
    }
    return files;
  }

  /** Writes the one file that was sent over another, whole or not at all. */
  public static void replace(List<UploadedFile> files, Path to) throws IOException {
    if (files.size() != 1) {
      throw Refusal.bad("Send one file, the one that takes the other's place.");
    }
    copy(files.get(0), to);
  }

  private static void copy(UploadedFile f, Path to) throws IOException {
    Path part = to.resolveSibling(to.getFileName() + ".part");
    try (InputStream in = f.content()) {
      Files.copy(in, part, StandardCopyOption.REPLACE_EXISTING);
      Files.move(part, to, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private static String distinct(String name, List<String> taken) {
    for (int n = 1; ; n++) {
      String s = n == 1 ? name : n + "-" + name;
      if (taken.stream().noneMatch(s::equalsIgnoreCase)) {
        return s;
      }
    }
  }

  /** Writes files into a folder, each whole or not at all; gives their names. */
  public static List<String> write(List<UploadedFile> files, Path folder) throws IOException {
    List<String> names = new ArrayList<>();
    for (UploadedFile f : files) {
      String name = distinct(FileNames.upload(f.filename()), names);
      copy(f, FileNames.within(folder, name));
      names.add(name);
    }
    return names;
  }
}
