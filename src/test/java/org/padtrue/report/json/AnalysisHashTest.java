package org.padtrue.report.json;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.firstarticle.FirstArticleResult;
import org.padtrue.report.SampleResults;

/** Which changes of analysis.json are another analysis. */
class AnalysisHashTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir Path dir;

  private static String of(String json) throws IOException {
    return AnalysisHash.of(JSON.readTree(json));
  }

  /** The canonical form by hand, its SHA-256 by the platform. */
  @Test
  void isTheDigestOfTheCanonicalForm() throws Exception {
    String canonical =
        "{\"a\":1.5,\"articles\":[\"p.csv\"],\"b\":[1.0,null,true,1.0E-5],\"c\":{\"d\":\"\u00e9\\n"
            + "\"}}";
    String hash =
        HexFormat.of()
            .formatHex(
                MessageDigest.getInstance("SHA-256")
                    .digest(canonical.getBytes(StandardCharsets.UTF_8)));
    assertThat(
            of(
                "{\"c\": {\"d\": \"\\u00e9\\n"
                    + "\", \"path\": \"/x\"}, \"written\": \"2026-03-02\",\n"
                    + "\"b\": [1, null, true, 0.00001], \"articles\": [\"C:\\\\m\\\\p.csv\"],"
                    + " \"a\": 1.50}"))
        .isEqualTo(hash);
  }

  @Test
  void printedAnewOrMovedItIsTheSame() throws IOException {
    FirstArticleResult r = SampleResults.of(120);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    AnalysisJson.write(r, out);
    Path there = Files.write(dir.resolve("analysis.json"), out.toByteArray());
    String hash = AnalysisHash.of(there);
    assertThat(hash).matches("[0-9a-f]{64}").isEqualTo(AnalysisHash.of(r));
    assertThat(AnalysisJson.read(there).hash()).isEqualTo(hash);
    JsonNode tree = JSON.readTree(out.toByteArray());
    Path elsewhere = Files.createDirectory(dir.resolve("moved")).resolve("other.json");
    Files.writeString(elsewhere, JSON.writeValueAsString(tree));
    assertThat(AnalysisHash.of(elsewhere)).isEqualTo(hash);
    Files.writeString(elsewhere, JSON.writerWithDefaultPrettyPrinter().writeValueAsString(tree));
    assertThat(AnalysisHash.of(elsewhere)).isEqualTo(hash);
    ((ObjectNode) tree).put("written", "2026-03-02T06:10:00Z");
    ((ObjectNode) tree).putArray("notes").add("/elsewhere/placements.csv states no unit");
    assertThat(AnalysisHash.of(tree)).isEqualTo(hash);
  }

  @Test
  void anotherNumberIsAnotherAnalysis() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    AnalysisJson.write(SampleResults.of(120), out);
    JsonNode tree = JSON.readTree(out.toByteArray());
    String hash = AnalysisHash.of(tree);
    ObjectNode trim = (ObjectNode) tree.path("groups").get(0).path("trim");
    double x = trim.path("x").asDouble();
    trim.put("x", Math.nextUp(x));
    assertThat(AnalysisHash.of(tree)).isNotEqualTo(hash);
    trim.put("x", x);
    assertThat(AnalysisHash.of(tree)).isEqualTo(hash);
    ((ObjectNode) tree).put("stage", "tape");
    assertThat(AnalysisHash.of(tree)).isNotEqualTo(hash);
  }
}
