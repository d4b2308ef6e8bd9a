package org.padtrue.load.job;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Set;
import java.util.TreeSet;
import org.padtrue.problem.AsIs;

/** Answers to questions about articles, kept in a job file under {@code asIs}. */
public final class JobAnswers {
  private static final String KEY = "asIs";

  private JobAnswers() {}

  /** The answers that a job file keeps; none when there is no such file. */
  public static Set<String> of(Path jobFile) throws IOException {
    Set<String> keys = new TreeSet<>();
    if (Files.exists(jobFile)) {
      JsonNode job = new ObjectMapper().readTree(Files.readAllBytes(jobFile));
      job.path(KEY).forEach(k -> keys.add(k.asText()));
    }
    return keys;
  }

  /**
   * Adds answers to a job file, whole or not at all.
   *
   * @param keys of {@link AsIs#KEYS}
   * @throws IllegalArgumentException for another key, or a file that holds no object
   */
  public static void add(Path jobFile, Set<String> keys) throws IOException {
    if (!AsIs.KEYS.containsAll(keys)) {
      throw new IllegalArgumentException("keys = " + keys + "; expected some of " + AsIs.KEYS);
    }
    Set<String> all = of(jobFile);
    if (!all.addAll(keys)) {
      return;
    }
    JsonNode read = new ObjectMapper().readTree(Files.readAllBytes(jobFile));
    if (!(read instanceof ObjectNode job)) {
      throw new IllegalArgumentException(jobFile + " holds no object");
    }
    ArrayNode list = job.putArray(KEY);
    all.forEach(list::add);
    DefaultPrettyPrinter pretty = new DefaultPrettyPrinter();
    pretty.indentArraysWith(DefaultIndenter.SYSTEM_LINEFEED_INSTANCE);
    Path part = jobFile.resolveSibling(jobFile.getFileName() + ".part");
    Files.writeString(part, new ObjectMapper().writer(pretty).writeValueAsString(job) + "\n");
    Files.move(part, jobFile, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
  }
}
