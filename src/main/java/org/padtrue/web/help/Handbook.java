package org.padtrue.web.help;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The pages of the handbook and their pictures, read from the jar once. */
public final class Handbook {
  /** The first page. */
  public static final String START = "index";

  /** Names of the pages in the menu's order: first by task, then what stands behind them. */
  public static final List<String> NAMES =
      List.of(
          START,
          "measure",
          "analyse",
          "check",
          "room",
          "pictures",
          "drift",
          "pages",
          "record",
          "files",
          "terms",
          "method",
          "accuracy",
          "limits",
          "changes");

  private static final String FOLDER = "/org/padtrue/handbook/";

  private final List<HelpPage> pages;
  private final Set<String> pictures;

  private Handbook(List<HelpPage> pages, Set<String> pictures) {
    this.pages = List.copyOf(pages);
    this.pictures = Set.copyOf(pictures);
  }

  private static final class Once {
    private static final Handbook BOOK = read();
  }

  /** The handbook; the first call reads it. */
  public static Handbook get() {
    return Once.BOOK;
  }

  private static Handbook read() {
    List<HelpPage> pages = new ArrayList<>();
    Set<String> pictures = new HashSet<>();
    for (String name : NAMES) {
      PageMaker maker = new PageMaker(name);
      pages.add(maker.page(new String(bytes(name + ".md"), StandardCharsets.UTF_8)));
      pictures.addAll(maker.pictures());
    }
    return new Handbook(pages, pictures);
  }

  private static byte[] bytes(String file) {
    try (InputStream in = Handbook.class.getResourceAsStream(FOLDER + file)) {
      if (in == null) {
        throw new IllegalStateException(file + " is not in the jar");
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  /** Where a page is served. */
  static String address(String name) {
    return name.equals(START) ? "/help" : "/help/" + name;
  }

  /** All pages, in the menu's order. */
  public List<HelpPage> pages() {
    return pages;
  }

  /** The page of a name, if there is one. */
  public Optional<HelpPage> page(String name) {
    return pages.stream().filter(p -> p.name().equals(name)).findFirst();
  }

  /** A picture (PNG) that some page shows, by its file name; empty for any other name. */
  public Optional<byte[]> picture(String name) {
    return pictures.contains(name) ? Optional.of(bytes("images/" + name)) : Optional.empty();
  }
}
