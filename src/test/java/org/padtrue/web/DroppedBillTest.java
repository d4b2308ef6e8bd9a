package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** A bill of materials dropped on the pages beside a list that has no part types. */
class DroppedBillTest {
  @TempDir Path dir;

  private interface Walk {
    void with(Client c) throws IOException;
  }

  private void serve(Walk walk) throws IOException {
    try (WebServer s =
        WebServer.start(WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0))) {
      Client c = new Client(s.address());
      c.get("/");
      walk.with(c);
    }
  }

  /** The board's placements, column of part types taken out. */
  static byte[] bare() {
    StringBuilder b = new StringBuilder();
    for (String line : new String(Boards.placements(), StandardCharsets.UTF_8).split("\n")) {
      String[] c = line.split(",");
      b.append(String.join(",", c[0], c[2], c[3], c[4])).append('\n');
    }
    return bytes(b.toString().replaceFirst("Ref", "Designator"));
  }

  /** Its bill, but for refs beyond {@code last}. */
  static byte[] bill(int last) {
    Map<String, StringBuilder> refs = new TreeMap<>();
    for (String line : new String(Boards.placements(), StandardCharsets.UTF_8).split("\n")) {
      String[] c = line.split(",");
      if (!c[0].equals("Ref") && Integer.parseInt(c[0].substring(1)) <= last) {
        refs.computeIfAbsent(c[1], k -> new StringBuilder()).append(", ").append(c[0]);
      }
    }
    StringBuilder b = new StringBuilder("Designator,Package,Quantity\n");
    refs.forEach(
        (part, r) ->
            b.append('"').append(r.substring(2)).append("\",").append(part).append(",12\n"));
    return bytes(b.toString());
  }

  private static byte[] bytes(String s) {
    return s.getBytes(StandardCharsets.UTF_8);
  }

  private static Map<String, byte[]> files(Object... nameAndContent) {
    Map<String, byte[]> m = new LinkedHashMap<>();
    for (int i = 0; i < nameAndContent.length; i += 2) {
      m.put((String) nameAndContent[i], (byte[]) nameAndContent[i + 1]);
    }
    return m;
  }

  @Test
  void isJoinedAndLeadsToTheTrimSheet() throws IOException {
    serve(
        c -> {
          HttpResponse<String> r =
              c.files(
                  "/jobs",
                  files("a-bill.csv", bill(36), "list.csv", bare(), "m.csv", Boards.article(3)));
          assertThat(r.statusCode()).isEqualTo(303);
          assertThat(c.get(Client.to(r)).body()).contains("What to change", "part type SOT23");
          String job = Files.readString(dir.resolve("ws/jobs/list/job.json"));
          assertThat(job).contains("\"bom\": \"a-bill.csv\"").contains("\"list.csv\"");
          assertThat(c.get("/jobs/list").body()).doesNotContain("is not used");
        });
  }

  @Test
  void refsThatItDoesNotNameAreAskedAboutOnThePage() throws IOException {
    serve(
        c -> {
          c.files("/jobs", files("list.csv", bare(), "bill.csv", bill(34)));
          String page = c.get("/jobs/list").body();
          assertThat(page)
              .contains(
                  "list.csv: 'U35', 'U36' are not in bill.csv, so what is placed there is not"
                      + " known; say below whether something is")
              .contains("Refs that bill.csv does not name")
              .contains("cannot be read yet");
          c.post("/jobs/list/settings", Map.of("unlisted", "leaveOut"));
          page = c.get("/jobs/list").body();
          assertThat(page).contains("34 placements").doesNotContain("role=\"alert\"");
          c.post("/jobs/list/settings", Map.of("unlisted", "keep"));
          assertThat(c.get("/jobs/list").body()).contains("36 placements");
        });
  }

  @Test
  void mayBeSentLaterThanTheList() throws IOException {
    serve(
        c -> {
          c.files("/jobs", files("list.csv", bare()));
          assertThat(c.get("/jobs/list").body())
              .contains(
                  "there is no column for part, package or value, so part types are not known; send"
                      + " the bill of materials that has them, or name that column \"part\"");
          c.files("/jobs/list/files", files("bill.csv", bill(36)));
          assertThat(c.get("/jobs/list").body())
              .contains("36 placements")
              .doesNotContain("role=\"alert\"");
        });
  }

  /** A job file names files beside it only, and its bill is one of them. */
  @Test
  void aJobMayNotNameABillElsewhere() throws IOException {
    Files.writeString(dir.resolve("secret.csv"), "Designator,Package\nU1,elsewhere7\n");
    serve(
        c -> {
          String job = "{\"placements\": \"list.csv\", \"bom\": \"../../../secret.csv\"}";
          c.files("/jobs", files("list.csv", bare(), "job.json", bytes(job)));
          assertThat(c.get("/jobs/job").body())
              .contains("which is not beside it")
              .doesNotContain("elsewhere7");
        });
  }
}
