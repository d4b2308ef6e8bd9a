package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.net.Socket;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.bench.JobSettings;
import org.padtrue.web.server.WebOptions;

/** What should not pass does not pass, and the workspace is as it was. */
class HostileRequestsTest {
  private static final String SCRIPT = "\"><script>alert(1)</script><img src=x onerror=alert(2)>'";

  @TempDir Path dir;
  private WebServer server;
  private Client client;

  @BeforeEach
  void serve() throws IOException {
    server =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
    client = new Client(server.address());
    String job = Client.to(client.files("/jobs", Map.of("placements.csv", Boards.placements())));
    assertThat(job).isEqualTo("/jobs/placements");
    assertThat(
            Client.to(client.post("/jobs/placements/articles", Map.of("name", "A", "count", "12"))))
        .isEqualTo("/articles/a");
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private List<String> everything() throws IOException {
    try (Stream<Path> s = Files.walk(dir)) {
      List<String> all = new java.util.ArrayList<>();
      for (Path p : s.filter(Files::isRegularFile).sorted().toList()) {
        all.add(dir.relativize(p) + " " + Files.size(p));
      }
      return all;
    }
  }

  @Test
  void anotherSitesFormIsRefused() throws IOException {
    List<String> before = everything();
    String token = client.token();
    Map<String, String> fields = entry("P1/1/1/U1", "0.1");
    assertThat(
            client
                .send(
                    post(fields)
                        .header("X-Token", token)
                        .header("Sec-Fetch-Site", "cross-site")
                        .build())
                .statusCode())
        .isEqualTo(403);
    assertThat(
            client
                .send(
                    post(fields)
                        .header("X-Token", token)
                        .header("Origin", "http://elsewhere.example")
                        .build())
                .statusCode())
        .isEqualTo(403);
    assertThat(
            client
                .send(post(fields).header("X-Token", token).header("Origin", "null").build())
                .statusCode())
        .isEqualTo(403);
    assertThat(client.send(post(fields).build()).statusCode()).isEqualTo(403);
    assertThat(
            client
                .send(post(fields).header("X-Token", "x" + token.substring(1)).build())
                .statusCode())
        .isEqualTo(403);
    // a token of another session
    String foreign = new Client(server.address()).token();
    assertThat(client.send(post(fields).header("X-Token", foreign).build()).statusCode())
        .isEqualTo(403);
    assertThat(everything()).isEqualTo(before);
    // and the same form from the pages themselves is taken
    assertThat(client.send(post(fields).header("X-Token", token).build()).statusCode())
        .isEqualTo(200);
    assertThat(everything()).isNotEqualTo(before);
  }

  private HttpRequest.Builder post(Map<String, String> fields) {
    return client
        .request("/articles/a/entries")
        .header("Content-Type", "application/x-www-form-urlencoded")
        .POST(Client.form(fields));
  }

  private static Map<String, String> entry(String placement, String x) {
    return Map.of(
        "placement", placement, "x", x, "y", "0", "rotation", "", "unit", "mm", "as", "deviation");
  }

  @Test
  void noAddressLeadsOutOfTheWorkspace() throws IOException {
    Files.writeString(dir.resolve("outside.txt"), "outside");
    for (String path :
        List.of(
            "/jobs/..%2f..%2foutside.txt",
            "/jobs/%2e%2e",
            "/articles/..%2f..%2foutside/result",
            "/articles/a/pictures/..%2f..%2f..%2foutside.jpg",
            "/articles/a%2f..%2fa/result",
            "/assets/..%2f..%2fhistory%2fcommon%2fV1__articles.sql",
            "/assets/%2e%2e/app.css",
            "/assets/package-info.class",
            "/jobs/a%00b",
            "/jobs/" + "x".repeat(3000))) {
      HttpResponse<String> r = client.get(path);
      assertThat(r.statusCode()).as(path).isBetween(400, 431);
      assertThat(r.body()).as(path).doesNotContain("outside").doesNotContain("CREATE TABLE");
    }
  }

  @Test
  void noFileNameLeadsOutOfTheWorkspace() throws IOException {
    for (String name :
        List.of(
            "../../evil.csv", "..\\..\\evil.csv", "/tmp/evil.csv", "C:\\evil.csv", "evil.csv")) {
      client.files("/jobs/placements/files", Map.of(name, Boards.placements()));
    }
    try (Stream<Path> s = Files.walk(dir)) {
      List<Path> evil = s.filter(p -> p.getFileName().toString().contains("evil")).toList();
      assertThat(evil).containsExactly(dir.resolve("ws/jobs/placements/evil.csv"));
    }
    for (String name : List.of("..", ".hidden", "x.part")) {
      assertThat(
              client
                  .files("/jobs/placements/files", Map.of(name, Boards.placements()))
                  .statusCode())
          .as(name)
          .isEqualTo(400);
    }
  }

  @Test
  void aJobMayNameFilesOfItsOwnFolderOnly() throws IOException {
    Path secret = Files.write(dir.resolve("secret.csv"), Boards.placements());
    for (String named :
        List.of("../../../secret.csv", secret.toString(), "../placements/placements.csv")) {
      String json = "{\"placements\": \"" + named + "\"}";
      HttpResponse<String> r =
          client.files("/jobs", Map.of("job.json", json.getBytes(StandardCharsets.UTF_8)));
      assertThat(client.get(Client.to(r)).body()).as(named).contains("which is not beside it");
    }
  }

  @Test
  void scriptInAnyFieldIsText() throws IOException {
    Map<String, byte[]> job = new HashMap<>();
    job.put(
        "placements.csv",
        ("Ref,Part,X (mm),Y (mm),Rotation\n\""
                + SCRIPT.replace("\"", "\"\"")
                + "\",\""
                + SCRIPT.replace("\"", "\"\"")
                + "\",1,2,0\nR2,B,4,9,0\nR3,B,14,3,0\n")
            .getBytes(StandardCharsets.UTF_8));
    String at = Client.to(client.files("/jobs", job));
    Map<String, String> settings = new HashMap<>();
    for (String key : JobSettings.KEYS) {
      settings.put(key, SCRIPT);
    }
    client.post(at + "/settings", settings);
    settings.clear();
    settings.put("name", SCRIPT);
    client.post(at + "/settings", settings);
    String article = Client.to(client.post(at + "/articles", Map.of("name", SCRIPT, "count", "")));
    client.post(article + "/plan", Map.of("placement", SCRIPT));
    client.post(article + "/entries", entry("P1/1/1/" + SCRIPT, "0.1"));
    client.post(article + "/entries", entry("P1/1/1/R2", SCRIPT));
    List<String> pages =
        List.of(
            "/",
            at,
            article,
            article + "/result",
            article + "/pictures",
            "/nothing" + "%3Cscript%3E",
            article + "/placement?key=%22%3E%3Cscript%3E");
    for (String page : pages) {
      HttpResponse<String> r = client.get(page);
      assertThat(r.body()).as(page).doesNotContain("<script>alert").doesNotContain("<img src=x");
      assertThat(r.headers().firstValue("Content-Security-Policy").orElse(""))
          .contains("script-src 'self'")
          .doesNotContain("unsafe");
    }
    assertThat(client.get(at).body()).contains("&lt;script&gt;alert(1)");
  }

  @Test
  void tooMuchIsRefused() throws IOException {
    HttpResponse<String> text =
        client.post("/articles/a/entries", Map.of("placement", "x".repeat(2 << 20)));
    assertThat(text.statusCode()).isIn(400, 413);
    HttpResponse<String> field =
        client.post("/articles/a/entries", entry("P1/1/1/U1", "1".repeat(300)));
    assertThat(field.statusCode()).isEqualTo(400);
    byte[] large = new byte[70 << 20];
    HttpResponse<String> file = client.files("/jobs/placements/files", Map.of("large.csv", large));
    assertThat(file.statusCode()).isEqualTo(413);
    assertThat(file.body()).contains("large.csv is too large");
    assertThat(dir.resolve("ws/jobs/placements/large.csv")).doesNotExist();
    Map<String, byte[]> many = new HashMap<>();
    for (int k = 0; k < 30; k++) {
      many.put("f" + k + ".csv", new byte[1]);
    }
    assertThat(client.files("/jobs/placements/files", many).statusCode()).isEqualTo(400);
  }

  /** As a browser sends: the whole file first, then it reads. */
  @Test
  void aRefusalArrivesHoweverMuchIsStillToCome() throws IOException {
    byte[] much = new byte[80 << 20];
    String head =
        "POST /jobs/placements/files HTTP/1.1\r\nHost: localhost:"
            + server.port()
            + "\r\nContent-Type: multipart/form-data; boundary=b\r\nContent-Length: ";
    String part =
        "--b\r\nContent-Disposition: form-data; name=\"files\"; filename=\"large.csv\"\r\n\r\n";
    String none = sent(head + (part.length() + much.length) + "\r\n\r\n" + part, much);
    assertThat(none).contains(" 401 ");
    String large =
        sent(
            head
                + (part.length() + much.length)
                + "\r\nX-Token: "
                + client.token()
                + "\r\nCookie: "
                + client.cookie()
                + "\r\n\r\n"
                + part,
            much);
    assertThat(large).contains(" 413 ");
    String form =
        sent(
            "POST /articles/a/entries HTTP/1.1\r\nHost: localhost:"
                + server.port()
                + "\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: "
                + much.length
                + "\r\n\r\n",
            much);
    assertThat(form).contains(" 401 ");
    byte[] more = new byte[300 << 20];
    String all = sent(head + (part.length() + more.length) + "\r\n\r\n" + part, more);
    assertThat(all).contains(" 413 ");
  }

  /** First line of the answer. */
  private String sent(String head, byte[] body) throws IOException {
    try (Socket s = new Socket("localhost", server.port())) {
      s.setSoTimeout(60_000);
      s.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
      s.getOutputStream().write(body);
      s.getOutputStream().flush();
      return new BufferedReader(
              new InputStreamReader(s.getInputStream(), StandardCharsets.US_ASCII))
          .readLine();
    }
  }

  @Test
  void headersAreNotWrittenByClients() throws IOException {
    String at =
        Client.to(
            client.post(
                "/jobs/placements/articles", Map.of("name", "x\r\nSet-Cookie: a=b", "count", "8")));
    assertThat(at).matches("/articles/[a-z0-9-]+");
    HttpResponse<String> r = client.get(at + "/article.csv");
    assertThat(r.headers().allValues("Set-Cookie")).noneMatch(c -> c.contains("a=b"));
    // a name with line ends in the address
    assertThat(raw("GET /jobs/x%0d%0aSet-Cookie:%20a=b HTTP/1.1\r\nHost: localhost\r\n\r\n"))
        .noneMatch(l -> l.startsWith("Set-Cookie: a="));
  }

  @Test
  void aNameThatPointsHereIsNotEnough() throws IOException {
    assertThat(
            raw("GET / HTTP/1.1\r\nHost: rebound.example:"
                    + server.port()
                    + "\r\nConnection: close\r\n\r\n")
                .get(0))
        .contains("421");
    assertThat(
            raw("GET / HTTP/1.1\r\nHost: localhost:"
                    + server.port()
                    + "\r\nConnection: close\r\n\r\n")
                .get(0))
        .contains("200");
    assertThat(raw("GET / HTTP/1.1\r\nHost: a b\r\nConnection: close\r\n\r\n").get(0))
        .contains("400");
  }

  /** Sends bytes as they are; answers the lines of the head. */
  private List<String> raw(String request) throws IOException {
    try (Socket s = new Socket("127.0.0.1", server.port())) {
      s.setSoTimeout(5000);
      OutputStream out = s.getOutputStream();
      out.write(request.getBytes(StandardCharsets.ISO_8859_1));
      out.flush();
      BufferedReader in =
          new BufferedReader(
              new InputStreamReader(s.getInputStream(), StandardCharsets.ISO_8859_1));
      List<String> lines = new java.util.ArrayList<>();
      for (String l = in.readLine(); l != null && !l.isEmpty(); l = in.readLine()) {
        lines.add(l);
      }
      return lines;
    }
  }

  @Test
  void aCookieThatWasNotSignedHereIsNoSession() throws IOException {
    String name =
        client.get("/").headers().firstValue("Set-Cookie").orElse(client.cookie()).split("=", 2)[0];
    for (String cookie :
        List.of(
            name + "=abcdefghijklm.99999999999.AAAAAAAAAAAAAAAAAAAAAAAAAAAA",
            name + "=",
            name + "=../../x")) {
      HttpRequest r =
          HttpRequest.newBuilder(java.net.URI.create(server.address() + "articles/a/entries"))
              .header("Cookie", cookie)
              .header("Content-Type", "application/x-www-form-urlencoded")
              .POST(Client.form(entry("P1/1/1/U1", "0.1")))
              .build();
      try {
        assertThat(
                java.net.http.HttpClient.newHttpClient()
                    .send(r, HttpResponse.BodyHandlers.ofString())
                    .statusCode())
            .isEqualTo(401);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
  }

  @Test
  void twoServersDoNotShareAWorkspace() {
    org.assertj.core.api.Assertions.assertThatThrownBy(
            () -> WebServer.start(WebOptions.local(dir.resolve("ws"), "x.db", 0)))
        .hasMessageContaining("another padtrue serves this workspace");
  }
}
