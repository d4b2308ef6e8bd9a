package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Files made to do harm end in one sentence and exit code 2, soon and in little memory. */
@Timeout(60)
class HostileFilesTest {
  private static final String HEAD = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  private static final String ROOT =
      "<IPC-2581 revision=\"C\" xmlns=\"http://webstds.ipc.org/2581\">";

  @TempDir private Path dir;

  private String refused(String name, byte[] bytes) throws IOException {
    Path f = Files.write(dir.resolve(name), bytes);
    Run r = Run.of("inspect", f);
    assertThat(r.code()).as(r.out() + r.err()).isEqualTo(2);
    assertThat(r.err().strip().lines()).hasSize(1);
    return r.err().replace(f.toString(), name).strip();
  }

  private String refused(String name, String text) throws IOException {
    return refused(name, text.getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void entitiesAreNotExpanded() throws IOException {
    StringBuilder laughs = new StringBuilder(HEAD + "<!DOCTYPE l [<!ENTITY a0 \"ha\">");
    for (int i = 1; i < 30; i++) {
      laughs.append("<!ENTITY a" + i + " \"" + ("&a" + (i - 1) + ";").repeat(10) + "\">");
    }
    laughs.append("]>\n" + ROOT + "<Content roleRef=\"&a29;\">&a29;</Content></IPC-2581>");
    assertThat(refused("laughs.xml", laughs.toString()))
        .contains("has a document type definition (DOCTYPE), which is not read");
    Path secret = Files.writeString(dir.resolve("secret.txt"), "swordfish");
    String outside =
        HEAD
            + "<!DOCTYPE l [<!ENTITY x SYSTEM \""
            + secret.toUri()
            + "\">]>"
            + ROOT
            + "<Content>&x;</Content></IPC-2581>";
    assertThat(refused("outside.xml", outside)).contains("DOCTYPE").doesNotContain("swordfish");
    assertThat(refused("undeclared.xml", HEAD + ROOT + "<Content>&x;</Content></IPC-2581>"))
        .contains("undeclared.xml, line 2:");
  }

  @Test
  void depthAndLengthAreBounded() throws IOException {
    assertThat(refused("deep.xml", HEAD + ROOT + "<a>".repeat(1_000_000)))
        .isEqualTo("deep.xml, line 2: elements are nested deeper than 64; export the file again");
    assertThat(refused("attribute.xml", HEAD + ROOT + "<a b=\"" + "x".repeat(20_000_000) + "\"/>"))
        .contains("a tag, attribute or text is longer than 1 MB");
    assertThat(refused("text.xml", HEAD + ROOT + "<a>" + "x".repeat(20_000_000) + "</a>"))
        .contains("a tag, attribute or text is longer than 1 MB");
    assertThat(refused("long.gbr", "%FSLAX46Y46*%\n" + "X".repeat(20_000_000)))
        .contains("a command is longer than 65536 characters");
  }

  @Test
  void brokenAndMiscodedFiles() throws IOException {
    String good =
        Files.readString(Path.of("src/test/resources/standards/example-ipc2581-revC.xml"));
    assertThat(refused("short.xml", good.substring(0, good.length() / 2)))
        .contains("the file ends too early or its tags do not match");
    byte[] wrong =
        good.replace("hand-made", "h\u00e4nd-made").getBytes(StandardCharsets.ISO_8859_1);
    assertThat(refused("coded.xml", wrong))
        .contains("the characters are not coded as the file says");
    byte[] wide = good.replace("\"UTF-8\"", "\"UTF-16\"").getBytes(StandardCharsets.UTF_16);
    assertThat(Run.of("inspect", Files.write(dir.resolve("wide.xml"), wide)).code()).isZero();
    assertThat(refused("other.xml", good.replace("\"UTF-8\"", "\"EBCDIC\"")))
        .contains("the characters are coded neither as UTF-8, UTF-16 nor Latin-1");
    assertThat(refused("tags.xml", HEAD + ROOT + "<a></b></IPC-2581>"))
        .contains("the file ends too early or its tags do not match");
    for (int cut = 60; cut < good.length() - 12; cut += 97) {
      refused("cut.xml", good.substring(0, cut));
    }
    assertThat(refused("huge.xml", good.replace("nx=\"2\"", "nx=\"2000000000\"")))
        .contains("nx and ny are whole, from 1");
  }

  /**
   * A file of many megabytes of copper, read by a program of 48 MB heap; {@code
   * -Dpadtrue.standards.megabytes=200} for the full size.
   */
  @Test
  @Timeout(600)
  void aLargeFileNeedsLittleMemory() throws Exception {
    long megabytes = Long.getLong("padtrue.standards.megabytes", 24);
    Path file = dir.resolve("large.xml");
    String good =
        Files.readString(Path.of("src/test/resources/standards/example-ipc2581-revC.xml"));
    int at = good.indexOf("<LayerFeature");
    StringBuilder set = new StringBuilder("<Set net=\"N1\"><Features><Polyline>");
    for (int i = 0; i < 50; i++) {
      set.append("<PolyStepSegment x=\"" + i + ".125\" y=\"3." + i + "\"/>\n");
    }
    set.append("</Polyline></Features></Set>\n");
    try (BufferedWriter w = Files.newBufferedWriter(file)) {
      w.write(good.substring(0, at) + "<LayerFeature layerRef=\"TOP\">\n");
      for (long n = 0; n < megabytes << 20; n += set.length()) {
        w.append(set);
      }
      w.write("</LayerFeature>" + good.substring(at));
    }
    assertThat(Files.size(file)).isGreaterThan(megabytes << 20);
    Process p =
        new ProcessBuilder(
                List.of(
                    Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                    "-Xmx48m",
                    "-XX:TieredStopAtLevel=1",
                    "-cp",
                    System.getProperty("java.class.path"),
                    "org.padtrue.cli.Main",
                    "inspect",
                    file.toString()))
            .redirectErrorStream(true)
            .start();
    try (OutputStream none = p.getOutputStream()) {
      String out = new String(p.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertThat(p.waitFor(500, TimeUnit.SECONDS)).isTrue();
      assertThat(p.exitValue()).as(out).isZero();
      assertThat(out).contains("Rows        2 (top 1, bottom 1");
    }
  }
}
