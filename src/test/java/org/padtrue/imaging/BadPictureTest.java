package org.padtrue.imaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.zip.CRC32;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgcodecs;
import org.bytedeco.opencv.opencv_core.Mat;
import org.bytedeco.opencv.opencv_core.Scalar;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.padtrue.imaging.picture.NativeLibraries;
import org.padtrue.imaging.picture.Picture;
import org.padtrue.imaging.picture.PictureReader;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Pose;
import org.padtrue.problem.InputException;

/** Files that cannot be measured: one sentence each; odd ones that can be are read. */
class BadPictureTest {
  @TempDir Path folder;

  @Test
  void notAPicture() throws Exception {
    assertSentence(
        "this is not a JPEG, PNG, TIFF or BMP picture; give a picture",
        "ref,x,y\nR1,1,2\n".getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void noSuchFile() {
    Path p = folder.resolve("none.png");
    InputException e = assertThrows(InputException.class, () -> PictureReader.read(p));
    assertEquals(p + ": there is no such file; check the path", e.problems().get(0).sentence());
  }

  @Test
  void folderAndEmptyFile() throws Exception {
    InputException e = assertThrows(InputException.class, () -> PictureReader.read(folder));
    assertEquals(
        folder + ": this is a folder, not a picture; name the picture in it",
        e.problems().get(0).sentence());
    assertSentence("the file is empty; copy it again", new byte[0]);
  }

  /** Twelve bits stored unshifted in sixteen, as cameras do: as bright as the scene was. */
  @Test
  void twelveBitsInSixteen() throws Exception {
    NativeLibraries.load();
    for (String kind : new String[] {".png", ".tif"}) {
      try (Mat m = new Mat(40, 60, opencv_core.CV_16UC3, new Scalar(2048, 2048, 2048, 0));
          Mat corner = m.apply(new org.bytedeco.opencv.opencv_core.Rect(0, 0, 5, 5));
          BytePointer out = new BytePointer()) {
        corner.put(new Scalar(4000, 4000, 4000, 0));
        opencv_imgcodecs.imencode(kind, m, out);
        byte[] b = new byte[(int) out.limit()];
        out.get(b);
        try (Picture q = PictureReader.read(Files.write(folder.resolve("twelve" + kind), b))) {
          assertEquals(128, q.at(30, 20, 1), 2);
        }
      }
    }
  }

  @Test
  void truncatedJpeg() throws Exception {
    byte[] whole = encoded(".jpg", opencv_core.CV_8UC3);
    assertSentence(
        "the JPEG picture ends before its end: the file was cut off; copy it again",
        Arrays.copyOf(whole, whole.length * 2 / 3));
  }

  @Test
  void truncatedPng() throws Exception {
    byte[] whole = encoded(".png", opencv_core.CV_8UC3);
    assertSentence(
        "the PNG picture ends before its end: the file was cut off; copy it again",
        Arrays.copyOf(whole, whole.length - 20));
  }

  /** A few bytes that claim 30,000 x 30,000 pixels: refused from the header, nothing decoded. */
  @Test
  void headerBomb() throws Exception {
    ByteBuffer b = ByteBuffer.allocate(8 + 25 + 12);
    b.put(new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10});
    byte[] head =
        ByteBuffer.allocate(17)
            .put("IHDR".getBytes(StandardCharsets.US_ASCII))
            .putInt(30_000)
            .putInt(30_000)
            .put(new byte[] {8, 2, 0, 0, 0})
            .array();
    b.putInt(13).put(head).putInt(crc(head));
    byte[] end = "IEND".getBytes(StandardCharsets.US_ASCII);
    b.putInt(0).put(end).putInt(crc(end));
    assertSentence(
        "the picture says it is 30000 x 30000 pixels; give one of 16 x 16 to 250 million pixels",
        b.array());
  }

  private static int crc(byte[] b) {
    CRC32 c = new CRC32();
    c.update(b);
    return (int) c.getValue();
  }

  /** Grey, 16 bits and alpha all become 8-bit colour with the same look. */
  @Test
  void oddPixelKindsAreRead() throws Exception {
    for (int type :
        new int[] {
          opencv_core.CV_8UC1, opencv_core.CV_16UC1, opencv_core.CV_16UC3, opencv_core.CV_8UC4
        }) {
      Path p = Files.write(folder.resolve("t" + type + ".png"), encoded(".png", type));
      try (Picture q = PictureReader.read(p)) {
        assertEquals(60, q.width());
        assertEquals(40, q.height());
        assertEquals(128, q.at(30, 20, 1), 2);
      }
    }
  }

  /** EXIF orientation 6: the picture is turned before anything is measured. */
  @Test
  void exifTurnedIsTurned() throws Exception {
    byte[] plain = encoded(".jpg", opencv_core.CV_8UC3);
    byte[] exif = {
      (byte) 0xFF,
      (byte) 0xE1,
      0,
      34,
      'E',
      'x',
      'i',
      'f',
      0,
      0,
      'M',
      'M',
      0,
      42,
      0,
      0,
      0,
      8,
      0,
      1,
      1,
      0x12,
      0,
      3,
      0,
      0,
      0,
      1,
      0,
      6,
      0,
      0,
      0,
      0,
      0,
      0
    };
    byte[] all = new byte[plain.length + exif.length];
    System.arraycopy(plain, 0, all, 0, 2);
    System.arraycopy(exif, 0, all, 2, exif.length);
    System.arraycopy(plain, 2, all, 2 + exif.length, plain.length - 2);
    try (Picture q = PictureReader.decode("turned.jpg", all)) {
      assertEquals(40, q.width());
      assertEquals(60, q.height());
    }
  }

  /** A picture of another board: the fiducials may fit by chance, the parts do not. */
  @Test
  void pictureOfAnotherBoard() {
    Job job = TestPanels.mixed();
    Job other = TestPanels.grid(TestPanels.SO8, 5, 4, 7.5);
    Map<String, Pose> truth = TestPanels.scattered(other, 0, 0, 1);
    try (Picture p = PanelRenderer.render(other, truth, RenderSettings.at(12)).picture()) {
      InputException e =
          assertThrows(
              InputException.class,
              () -> PictureDetection.single(job, p, DetectionOptions.withDefaults()));
      String s = e.problems().get(0).sentence();
      assertTrue(
          s.equals(
                  "rendered.png: neither two fiducials nor the parts of job 'picture test' were"
                      + " found; check that the picture shows this panel, this side, from above")
              || s.matches(
                  "rendered.png: only \\d+ of \\d+ parts are where the job has them; check that the"
                      + " picture shows this panel, this side and this revision"),
          s);
    }
  }

  /** Places in another unit than the parts are said to be, before any long search. */
  @ParameterizedTest
  @CsvSource({
    "0.0254, the placements span 0.74 x 0.62 mm but their bodies fill 225 mm2",
    "25.4, 'the placements span 737 x 625 mm, which leaves the picture at most 0.7 px/mm'"
  })
  void placesInAnotherUnit(double times, String found) {
    Job job = TestPanels.mixed();
    List<Placement> wrong =
        job.placements().stream()
            .map(
                p ->
                    TestPanels.place(
                        p.ref(),
                        job.partType(p.part()),
                        times * p.pose().xMm(),
                        times * p.pose().yMm(),
                        p.pose().rotationDeg()))
            .toList();
    Job other =
        TestPanels.job(wrong, job.fiducials(), job.parts().values().toArray(new PartType[0]));
    try (Picture p =
        PanelRenderer.render(job, TestPanels.scattered(job, 0, 0, 1), RenderSettings.at(12))
            .picture()) {
      InputException e =
          assertThrows(
              InputException.class,
              () -> PictureDetection.single(other, p, DetectionOptions.withDefaults()));
      assertEquals(
          "rendered.png: "
              + found
              + "; check the unit of the placement file (\"units\" in the job)",
          e.problems().get(0).sentence());
    }
  }

  private void assertSentence(String found, byte[] bytes) throws Exception {
    Path p = Files.write(folder.resolve("p.bin"), bytes);
    InputException e = assertThrows(InputException.class, () -> PictureReader.read(p));
    assertEquals(p + ": " + found, e.problems().get(0).sentence());
  }

  private static byte[] encoded(String kind, int type) {
    NativeLibraries.load();
    double v = opencv_core.CV_MAT_DEPTH(type) == opencv_core.CV_16U ? 128 * 257 : 128;
    try (Mat m = new Mat(40, 60, type, new Scalar(v, v, v, v));
        BytePointer out = new BytePointer()) {
      opencv_imgcodecs.imencode(kind, m, out);
      byte[] b = new byte[(int) out.limit()];
      out.get(b);
      return b;
    }
  }
}
