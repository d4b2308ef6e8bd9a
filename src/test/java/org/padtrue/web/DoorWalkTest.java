package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** A question at the door in a real browser: mended by another file, or answered. */
class DoorWalkTest {
  @TempDir Path dir;

  /** The board's measurements with the unit left out of the header. */
  private static byte[] unitless() {
    return new String(Boards.article(3), StandardCharsets.UTF_8)
        .replace(" (um)", "")
        .getBytes(StandardCharsets.UTF_8);
  }

  /** The same far off, as nobody would leave it. */
  private static byte[] farOff() {
    StringBuilder b = new StringBuilder();
    for (String line : new String(Boards.article(4), StandardCharsets.UTF_8).split("\n")) {
      String[] c = line.split(",");
      String dx = c[0].equals("ref") ? c[1] : String.valueOf(Double.parseDouble(c[1]) + 8000);
      b.append(String.join(",", c[0], dx, c[2], c[3])).append('\n');
    }
    return b.toString().getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void asksMendsAndKeepsTheAnswer() throws IOException {
    Path list = Files.write(dir.resolve("board.csv"), DroppedBillTest.bare());
    Path bill = Files.write(dir.resolve("bill.csv"), DroppedBillTest.bill(34));
    Path first = Files.write(dir.resolve("first-panel.csv"), unitless());
    try (WebServer s =
            WebServer.start(
                WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
        Browser b = Browser.open()) {
      b.go(s.address());
      b.files("input[type=file]", list, bill);
      b.click(".drop button");
      b.says("say below whether something is");
      look(b, "bill");
      b.script("document.querySelector('#unlisted').value = 'keep';");
      b.click(".settings button");
      b.says("36 placements");

      b.files("input[type=file]", first);
      b.click(".drop button");
      b.says("dx and dy look written in um but were read as mm");
      assertThat(b.body()).contains("It is really so").doesNotContain("What to change");
      look(b, "door");

      Files.write(first, Boards.article(3));
      b.files("input[type=file]", first);
      b.click(".drop button");
      b.says("What to change");

      Path second = Files.write(dir.resolve("second-panel.csv"), farOff());
      b.go(s.address() + "jobs/board");
      b.files("input[type=file]", second);
      b.click(".drop button");
      b.says("Which panel is it?");
      b.click("input[name=kind][value=first]");
      b.click("form.fields button.main");
      b.says("It is really so");
      b.click("button.really");
      b.says("What to change");
      assertThat(Files.readString(dir.resolve("ws/jobs/board/job.json"))).contains("\"asIs\"");
    }
  }

  private static void look(Browser b, String name) throws IOException {
    for (String scheme : new String[] {"light", "dark"}) {
      b.scheme(scheme);
      b.accessible(name + " page, " + scheme);
      for (int[] size : new int[][] {{1280, 1000}, {390, 844}}) {
        b.size(size[0], size[1]);
        b.fits(name + " page at " + size[0]);
        b.shot(name + "-" + scheme + "-" + size[0]);
      }
    }
    b.scheme("light");
    b.size(1280, 1000);
  }
}
