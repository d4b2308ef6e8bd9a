package org.padtrue.web;

import java.io.IOException;

/** A page looked at in every width, light and dark: it fits, and axe finds nothing. */
final class Look {
  private Look() {}

  static void at(Browser b, String name) throws IOException {
    for (int[] size : new int[][] {{390, 844}, {768, 1000}, {1280, 1000}}) {
      b.size(size[0], size[1]);
      b.fits(name + " at " + size[0]);
      b.shot(name + "-" + size[0]);
    }
    b.accessible(name);
    b.scheme("dark");
    b.accessible(name + ", dark");
    b.shot(name + "-dark");
    b.size(390, 844);
    b.shot(name + "-dark-390");
    b.size(1280, 1000);
    b.scheme("light");
  }
}
