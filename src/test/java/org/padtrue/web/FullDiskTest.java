package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A disk on which no more can be written, made by a limit on the size of files. */
class FullDiskTest {
  private static final int LIMIT_KB = 64;

  @TempDir Path dir;

  @Test
  void pageAndAcknowledgementSayIt() throws Exception {
    assumeTrue(Files.exists(Path.of("/bin/bash")), "no shell here");
    ServeProcess.Running p = ServeProcess.startLimited(dir.resolve("ws"), LIMIT_KB);
    try {
      Client c = new Client(p.address());
      c.files("/jobs", Map.of("placements.csv", Boards.placements()));
      c.post("/jobs/placements/articles", Map.of("name", "A", "count", "12"));
      Path journal = dir.resolve("ws/articles/a/entries.log");
      byte[] before = Files.readAllBytes(journal);
      // blank lines up to the limit, but for the room of half a line
      Files.write(
          journal,
          "\n".repeat(LIMIT_KB * 1024 - before.length - 40).getBytes(),
          StandardOpenOption.APPEND);
      byte[] full = Files.readAllBytes(journal);
      HttpResponse<String> r =
          c.send(
              HttpRequest.newBuilder(java.net.URI.create(p.address() + "articles/a/entries"))
                  .header("X-Piece", "1")
                  .header("X-Token", c.token())
                  .header("Content-Type", "application/x-www-form-urlencoded")
                  .POST(
                      Client.form(
                          Map.of(
                              "placement",
                              "P1/1/1/U1",
                              "x",
                              "0.1",
                              "y",
                              "0",
                              "rotation",
                              "",
                              "unit",
                              "mm")))
                  .build());
      assertThat(r.statusCode()).as(r.body()).isEqualTo(507);
      assertThat(r.body()).startsWith("The disk of the computer").contains("was not stored");
      assertThat(Files.readAllBytes(journal)).isEqualTo(full);
      HttpResponse<String> page =
          c.files("/jobs/placements/files", Map.of("large.csv", new byte[200_000]));
      assertThat(page.statusCode()).isEqualTo(507);
      assertThat(page.body()).contains("<p class=\"problem\" role=\"alert\">The disk of the");
      assertThat(dir.resolve("ws/jobs/placements/large.csv")).doesNotExist();
      assertThat(dir.resolve("ws/incoming")).isEmptyDirectory();
      assertThat(c.get("/articles/a").statusCode()).isEqualTo(200);
    } finally {
      p.kill();
    }
  }
}
