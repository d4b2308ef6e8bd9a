package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.drift.DriftOptions;
import org.padtrue.history.ArticleLog;
import org.padtrue.imaging.map.DeviceBend;
import org.padtrue.load.job.JobLoader;
import org.padtrue.log.DriftStudy;
import org.padtrue.panel.Job;
import org.padtrue.report.json.AnalysisJson;
import org.padtrue.report.json.CameraFile;
import org.padtrue.report.json.DriftJson;
import org.padtrue.report.json.StoredCheck;
import org.padtrue.report.json.StoredRoom;
import org.padtrue.report.record.Attachments;
import org.padtrue.report.record.FirstArticleJson;
import org.padtrue.report.record.FirstArticleRecords;
import org.padtrue.report.record.Identification;
import org.padtrue.report.record.IdentificationField;
import org.padtrue.report.record.RecordOptions;

/**
 * The schemas against every sample and against what the program writes, by a validator that knows
 * nothing of this program; and against what is wrong.
 */
class SchemaTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final SchemaRegistry REGISTRY =
      SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12);

  /** Files that the program writes, by schema. */
  private static final Map<String, JsonNode> WRITTEN = new TreeMap<>();

  @TempDir private static Path dir;

  @BeforeAll
  static void writeEveryFile() throws IOException {
    WRITTEN.put("analysis", JSON.readTree(SampleRun.analysis().toFile()));
    WRITTEN.put("check", JSON.readTree(SampleRun.check().toFile()));
    done("room", SampleRun.JOB, SampleRun.analysis(), "--out", dir, "--json-only");
    WRITTEN.put("room", JSON.readTree(dir.resolve("room.json").toFile()));
    WRITTEN.put("first-article", firstArticle());
    done("gauge", "samples/gauge/repeats.csv", "--job", SampleRun.JOB, "--out", dir);
    WRITTEN.put("gauge", JSON.readTree(dir.resolve("gauge.json").toFile()));
    WRITTEN.put("drift", drift());
    WRITTEN.put("camera", camera());
    WRITTEN.put("taught", taught());
  }

  /** A lens from three pictures, with a device as turned pictures give it. */
  private static JsonNode camera() throws IOException {
    List<Object> call = new ArrayList<>(List.of("calibrate", "--grid", "9x6", "--pitch", "25"));
    for (String name : List.of("left01.jpg", "left02.jpg", "left03.jpg")) {
      try (var in =
          SchemaTest.class.getResourceAsStream("/org/padtrue/imaging/chessboard/" + name)) {
        call.add(Files.write(dir.resolve(name), in.readAllBytes()));
      }
    }
    call.addAll(List.of("--out", dir.resolve("camera.json")));
    done(call.toArray());
    double[] terms = new double[9];
    Path device = dir.resolve("device.json");
    new CameraFile(null, new DeviceBend(terms, terms, 30, 20, 0, 0)).write(device);
    JsonNode bent = JSON.readTree(device.toFile());
    assertThat(errors(schema("camera"), bent)).isEmpty();
    ObjectNode both = (ObjectNode) JSON.readTree(dir.resolve("camera.json").toFile());
    both.set("device", bent.get("device"));
    return both;
  }

  private static JsonNode taught() throws IOException {
    Path looks = dir.resolve("looks");
    done(
        "detect",
        "samples/pictures/job.json",
        "samples/pictures/panel.jpg",
        "--teach",
        "U1",
        "--taught",
        looks,
        "--out",
        dir.resolve("article.csv"));
    return JSON.readTree(looks.resolve("SOIC-8.json").toFile());
  }

  private static JsonNode firstArticle() throws IOException {
    RecordOptions options =
        RecordOptions.withDefaults()
            .with(Identification.none().with(IdentificationField.PART_NUMBER, "1"))
            .with(StoredCheck.read(SampleRun.check()))
            .with(StoredRoom.read(dir.resolve("room.json")))
            .withAttachments(List.of(Attachments.of("job", SampleRun.JOB)));
    Job job = JobLoader.load(SampleRun.JOB).orThrow();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    FirstArticleJson.write(
        FirstArticleRecords.of(job, AnalysisJson.read(SampleRun.analysis()), options), out);
    return JSON.readTree(out.toByteArray());
  }

  /** Twelve articles of the sample history. */
  private static JsonNode drift() throws IOException {
    Path articles = Files.createDirectories(dir.resolve("articles"));
    for (int i = 1; i <= 12; i++) {
      String name = String.format("a-%03d.csv", i);
      Files.copy(Path.of("samples/history/articles", name), articles.resolve(name));
    }
    List<String> kept =
        Files.readAllLines(Path.of("samples/history/conditions.csv")).subList(0, 13);
    Path conditions = Files.write(dir.resolve("conditions.csv"), kept);
    Path log = dir.resolve("log.db");
    done(
        "record",
        "samples/history/job.json",
        "--import",
        articles,
        "--conditions",
        conditions,
        "--history",
        log);
    try (ArticleLog open = ArticleLog.openToRead(log.toString())) {
      DriftStudy s = DriftStudy.of(open, null, null, DriftOptions.withDefaults());
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      DriftJson.write(s, out);
      return JSON.readTree(out.toByteArray());
    }
  }

  private static void done(Object... args) {
    Run r = Run.of(args);
    assertThat(r.code()).as(r.err()).isZero();
  }

  private static JsonNode text(String name) throws IOException {
    Run r = Run.of("schema", name);
    assertThat(r.code()).as(r.err()).isZero();
    return JSON.readTree(r.out());
  }

  private static Schema schema(String name) throws IOException {
    return REGISTRY.getSchema(text(name).toString());
  }

  private static List<String> errors(Schema s, JsonNode file) {
    return s.validate(file).stream().map(Error::toString).toList();
  }

  @Test
  void samplesAreValid() throws IOException {
    Schema job = schema("job");
    Schema parts = schema("parts");
    for (String s : List.of("main-job", "history", "pictures")) {
      Path folder = Path.of("samples", s);
      JsonNode file = JSON.readTree(folder.resolve("job.json").toFile());
      assertThat(errors(job, file)).as(s).isEmpty();
      if (Files.exists(folder.resolve("parts.json"))) {
        assertThat(errors(parts, JSON.readTree(folder.resolve("parts.json").toFile()))).isEmpty();
      }
    }
    assertThat(errors(parts, JSON.readTree(Path.of("shared/parts.json").toFile()))).isEmpty();
  }

  @Test
  void whatIsWrittenIsValid() throws IOException {
    for (Map.Entry<String, JsonNode> e : WRITTEN.entrySet()) {
      assertThat(errors(schema(e.getKey()), e.getValue())).as(e.getKey()).isEmpty();
    }
  }

  /** A key that the program does not write any more must not stay in the schema. */
  @Test
  void everyKeyOfTheSchemaIsWritten() throws IOException {
    for (Map.Entry<String, JsonNode> e : WRITTEN.entrySet()) {
      assertThat(names(text(e.getKey()).path("properties")))
          .as(e.getKey())
          .isEqualTo(names(e.getValue()));
    }
  }

  private static TreeSet<String> names(JsonNode object) {
    TreeSet<String> all = new TreeSet<>();
    object.fieldNames().forEachRemaining(all::add);
    return all;
  }

  private static Map<String, JsonNode> files() throws IOException {
    Map<String, JsonNode> all = new TreeMap<>(WRITTEN);
    all.put("job", JSON.readTree(SampleRun.JOB.toFile()));
    all.put("parts", JSON.readTree(SampleRun.JOB.resolveSibling("parts.json").toFile()));
    all.put("identification", text("identification").path("examples").get(0));
    return all;
  }

  /** In every schema: an unknown key, a required key left out, a value of another type. */
  @Test
  void whatIsWrongIsRefused() throws IOException {
    List<String> accepted = new ArrayList<>();
    int tried = 0;
    for (Map.Entry<String, JsonNode> e : files().entrySet()) {
      Schema s = schema(e.getKey());
      // only the first entry of every list: validation of long lists takes its time
      ObjectNode good = (ObjectNode) shortened(e.getValue());
      assertThat(errors(s, good)).as(e.getKey()).isEmpty();
      for (String key : names(good)) {
        ObjectNode other = good.deepCopy();
        other.putObject(key).put("zzz", 1);
        tried += refused(s, other, e.getKey() + ": {zzz: 1} as " + key, accepted);
      }
      for (JsonNode key : text(e.getKey()).path("required")) {
        ObjectNode less = good.deepCopy();
        less.remove(key.asText());
        tried += refused(s, less, e.getKey() + ": without " + key, accepted);
      }
      for (ObjectNode nested : objects(good)) {
        nested.put("zzz", 1);
        tried += refused(s, good, e.getKey() + ": zzz among " + names(nested), accepted);
        nested.remove("zzz");
      }
    }
    assertThat(accepted).isEmpty();
    assertThat(tried).isGreaterThan(200);
  }

  private static int refused(Schema s, JsonNode bad, String what, List<String> accepted) {
    if (s.validate(bad).isEmpty()) {
      accepted.add(what);
    }
    return 1;
  }

  private static JsonNode shortened(JsonNode n) {
    if (n.isObject()) {
      ObjectNode o = JSON.createObjectNode();
      n.fields().forEachRemaining(f -> o.set(f.getKey(), shortened(f.getValue())));
      return o;
    }
    if (n.isArray() && !n.isEmpty() && n.get(0).isObject()) {
      return JSON.createArrayNode().add(shortened(n.get(0)));
    }
    return n;
  }

  private static List<ObjectNode> objects(JsonNode n) {
    List<ObjectNode> all = new ArrayList<>();
    if (n instanceof ObjectNode o) {
      all.add(o);
    }
    for (Iterator<JsonNode> it = n.elements(); it.hasNext(); ) {
      all.addAll(objects(it.next()));
    }
    return all;
  }

  @Test
  void namesAreListedAndTyposMended() {
    Run all = Run.of("schema");
    assertThat(all.out().lines())
        .containsExactly(
            "job",
            "parts",
            "identification",
            "analysis",
            "check",
            "room",
            "gauge",
            "drift",
            "first-article",
            "camera",
            "taught");
    Run bad = Run.of("schema", "analysys");
    assertThat(bad.code()).isEqualTo(2);
    assertThat(bad.err())
        .startsWith("padtrue: there is no schema 'analysys'; did you mean analysis");
  }
}
