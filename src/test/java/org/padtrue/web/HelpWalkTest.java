package org.padtrue.web;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** The handbook in a real browser, light and dark, wide and narrow. */
class HelpWalkTest {
  @TempDir Path dir;

  @Test
  void everyKindOfPageIsReadable() throws IOException {
    try (WebServer s =
            WebServer.start(
                WebOptions.local(dir.resolve("ws"), dir.resolve("log.db").toString(), 0));
        Browser b = Browser.open()) {
      b.go(s.address());
      b.click("header a[href='/help']");
      b.says("Pages by task");
      for (String page : List.of("files", "accuracy")) {
        b.click(".help nav a[href='/help/" + page + "']");
        b.see(".help nav a[aria-current][href='/help/" + page + "']");
        if (page.equals("files")) {
          b.click(".sections summary");
          b.see(".sections .target");
        }
        for (int width : new int[] {390, 768, 1280}) {
          b.size(width, 1000);
          b.fits("help, " + page + " at " + width);
          b.shot("help-" + page + "-" + width);
        }
        b.accessible("help, " + page);
        b.scheme("dark");
        b.accessible("help, " + page + ", dark");
        b.shot("help-" + page + "-dark");
        b.scheme("light");
      }
    }
  }
}
