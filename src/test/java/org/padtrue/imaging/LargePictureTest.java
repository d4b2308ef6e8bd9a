package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;

/** A picture of 58 megapixels; in full only. */
@EnabledIfSystemProperty(named = "padtrue.full", matches = "true")
class LargePictureTest {
  /** Measured in a process of its own, so that its memory is only its own. */
  @Test
  void measuresALargePictureInBoundedMemory(@TempDir Path dir) throws Exception {
    Path picture = dir.resolve("large.png");
    LargePicture.write(picture);
    Path log = dir.resolve("log.txt");
    Process p =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx256m",
                "-cp",
                System.getProperty("java.class.path"),
                LargePicture.class.getName(),
                picture.toString())
            .redirectErrorStream(true)
            .redirectOutput(log.toFile())
            .start();
    assertEquals(0, p.waitFor(), Files.readString(log));
    String said = Files.readString(log);
    System.out.println(said);
    Matcher memory = Pattern.compile("= ([0-9.]+) times").matcher(said);
    assertTrue(memory.find(), said);
    assertTrue(Double.parseDouble(memory.group(1)) <= 4, said);
    Matcher found = Pattern.compile("n (\\d+) bias").matcher(said);
    assertTrue(found.find(), said);
    assertTrue(Integer.parseInt(found.group(1)) >= 0.995 * LargePicture.truth().size(), said);
  }
}
