package org.padtrue.report.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.problem.Problem;

/**
 * Which analysis a later file belongs to: the SHA-256 of analysis.json without times and paths.
 *
 * <p>Canonical form: JSON without white space, the keys of every object in the order of their
 * UTF-16 units, lists in their own order, texts as JSON quotes them, every number as the IEEE 754
 * double that it stands for in Java's shortest form (1, 1.0 and 1e0 are one number), UTF-8. Left
 * out, at any depth, are the keys {@code at}, {@code time}, {@code created}, {@code written},
 * {@code file}, {@code path}, {@code folder}, and {@code notes}, whose sentences name files by the
 * paths at which they were read; of the texts in the list {@code articles} all up to the last slash
 * or backslash is left out. So the file may be printed anew or moved, and the same files may be
 * analysed again in another folder; any other change is another analysis.
 */
public final class AnalysisHash {
  private static final Set<String> LEFT_OUT =
      Set.of("at", "time", "created", "written", "file", "path", "folder", "notes");

  private static final String ARTICLES = "articles";

  private AnalysisHash() {}

  /**
   * Hash of a stored analysis.
   *
   * @param analysis an analysis.json; bad input is an {@link org.padtrue.problem.InputException}
   * @return 64 hexadecimal digits
   */
  public static String of(Path analysis) {
    return of(AnalysisJsonReader.tree(analysis, analysis.toString(), AnalysisJsonReader.MEND));
  }

  /** Hash that the analysis.json of a result has. */
  public static String of(FirstArticleResult r) {
    try {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      AnalysisJson.write(r, bytes);
      return of(new ObjectMapper().readTree(bytes.toByteArray()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static String of(JsonNode tree) {
    StringBuilder b = new StringBuilder(1 << 16);
    append(b, tree, false);
    try {
      MessageDigest d = MessageDigest.getInstance("SHA-256");
      return HexFormat.of().formatHex(d.digest(b.toString().getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  private static void append(StringBuilder b, JsonNode n, boolean path) {
    if (n.isObject()) {
      object(b, n);
    } else if (n.isArray()) {
      b.append('[');
      for (int i = 0; i < n.size(); i++) {
        b.append(i == 0 ? "" : ",");
        append(b, n.get(i), path);
      }
      b.append(']');
    } else if (n.isNumber()) {
      b.append(n.doubleValue() + 0.0);
    } else if (path && n.isTextual()) {
      String s = n.textValue();
      int cut = Math.max(s.lastIndexOf('/'), s.lastIndexOf('\\'));
      b.append(quoted(s.substring(cut + 1)));
    } else {
      b.append(n.isTextual() ? quoted(n.textValue()) : n.toString());
    }
  }

  private static void object(StringBuilder b, JsonNode n) {
    Map<String, JsonNode> sorted = new TreeMap<>();
    n.properties().forEach(e -> sorted.put(e.getKey(), e.getValue()));
    sorted.keySet().removeAll(LEFT_OUT);
    b.append('{');
    sorted.forEach(
        (key, value) -> {
          b.append(b.charAt(b.length() - 1) == '{' ? "" : ",").append(quoted(key)).append(':');
          append(b, value, key.equals(ARTICLES));
        });
    b.append('}');
  }

  private static String quoted(String s) {
    return TextNode.valueOf(s).toString();
  }

  /**
   * Whether a file belongs to an analysis.
   *
   * @param file the file, for the complaint
   * @param command the command that makes such a file
   * @param stated the hash that the file states; empty when it states none
   * @param hash of the analysis
   * @return the problem; empty when it belongs to it
   */
  public static Optional<Problem> mismatch(
      String file, String command, String stated, String hash) {
    if (stated.equals(hash)) {
      return Optional.empty();
    }
    return Optional.of(
        Problem.of(
            file,
            stated.isEmpty()
                ? "it does not say which analysis it belongs to (key 'analysisHash')"
                : "it belongs to another analysis than the one given (key 'analysisHash')",
            "run '" + command + "' again with this analysis.json"));
  }
}
