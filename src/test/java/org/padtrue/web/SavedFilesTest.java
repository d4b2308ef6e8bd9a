package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.cli.Program;
import org.padtrue.web.server.WebOptions;

/** What a page saves gives the command line the same answer as the page. */
class SavedFilesTest {
  @TempDir Path dir;
  private WebServer server;
  private Client client;

  @BeforeEach
  void serve() {
    server =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
    client = new Client(server.address());
  }

  @AfterEach
  void stop() {
    server.close();
  }

  /** Analysis of the page, and of what it saved, without names of files and times. */
  private void same(String article) throws IOException {
    HttpResponse<String> page = client.get(article + "/analysis.json");
    assertThat(page.statusCode()).as(page.body()).isEqualTo(200);
    Path out = Files.createTempDirectory(dir, "out");
    Path job = null;
    Path csv = null;
    HttpResponse<byte[]> zip;
    try {
      zip = client.bytes(article + "/files.zip");
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
    assertThat(zip.statusCode()).isEqualTo(200);
    try (ZipInputStream z = new ZipInputStream(new ByteArrayInputStream(zip.body()))) {
      for (ZipEntry e = z.getNextEntry(); e != null; e = z.getNextEntry()) {
        Path p = Files.write(out.resolve(e.getName()), z.readAllBytes());
        job = e.getName().equals("job.json") ? p : job;
        csv = p;
      }
    }
    assertThat(job).isNotNull();
    assertThat(client.get(article + "/article.csv").body())
        .isEqualTo(Files.readString(csv, StandardCharsets.UTF_8));
    Program.run("analyse", job.toString(), csv.toString(), "--json-only", "--out", out + "/report");
    ObjectMapper json = new ObjectMapper();
    JsonNode own = json.readTree(page.body());
    JsonNode cli = json.readTree(out.resolve("report/analysis.json").toFile());
    for (JsonNode n : new JsonNode[] {own, cli}) {
      ((ObjectNode) n).remove(java.util.List.of("articles", "analysisHash", "notes"));
    }
    alike("", own, cli);
  }

  private static void alike(String at, JsonNode a, JsonNode b) {
    if (a.isNumber() && b.isNumber()) {
      double scale = Math.max(1, Math.abs(a.asDouble()));
      assertThat(b.asDouble())
          .as(at)
          .isCloseTo(a.asDouble(), org.assertj.core.data.Offset.offset(1e-6 * scale));
      return;
    }
    if (a.isTextual()) {
      assertThat(noLines(b.asText())).as(at).isEqualTo(noLines(a.asText()));
      return;
    }
    assertThat(b.getNodeType()).as(at).isEqualTo(a.getNodeType());
    assertThat(b.size()).as(at).isEqualTo(a.size());
    a.fieldNames()
        .forEachRemaining(
            k -> {
              // a typed article has a name on the page, and the file's name beside the job
              if (!k.equals("article")) {
                alike(at + "/" + k, a.get(k), b.path(k));
              }
            });
    for (int k = 0; a.isArray() && k < a.size(); k++) {
      alike(at + "/" + k, a.get(k), b.get(k));
    }
    if (a.isValueNode()) {
      assertThat(b).as(at).isEqualTo(a);
    }
  }

  /** Rows stand on other lines of the saved file. */
  private static String noLines(String s) {
    return s.replaceAll("\\(?lines? \\d+\\)?", "");
  }

  private static final int PARTS = 48;

  private static byte[] placements() {
    StringBuilder b = new StringBuilder("Ref,Part,X (mm),Y (mm),Rotation,Nozzle\n");
    for (int k = 0; k < PARTS; k++) {
      b.append(
          String.format(
              Locale.ROOT,
              "U%d,%s,%.2f,%.2f,%d,N%d\n",
              k + 1,
              k % 3 == 0 ? "R0603" : k % 3 == 1 ? "SOT23" : "QFN16",
              5 + 9.5 * (k % 8),
              4 + 6.2 * (k / 8),
              90 * (k % 4),
              1 + k % 2));
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  /** One row: measured, a fault, one gross error, one not measured; lots, times, u and notes. */
  private static String rows(long seed, String panel, boolean poses) {
    Random r = new Random(seed);
    StringBuilder b = new StringBuilder();
    for (int k = 0; k < PARTS; k++) {
      double dx = 0.04 + 0.01 * r.nextGaussian() + (k == 17 ? 0.6 : 0);
      double dy = -0.02 + 0.01 * r.nextGaussian();
      double turn = 0.1 * r.nextGaussian();
      String status = k == 5 ? "tombstone" : k == 9 ? "missing" : "ok";
      boolean seen = k != 9 && k != 12;
      b.append(panel).append(",U").append(k + 1).append(',');
      double x = dx + (poses ? 5 + 9.5 * (k % 8) : 0);
      double y = dy + (poses ? 4 + 6.2 * (k / 8) : 0);
      b.append(
          seen
              ? String.format(
                  Locale.ROOT, "%.4f,%.4f,%.3f", x, y, turn + (poses ? 90 * (k % 4) : 0))
              : ",,");
      b.append(k % 5 == 0 ? ",0.004" : ",0.012").append(",L").append(k / 20);
      b.append(",2026-01-05T06:").append(10 + k % 40).append(":00Z,").append(status);
      b.append(k == 20 ? ",\"seen, twice\"\n" : ",\n");
    }
    return b.toString();
  }

  private String made(String article) throws IOException {
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put("placements.csv", placements());
    files.put("measured.csv", article.getBytes(StandardCharsets.UTF_8));
    String to = Client.to(client.files("/jobs", files));
    assertThat(to).endsWith("/result");
    return to.substring(0, to.length() - "/result".length());
  }

  private void type(String article, String placement, double dx) {
    HttpResponse<String> r =
        client.post(
            article + "/entries",
            Map.of(
                "placement",
                placement,
                "x",
                String.format(Locale.ROOT, "%.4f", dx),
                "y",
                "-0.013",
                "rotation",
                "0.05",
                "unit",
                "mm",
                "seen",
                "0"));
    assertThat(r.statusCode()).as(r.body()).isEqualTo(200);
  }

  private static final String DEVIATIONS =
      "# operator: bench 3\n# temperature = 27.5\n"
          + "panel,ref,dx (mm),dy (mm),drotation,u (mm),lot,time,status,note\n";

  @Test
  void anUploadedFileIsGivenBackAsItCame() throws IOException {
    String text = DEVIATIONS + rows(1, "A7", false);
    String a = made(text);
    assertThat(client.get(a + "/article.csv").body()).isEqualTo(text);
    same(a);
  }

  @Test
  void typedOnTopOfAFileKeepsWhatTheFileSays() throws IOException {
    String a = made(DEVIATIONS + rows(2, "P1", false) + rows(3, "P2", false));
    same(a);
    type(a, "P1/1/1/U1", 0.031);
    // a placement that the file calls missing, and one that it did not measure
    type(a, "P1/1/1/U10", 0.044);
    type(a, "P1/1/1/U13", 0.037);
    client.post(
        a + "/entries",
        Map.of("placement", "P1/1/1/U3", "x", "", "y", "", "rotation", "", "unit", "mm"));
    String csv = client.get(a + "/article.csv").body();
    assertThat(csv)
        .contains("# operator: bench 3")
        .contains("# temperature = 27.5 C")
        .contains("\"seen, twice\"")
        .contains(",L2,")
        .contains(",2026-01-05T06:11:00Z,")
        .contains(",tombstone,")
        .contains("P2,1,1,\"U10\",,,,,,,,,,,2026-01-05T06:19:00Z,missing,")
        .doesNotContain("P1,1,1,\"U3\"");
    assertThat(csv.lines().filter(l -> l.startsWith("P1,1,1,\"U10\",0.044"))).hasSize(1);
    same(a);
  }

  @Test
  void posesStayPoses() throws IOException {
    String a =
        made(
            "# registered on lands\npanel,ref,x (mm),y (mm),rotation,u (mm),lot,time,status,note\n"
                + rows(4, "P1", true));
    type(a, "P1/1/1/U2", 0.055);
    assertThat(client.get(a + "/article.csv").body())
        .contains("# registered on lands")
        .contains("x (mm),y (mm),rotation");
    same(a);
  }

  @Test
  void typedAlone() throws IOException {
    client.files("/jobs", Map.of("placements.csv", placements()));
    String a =
        Client.to(client.post("/jobs/placements/articles", Map.of("name", "A", "count", "20")));
    Random r = new Random(5);
    for (int k = 0; k < 20; k++) {
      type(a, "P1/1/1/U" + (k + 1), 0.04 + 0.01 * r.nextGaussian());
    }
    same(a);
    HttpResponse<String> json = client.get("/jobs/placements/job.json");
    assertThat(json.body()).contains("\"placements\"");
    assertThat(json.headers().firstValue("Content-Disposition").orElse("")).contains("job.json");
  }
}
