package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** Many jobs: looked for, deleted, taken back, by two people at once. */
class DeleteTest {
  private static final int JOBS = 60;
  private static final double MOST_SECONDS = 1;

  @TempDir Path dir;
  private WebServer server;
  private Client client;

  @BeforeEach
  void serve() throws IOException {
    server =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
    client = new Client(server.address());
    client.files("/jobs", Map.of("gauge.csv", Boards.placements()));
    client.post("/jobs/gauge/articles", Map.of("name", "Monday", "count", "12"));
    enter("U1", 200);
  }

  @AfterEach
  void stop() {
    server.close();
  }

  private void enter(String ref, int code) {
    HttpResponse<String> r =
        client.post(
            "/articles/monday/entries",
            Map.of(
                "placement", "P1/1/1/" + ref, "x", "0.1", "y", "0", "rotation", "", "unit", "mm"));
    assertThat(r.statusCode()).as(r.body()).isEqualTo(code);
  }

  private static String seen(String page) {
    return page.replaceAll("(?s).*name=\"seen\" value=\"([^\"]*)\".*", "$1");
  }

  @Test
  void deletedIsAskedOnceAndTakenBack() throws IOException {
    String ask = client.get("/jobs/gauge/delete").body();
    assertThat(ask)
        .contains("This deletes the job &#39;gauge&#39;".replace("&#39;", "'"))
        .contains("Its 1 article");
    assertThat(client.post("/jobs/gauge/delete", Map.of("seen", seen(ask))).statusCode())
        .isEqualTo(303);
    assertThat(dir.resolve("ws/deleted/jobs/gauge/job.json")).exists();
    assertThat(client.get("/").body()).doesNotContain("/jobs/gauge").doesNotContain("monday");
    assertThat(client.get("/jobs/gauge").statusCode()).isEqualTo(404);
    assertThat(client.get("/jobs/gauge").body()).contains("was deleted. It can be taken back");
    assertThat(client.get("/articles/monday").statusCode()).isEqualTo(404);
    enter("U2", 404);
    // its name is not given again while it can come back
    assertThat(Client.to(client.files("/jobs", Map.of("gauge.csv", Boards.placements()))))
        .isEqualTo("/jobs/gauge-2");
    assertThat(client.get("/deleted").body()).contains("/deleted/jobs/gauge/back");
    assertThat(Client.to(client.post("/deleted/jobs/gauge/back", Map.of())))
        .isEqualTo("/jobs/gauge");
    assertThat(client.get("/articles/monday").statusCode()).isEqualTo(200);
    assertThat(client.get("/articles/monday/article.csv").body()).contains("\"U1\",0.1,0");
    enter("U2", 200);
  }

  @Test
  void twoPeopleAtOnce() {
    String ask = client.get("/articles/monday/delete").body();
    enter("U3", 200);
    HttpResponse<String> late = client.post("/articles/monday/delete", Map.of("seen", seen(ask)));
    assertThat(late.statusCode()).isEqualTo(400);
    assertThat(late.body()).contains("Something was entered there meanwhile");
    String now = seen(client.get("/articles/monday/delete").body());
    assertThat(client.post("/articles/monday/delete", Map.of("seen", now)).statusCode())
        .isEqualTo(303);
    // the other one too
    assertThat(client.post("/articles/monday/delete", Map.of("seen", now)).statusCode())
        .isEqualTo(303);
    enter("U4", 404);
    client.post("/deleted/articles/monday/back", Map.of());
    assertThat(Client.to(client.post("/deleted/articles/monday/back", Map.of())))
        .isEqualTo("/articles/monday");
    assertThat(client.get("/articles/monday/article.csv").body()).contains("U3");
    assertThat(client.post("/deleted/jobs/nothing/back", Map.of()).statusCode()).isEqualTo(404);
    assertThat(client.post("/deleted/jobs/..%2F..%2Fx/back", Map.of()).statusCode())
        .isBetween(400, 404);
  }

  @Test
  void sixtyJobsAreLookedThroughQuickly() throws IOException {
    for (int k = 1; k < JOBS; k++) {
      client.files("/jobs", Map.of("board-" + k + ".csv", Boards.placements()));
    }
    client.get("/");
    long start = System.nanoTime();
    String all = client.get("/").body();
    double seconds = (System.nanoTime() - start) / 1e9;
    System.out.printf("list of %d jobs, unchanged: %.3f s%n", JOBS, seconds);
    assertThat(seconds).isLessThan(MOST_SECONDS);
    assertThat(all).contains("/jobs/board-59\"").contains("Look for a job");
    String some = client.get("/?q=BOARD-5").body();
    assertThat(some)
        .contains("11 of 60 jobs")
        .contains("/jobs/board-57\"")
        .doesNotContain("/jobs/board-12\"");
    assertThat(client.get("/?q=monday").body()).contains("0 of 60 jobs and 1 article");
    assertThat(client.get("/?q=%3Cscript%3E").body()).doesNotContain("<script>&");
    try (Browser b = Browser.open()) {
      b.go(server.address());
      for (int width : new int[] {1280, 768, 390}) {
        for (String scheme : new String[] {"light", "dark"}) {
          b.size(width, 1100);
          b.scheme(scheme);
          b.fits("home " + width);
          b.shot("home60-" + width + "-" + scheme);
        }
      }
      b.accessible("home of sixty jobs");
      b.size(768, 1000);
      b.see("#q").sendKeys("board-33\n");
      b.says("1 of 60 jobs");
      b.click(".del");
      b.says("Delete?");
      b.accessible("delete");
      b.shot("delete-768");
      b.click("main button.main");
      b.says("Take back");
      b.accessible("deleted");
      b.size(390, 900);
      b.fits("deleted 390");
      b.shot("deleted-390");
      b.click("main form button");
      b.says("board-33");
      b.until(() -> b.driver.getCurrentUrl().endsWith("/jobs/board-33"));
    }
  }
}
