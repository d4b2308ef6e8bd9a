package org.padtrue.imaging.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.bytedeco.javacpp.Loader;
import org.bytedeco.opencv.opencv_core.Mat;
import org.junit.jupiter.api.Test;

/** How the picture library starts. Each way runs in a process of its own, as a command would. */
class NativeLibrariesTest {
  /** Loads in one way and prints the seconds it took; or prints whether anything was loaded. */
  static final class Start {
    private Start() {}

    public static void main(String[] args) {
      long from = System.nanoTime();
      switch (args[0]) {
        case "quick" -> NativeLibraries.load();
        case "whole" -> Loader.load(org.bytedeco.opencv.opencv_java.class);
        default -> throw new IllegalArgumentException(args[0]);
      }
      try (Mat m = new Mat(4, 4, org.bytedeco.opencv.global.opencv_core.CV_8U)) {
        System.out.println("rows " + m.rows() + " seconds " + (System.nanoTime() - from) / 1e9);
      }
    }
  }

  @Test
  void quickStartTakesAFractionOfLoadingTheWholeLibrary() throws Exception {
    seconds("quick"); // unpacks into the cache if this is the first run on the machine
    seconds("whole");
    double quick = Math.min(seconds("quick"), seconds("quick"));
    double whole = Math.min(seconds("whole"), seconds("whole"));
    System.out.printf("loading: quick / whole = %.2f in this run%n", quick / whole);
    assertTrue(quick < 0.6 * whole, "quick " + quick + " s, whole " + whole + " s");
  }

  private static double seconds(String way) throws Exception {
    Process p =
        new ProcessBuilder(
                List.of(
                    Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                    "-Xshare:auto",
                    "-XX:TieredStopAtLevel=1",
                    "-cp",
                    System.getProperty("java.class.path"),
                    Start.class.getName(),
                    way))
            .redirectErrorStream(true)
            .start();
    String out = new String(p.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, p.waitFor(), out);
    String[] words = out.trim().split("\\s+");
    assertEquals("rows", words[0], out);
    return Double.parseDouble(words[3]);
  }
}
