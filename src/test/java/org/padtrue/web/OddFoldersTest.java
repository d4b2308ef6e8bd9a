package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** What else lies in the workspace, and files of any name, break nothing. */
class OddFoldersTest {
  @TempDir Path dir;
  private final List<String> console = Collections.synchronizedList(new ArrayList<>());
  private Path ws;

  @BeforeEach
  void workspace() throws IOException {
    ws = dir.resolve("ws");
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      c.files("/jobs", Map.of("placements.csv", Boards.placements()));
      c.post("/jobs/placements/articles", Map.of("name", "A", "count", "12"));
      for (String ref : List.of("U1", "U2", "U3")) {
        enter(c, ref, "0.025");
      }
      c.post("/jobs/placements/articles", Map.of("name", "B", "count", "12"));
    }
    assertThat(console).isEmpty();
  }

  private WebServer serve() {
    return WebServer.start(WebOptions.local(ws, dir.resolve("log.db").toString(), 0), console::add);
  }

  private static void enter(Client c, String ref, String dx) {
    assertThat(
            c.post(
                    "/articles/a/entries",
                    Map.of(
                        "placement",
                        "P1/1/1/" + ref,
                        "x",
                        dx,
                        "y",
                        "0.01",
                        "rotation",
                        "0",
                        "unit",
                        "mm",
                        "seen",
                        "0"))
                .statusCode())
        .isEqualTo(200);
  }

  @Test
  void foldersThatAreNoJobOrArticleAreNamedAndTheRestIsServed() throws IOException {
    Files.createDirectories(ws.resolve("jobs/New folder"));
    Files.createDirectories(ws.resolve("jobs/lost+found"));
    Files.createDirectories(ws.resolve("jobs/halfmade"));
    Files.createSymbolicLink(ws.resolve("jobs/elsewhere"), dir);
    Files.createDirectories(ws.resolve("articles/Neuer Ordner"));
    Files.createDirectories(ws.resolve("articles/half"));
    Files.createSymbolicLink(ws.resolve("articles/gone"), dir.resolve("nowhere"));
    Files.createDirectories(ws.resolve("articles/wrong"));
    Files.writeString(ws.resolve("articles/wrong/about.properties"), "begun=yesterday\njob=x\n");
    Files.createDirectories(ws.resolve("articles/badbytes"));
    Files.write(
        ws.resolve("articles/badbytes/about.properties"),
        "job=placements\nname=caf\u00e9\nbegun=2026-01-05T06\\:00\\:00Z\n"
            .getBytes(StandardCharsets.ISO_8859_1));
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      List<String> odd =
          List.of(
              "New folder", "lost+found", "halfmade", "elsewhere", "Neuer Ordner", "half", "wrong");
      for (String name : odd) {
        assertThat(console).as(name).filteredOn(t -> t.contains("'" + name + "'")).hasSize(1);
      }
      for (int visit = 0; visit < 2; visit++) {
        for (String page : List.of("/", "/jobs/placements", "/articles/a", "/articles/a/result")) {
          assertThat(c.get(page).statusCode()).as(page).isEqualTo(200);
        }
      }
      for (String name : odd) {
        assertThat(c.get("/").body()).contains("The folder '" + name + "' among");
      }
      assertThat(c.get("/").body()).contains("/articles/badbytes").contains("/articles/a");
      assertThat(c.get("/jobs/halfmade").statusCode()).isEqualTo(404);
      assertThat(c.get("/articles/wrong").statusCode()).isEqualTo(404);
      // a new one finds a name beside them
      assertThat(Client.to(c.post("/jobs/placements/articles", Map.of("name", "Half"))))
          .isEqualTo("/articles/half-2");
      assertThat(console).hasSize(odd.size());
    }
  }

  @Test
  void aDamagedLineCostsItselfAndIsNamed() throws IOException {
    Path journal = ws.resolve("articles/a/entries.log");
    byte[] all = Files.readAllBytes(journal);
    String text = new String(all, StandardCharsets.US_ASCII);
    int line = (int) text.substring(0, text.indexOf("P1%2F1%2F1%2FU2 0.025")).lines().count();
    all[text.indexOf("P1%2F1%2F1%2FU2 0.025") + 18] = (byte) 0xFF;
    Files.write(journal, all);
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      for (String page : List.of("/articles/a", "/articles/a/result", "/articles/a/record")) {
        String body = c.get(page).body();
        assertThat(body)
            .as(page)
            .contains("Line " + line + " of what was entered here is damaged on the disk")
            .contains("Enter U2 again.");
      }
      String csv = c.get("/articles/a/article.csv").body();
      assertThat(csv).contains("\"U1\"").doesNotContain("\"U2\"").contains("\"U3\"");
      assertThat(c.get("/articles/b").body()).doesNotContain("damaged");
      enter(c, "U2", "0.03");
      assertThat(c.get("/articles/a").body()).contains("about U2, which was entered again");
    }
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      assertThat(c.get("/articles/a/article.csv").body()).contains("\"U2\",0.03");
      assertThat(c.get("/articles/a").body()).contains("about U2, which was entered again");
    }
  }

  @Test
  void namesOfUploadsOverwriteNothingOfTheProgram() throws IOException {
    List<String> names =
        List.of(
            "CON",
            "settings.properties",
            "entries.log",
            "about.properties",
            "about...",
            "job.json.tmp",
            "job.json",
            "Job.JSON",
            "x".repeat(300) + ".csv",
            "\uD83D\uDE00".repeat(90) + ".csv",
            "pictures",
            "\u6e2c\u5b9a.csv",
            "readings.txt",
            "a b\u202Ecsv.txt",
            "lpt1.csv");
    Path job = ws.resolve("jobs/placements");
    byte[] jobFile = Files.readAllBytes(job.resolve("job.json"));
    byte[] settings = Files.readAllBytes(job.resolve("settings.properties"));
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      for (String name : names) {
        for (byte[] content : List.of(Boards.article(3), new byte[] {1, -1})) {
          int code = c.files("/jobs/placements/files", Map.of(name, content)).statusCode();
          assertThat(code).as(name).isIn(303, 400);
          assertThat(c.get("/jobs/placements").statusCode()).as(name).isEqualTo(200);
          assertThat(c.get("/jobs/placements").body()).as(name).contains("Measure a panel");
          assertThat(Files.readAllBytes(job.resolve("job.json"))).as(name).isEqualTo(jobFile);
          assertThat(Files.readAllBytes(job.resolve("settings.properties")))
              .as(name)
              .isEqualTo(settings);
        }
        // as the one file of a new job
        String to = Client.to(c.files("/jobs", Map.of(name, Boards.placements())));
        assertThat(to).as(name).matches("/jobs/.+|.*400.*");
        if (to.startsWith("/jobs")) {
          assertThat(c.get(to).body()).as(name).contains("36 placements");
        }
      }
      assertThat(c.get("/").statusCode()).isEqualTo(200);
      try (Stream<Path> articles = Files.list(ws.resolve("articles"))) {
        for (Path a : articles.toList()) {
          String page = "/articles/" + a.getFileName();
          assertThat(c.get(page).statusCode()).as(page).isEqualTo(200);
          assertThat(c.get(page + "/result").statusCode()).as(page).isEqualTo(200);
        }
      }
    }
    assertThat(console).isEmpty();
  }

  @Test
  void leftoversOfADayAgoAreCleared() throws IOException {
    Path old = Files.createDirectories(ws.resolve("incoming/old/deep"));
    Files.writeString(old.resolve("x.csv"), "x");
    Path young = Files.createDirectories(ws.resolve("incoming/young"));
    Files.setLastModifiedTime(
        ws.resolve("incoming/old"), FileTime.from(Instant.now().minus(Duration.ofHours(25))));
    serve().close();
    assertThat(ws.resolve("incoming/old")).doesNotExist();
    assertThat(young).exists();
  }
}
