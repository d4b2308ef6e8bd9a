package org.padtrue.web.record;

import java.io.IOException;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Properties;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.report.record.DecisionRule;
import org.padtrue.report.record.Identification;
import org.padtrue.report.record.IdentificationFile;
import org.padtrue.report.record.IdentificationJson;
import org.padtrue.web.kept.Aside;
import org.padtrue.web.kept.Seen;

/**
 * What people said for the record of one article, in the folder {@code record} of the article:
 * {@code identification.json}, {@code options.properties}, and attached files in {@code files}.
 *
 * @param identification fields, tools, words about placements
 * @param rule decision rule
 * @param coverage factor of the expanded uncertainty
 * @param check id of the article whose check belongs to it; empty for none
 */
record RecordSheet(
    Identification identification, DecisionRule rule, double coverage, String check) {
  private static final String FOLDER = "record";
  private static final String IDENTIFICATION = "identification.json";
  private static final String OPTIONS = "options.properties";
  private static final String FILES = "files";

  static final RecordSheet EMPTY =
      new RecordSheet(Identification.none(), DecisionRule.SIMPLE, 2, "");

  /** What was said; nothing where nobody did. */
  static RecordSheet read(Path article) {
    Path folder = article.resolve(FOLDER);
    try {
      Path file = folder.resolve(IDENTIFICATION);
      Identification i =
          Files.exists(file) ? IdentificationFile.read(file).orThrow() : Identification.none();
      Properties p = new Properties();
      if (Files.exists(folder.resolve(OPTIONS))) {
        p.load(new StringReader(Files.readString(folder.resolve(OPTIONS))));
      }
      return new RecordSheet(
          i,
          p.getProperty("rule", "").equals(DecisionRule.GUARDED.key())
              ? DecisionRule.GUARDED
              : DecisionRule.SIMPLE,
          Double.parseDouble(p.getProperty("coverage", "2")),
          p.getProperty("check", ""));
    } catch (IOException | NumberFormatException e) {
      throw new InputException(
          Problem.of("record", "what was said for the record cannot be read", "say it once more"));
    }
  }

  /** Tells states apart. */
  String mark() throws IOException {
    return Seen.of(
        new String(IdentificationJson.bytes(identification), StandardCharsets.UTF_8),
        rule,
        coverage,
        check);
  }

  /**
   * Keeps it unless something else stands there that was not seen.
   *
   * @param seen mark of what the page showed; empty where it does not say
   * @return what stands there instead; null when it was kept
   */
  @Nullable RecordSheet keep(Path article, String seen) throws IOException {
    synchronized (RecordSheet.class) {
      RecordSheet stands = read(article);
      String mark = stands.mark();
      if (!seen.isEmpty() && !seen.equals(mark) && !mark.equals(mark())) {
        return stands;
      }
      write(article);
      return null;
    }
  }

  /** Keeps it; when this returns, it is on disk. */
  void write(Path article) throws IOException {
    Path folder = Files.createDirectories(article.resolve(FOLDER));
    Properties p = new Properties();
    p.setProperty("rule", rule.key());
    p.setProperty("coverage", Double.toString(coverage));
    p.setProperty("check", check);
    StringWriter w = new StringWriter();
    p.store(w, null);
    Aside.write(folder.resolve(OPTIONS), w.toString());
    Aside.write(folder.resolve(IDENTIFICATION), IdentificationJson.bytes(identification));
  }

  /** Where attached files stand. */
  static Path files(Path article) throws IOException {
    return Files.createDirectories(article.resolve(FOLDER).resolve(FILES));
  }

  /** The identification file, if somebody said something. */
  static List<Path> identificationFile(Path article) {
    Path file = article.resolve(FOLDER).resolve(IDENTIFICATION);
    return Files.exists(file) ? List.of(file) : List.of();
  }

  /** Attached files in order of their names. */
  static List<Path> attached(Path article) throws IOException {
    Path folder = article.resolve(FOLDER).resolve(FILES);
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> s = Files.list(folder)) {
      return new ArrayList<>(
          s.filter(Files::isRegularFile)
              .filter(f -> !f.toString().endsWith(".part"))
              .sorted()
              .toList());
    }
  }
}
