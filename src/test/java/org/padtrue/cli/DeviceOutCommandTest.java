package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.imaging.BentDevice;
import org.padtrue.panel.Pose;

/** The device's bend: told by two turned pictures, stored, and taken out of the next picture. */
class DeviceOutCommandTest {
  @TempDir Path dir;

  private record Ran(int code, String out, String err) {}

  private Ran detect(String article, String... more) {
    String[] args = Arrays.copyOf(new String[] {"detect", at("job.json")}, more.length + 6);
    System.arraycopy(more, 0, args, 2, more.length);
    args[more.length + 2] = "--distance";
    args[more.length + 3] = "far";
    args[more.length + 4] = "--out";
    args[more.length + 5] = at(article);
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    int code = Main.run(args, new PrintWriter(out, true), new PrintWriter(err, true));
    return new Ran(code, out.toString(), err.toString());
  }

  private String at(String file) {
    return dir.resolve(file).toString();
  }

  @Test
  void theStoredBendIsTakenOutOfTheNextPicture() throws Exception {
    BentDevice device = new BentDevice(true);
    device.write(dir);
    Ran one = detect("plain.csv", at("next.png"), "--device-out", at("scanner.json"));
    assertThat(one.code()).isEqualTo(2);
    assertThat(one.err())
        .contains("--device-out needs pictures of one panel turned by 90 or 180 degrees");
    assertThat(dir.resolve("plain.csv")).doesNotExist();
    assertThat(dir.resolve("scanner.json")).doesNotExist();

    Ran both =
        detect("both.csv", at("scan0.png"), at("scan180.png"), "--device-out", at("scanner.json"));
    assertThat(both.code()).as(both.err()).isZero();
    assertThat(both.out()).contains("Device      bends up to", at("scanner.json"));
    JsonNode file = new ObjectMapper().readTree(dir.resolve("scanner.json").toFile());
    assertThat(file.get("lens").isNull()).isTrue();
    assertThat(file.get("device").get("x")).hasSize(9);

    Ran plain = detect("plain.csv", at("next.png"));
    Ran stored = detect("stored.csv", at("next.png"), "--camera", at("scanner.json"));
    assertThat(plain.out()).contains("the device was never checked");
    assertThat(stored.code()).as(stored.err()).isZero();
    assertThat(stored.out()).doesNotContain("the device was never checked");
    double before = median(device, "plain.csv");
    double after = median(device, "stored.csv");
    System.out.printf(
        "next picture: median error %.1f um, with the stored bend %.1f um%n", before, after);
    assertThat(after).isLessThan(0.35 * before);

    ((ObjectNode) file.get("device"))
        .put("pxPerMm", 2 * file.get("device").get("pxPerMm").asDouble());
    new ObjectMapper().writeValue(dir.resolve("other.json").toFile(), file);
    Ran other = detect("other.csv", at("next.png"), "--camera", at("other.json"));
    assertThat(other.code()).isEqualTo(2);
    assertThat(other.err())
        .containsPattern(
            "next.png: the picture has [0-9.]+ px/mm but the device was measured at [0-9.]+; take"
                + " both with the same setting");
  }

  /** Median distance from the truth, um. */
  private double median(BentDevice device, String article) throws Exception {
    double[] e =
        Files.readAllLines(dir.resolve(article)).stream()
            .map(l -> l.split(",", -1))
            .filter(c -> c.length > 6 && c[3].startsWith("R") && !c[4].isEmpty())
            .mapToDouble(
                c -> {
                  Pose t = device.truth().get(c[1] + "/" + c[2] + "/" + c[3]);
                  return 1000
                      * Math.hypot(
                          Double.parseDouble(c[4]) - t.xMm(), Double.parseDouble(c[5]) - t.yMm());
                })
            .sorted()
            .toArray();
    assertThat(e.length).isGreaterThan(15);
    return e[e.length / 2];
  }
}
