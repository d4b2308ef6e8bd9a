package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.WebOptions;
import org.padtrue.words.WordScan;

/** Pages with problems show no folder of this machine and nothing of the command line. */
class PlainPagesTest {
  private static final Pattern CONSOLE =
      Pattern.compile("--[a-z]|exit code|run 'padtrue|padtrue (analyse|serve|check|record)");

  @TempDir Path dir;

  private void plain(Client c, String path) {
    String text = WordScan.text(c.get(path).body());
    assertThat(text).as(path).doesNotContain(dir.toString()).doesNotContain("/tmp/");
    if (path.matches(".*\\.(json|csv|zip)")) {
      // files for programs may speak of the program
      return;
    }
    Matcher m = CONSOLE.matcher(text);
    assertThat(m.find() ? text.substring(Math.max(0, m.start() - 80), m.end() + 40) : "")
        .as(path)
        .isEmpty();
  }

  private void all(Client c) throws IOException {
    List<String> pages = new ArrayList<>(List.of("/", "/deleted", "/log", "/drift", "/log/7"));
    for (String kind : List.of("jobs", "articles")) {
      try (Stream<Path> s = Files.list(dir.resolve("ws").resolve(kind))) {
        for (Path p : s.toList()) {
          String at = "/" + kind + "/" + p.getFileName();
          pages.add(at);
          for (String more :
              List.of(
                  "/result",
                  "/record",
                  "/pictures",
                  "/delete",
                  "/analysis.json",
                  "/article.csv",
                  "/files.zip",
                  "/job.zip",
                  "/job.json",
                  "/panel.svg",
                  "/fit")) {
            pages.add(at + more);
          }
        }
      }
    }
    for (String p : pages) {
      plain(c, p);
    }
  }

  private static byte[] bytes(String s) {
    return s.getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void everyPageOfJobsWithProblems() throws IOException {
    String placements = new String(Boards.placements(), StandardCharsets.UTF_8);
    String article = new String(Boards.article(2), StandardCharsets.UTF_8);
    List<Map<String, byte[]>> jobs = new ArrayList<>();
    jobs.add(Map.of("nounit.csv", bytes(placements.replace(" (mm)", ""))));
    jobs.add(Map.of("empty.csv", bytes("")));
    jobs.add(Map.of("text.csv", bytes("hello\nworld\n")));
    jobs.add(Map.of("job.json", bytes("{\"placements\": \"absent.csv\"}")));
    jobs.add(Map.of("job.json", bytes("{\"placements\": \"a.csv\", \"unknown\": 1")));
    jobs.add(
        Map.of(
            "job.json",
            bytes("{\"placements\": \"a.csv\", \"machin\": {}}"),
            "a.csv",
            bytes(placements)));
    jobs.add(Map.of("nopart.csv", bytes(placements.replace(",Part,", ",Other,"))));
    // articles that are asked about or cannot be read: metres, swapped, turned, of other refs
    jobs.add(two(placements, article.replace("(um)", "(mm)")));
    jobs.add(two(placements, article.replace("dx (um)", "dx (mil)")));
    jobs.add(two(placements, article.replace("U1", "Z1")));
    jobs.add(two(placements, article + "U1,1,2,0\nU2,x,y,z\n"));
    jobs.add(two(placements, "ref,x (mm),y (mm),rotation\n" + poses(placements)));
    try (WebServer s =
        WebServer.start(
            WebOptions.local(dir.resolve("ws"), dir.resolve("no/such/log.db").toString(), 0))) {
      Client c = new Client(s.address());
      for (Map<String, byte[]> j : jobs) {
        c.files("/jobs", j);
      }
      try (Stream<Path> made = Files.list(dir.resolve("ws/jobs"))) {
        for (Path p : made.toList()) {
          c.post("/jobs/" + p.getFileName() + "/articles", Map.of("name", "T", "count", "8"));
        }
      }
      Files.writeString(dir.resolve("ws/jobs/nounit/parts.json"), "{");
      all(c);
      try (Stream<Path> made = Files.list(dir.resolve("ws/articles"))) {
        for (Path p : made.toList()) {
          String text = c.post("/articles/" + p.getFileName() + "/record", Map.of()).body();
          assertThat(text).doesNotContain(dir.toString());
          assertThat(CONSOLE.matcher(WordScan.text(text)).find()).as(text).isFalse();
        }
      }
    }
  }

  private static Map<String, byte[]> two(String placements, String article) {
    Map<String, byte[]> m = new LinkedHashMap<>();
    m.put("list.csv", bytes(placements));
    m.put("measured.csv", bytes(article));
    return m;
  }

  private static String poses(String placements) {
    StringBuilder b = new StringBuilder();
    placements
        .lines()
        .skip(1)
        .map(l -> l.split(","))
        .forEach(
            f ->
                b.append(f[0])
                    .append(',')
                    .append(-Double.parseDouble(f[2]) + 0.01)
                    .append(',')
                    .append(f[3])
                    .append(',')
                    .append(f[4])
                    .append('\n'));
    return b.toString();
  }

  @Test
  void wordsOfTheConsoleAreLeftOut() {
    assertThat(PageWords.plain("/home/a b/ws/jobs/x/list.csv, line 3: no number; write one"))
        .isEqualTo("list.csv, line 3: no number; write one");
    assertThat(
            PageWords.plain(
                "it looks mirrored; correct it, or say --as-is if it is really so (\"asIs\":"
                    + " [\"x\"])"))
        .isEqualTo("it looks mirrored; correct it");
    assertThat(PageWords.plain("--history: it is empty; give a file")).startsWith("the log: it is");
    assertThat(PageWords.plain("0.02 mm/step at 1/2/R7 and x/y, 3.5 mm"))
        .isEqualTo("0.02 mm/step at 1/2/R7 and x/y, 3.5 mm");
    assertThat(PageWords.plain("C:\\Users\\x\\list.csv: empty")).isEqualTo("list.csv: empty");
  }
}
