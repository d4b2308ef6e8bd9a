package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** On import the page shows the panel as understood, and follows the settings. */
class PanelPictureTest {
  private static final String LIST =
      "Ref,Package,X (mm),Y (mm),Rot,Side\nR1,R0603,1,2,0,top\nR2,R0603,30,2,0,top\n"
          + "R3,R0603,12,22,90,top\nC1,C0603,5,9,0,bottom\nC2,C0603,25,9,0,bottom\n";

  @TempDir private Path dir;

  @Test
  void importShowsThePanel() throws IOException {
    try (WebServer s =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client client = new Client(s.address());
      String job =
          Client.to(
              client.files("/jobs", Map.of("board.csv", LIST.getBytes(StandardCharsets.UTF_8))));
      assertThat(client.get(job).body())
          .contains("Panel as understood")
          .contains("<img class=\"understood\" src=\"" + job + "/panel.svg\"");
      HttpResponse<String> top = client.get(job + "/panel.svg");
      assertThat(top.statusCode()).isEqualTo(200);
      assertThat(top.headers().firstValue("Content-Type").orElse("")).startsWith("image/svg+xml");
      assertThat(top.body()).contains("<svg");
      client.post(
          job + "/settings",
          Map.of(
              "name",
              "B",
              "side",
              "bottom",
              "stage",
              "paste",
              "y",
              "up",
              "rotation",
              "counterclockwise"));
      assertThat(client.get(job + "/panel.svg").body()).contains("<svg").isNotEqualTo(top.body());
      assertThat(client.get("/jobs/none/panel.svg").statusCode()).isEqualTo(404);
    }
  }
}
