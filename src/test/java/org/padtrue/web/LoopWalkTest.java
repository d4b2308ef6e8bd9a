package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.padtrue.web.server.WebOptions;

/**
 * The whole loop by one person, from an empty workspace to a held check and the record to sign:
 * clicks and keys are counted and printed.
 */
class LoopWalkTest {
  private static final int PLACEMENTS = 12;

  @TempDir Path dir;
  private int clicks;
  private int keys;
  private int numbers;

  private void click(Browser b, String css) {
    WebElement e = b.see(css);
    b.script("arguments[0].scrollIntoView({block: 'center'});", e);
    e.click();
    clicks++;
  }

  private void press(Browser b, Keys key) {
    b.keys(key);
    keys++;
  }

  private void type(Browser b, String text) {
    b.keys(text);
    keys += text.length();
  }

  /** One row of the list: both deviations, Enter behind each field. */
  private void row(Browser b, double dx, double dy) {
    String x = String.format(Locale.ROOT, "%.3f", dx);
    String y = String.format(Locale.ROOT, "%.3f", dy);
    b.keys(x, Keys.ENTER, y, Keys.ENTER, Keys.ENTER);
    numbers += x.length() + y.length();
    keys += x.length() + y.length() + 3;
  }

  private void list(Browser b, boolean trimmed, long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < PLACEMENTS; i++) {
      Object ref = b.script("return document.activeElement.closest('tr').dataset.ref;");
      int k = Integer.parseInt(String.valueOf(ref).substring(1)) - 1;
      double turn = Math.toRadians(90 * (k % 4));
      double own = trimmed || k % 3 != 2 ? 0 : -0.05;
      double shift = trimmed ? 0 : 0.06;
      row(
          b,
          shift - own * Math.sin(turn) + 0.005 * random.nextGaussian(),
          own * Math.cos(turn) + 0.005 * random.nextGaussian());
    }
    b.says("The list is done.");
    b.says("Everything typed is on disk.");
  }

  @Test
  void fromAnEmptyWorkspaceToTheRecord() throws IOException {
    Path list = Files.write(dir.resolve("board.csv"), Boards.placements());
    Path downloads = Files.createDirectories(dir.resolve("downloads"));
    try (WebServer s =
            WebServer.start(
                WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
        Browser b = Browser.open()) {
      b.driver.executeCdpCommand(
          "Browser.setDownloadBehavior",
          Map.of("behavior", "allow", "downloadPath", downloads.toString()));
      b.go(s.address());
      // choosing a file is a click on the field and one in the system's own window
      b.files("input[type=file]", list);
      clicks += 2;
      click(b, ".drop button");
      b.says("Measure a panel");
      click(b, "#count");
      type(b, Integer.toString(PLACEMENTS));
      press(b, Keys.ENTER);
      b.says("Where to look next");
      list(b, false, 3);
      click(b, "#result");
      b.says("What to change");
      click(b, "section[aria-labelledby=next] button.main");
      b.says("Where to look next");
      list(b, true, 4);
      click(b, "#result");
      b.see(".verdict.good");
      b.says("✓ Held");
      int check = clicks + keys;
      click(b, "a[href='/articles/first-article/result']");
      click(b, "a[href='/articles/first-article/first-article']");
      click(b, "#partNumber");
      type(b, "4711-3");
      click(b, "#verifiedBy");
      type(b, "A. Person");
      // the check of the panel placed with these trims is offered
      click(b, "form[data-seen] button.main");
      b.says("Record to sign, PDF on A4");
      b.until(() -> b.all("#partNumber").get(0).getAttribute("value").equals("4711-3"));
      assertThat(b.all("#check option[selected]").get(0).getText()).contains("trims entered");
      click(b, "a[href$='first-article.pdf']");
      b.until(() -> pdf(downloads));
      try (Stream<Path> files = Files.list(downloads)) {
        byte[] pdf = Files.readAllBytes(files.findFirst().orElseThrow());
        assertThat(new String(pdf, 0, 5, StandardCharsets.US_ASCII)).isEqualTo("%PDF-");
      }
      System.out.printf(
          "the loop, two panels of %d placements: %d clicks, %d keys (%d of them the digits and"
              + " signs of %d numbers); %d of both until the trims were held%n",
          PLACEMENTS, clicks, keys, numbers, 4 * PLACEMENTS, check);
      // beside the numbers themselves: an Enter for each field, and little else
      assertThat(clicks).isLessThanOrEqualTo(15);
      assertThat(keys - numbers).isLessThanOrEqualTo(2 * 3 * PLACEMENTS + 20);
    }
  }

  private static boolean pdf(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.anyMatch(f -> f.toString().endsWith(".pdf"));
    } catch (IOException e) {
      return false;
    }
  }
}
