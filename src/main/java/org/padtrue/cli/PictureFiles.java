package org.padtrue.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.padtrue.imaging.DetectionResult;
import org.padtrue.imaging.Overlay;
import org.padtrue.imaging.picture.OpenPicture;
import org.padtrue.panel.Job;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;

/** The pictures beside an article that show what was measured. */
record PictureFiles(Path folder, String stem) {
  private static final int CROPS = 64;

  static PictureFiles beside(Path article) {
    Path full = article.toAbsolutePath();
    String name = String.valueOf(full.getFileName()).replaceFirst("\\.[^.]*$", "");
    Path parent = article.getParent();
    return new PictureFiles(parent == null ? Path.of("") : parent, name);
  }

  /** Writes sheets of crops of all close-ups together, the worst first, and names the files. */
  List<Path> writeJoint(Job job, DetectionResult r, List<Path> pictures) {
    List<Path> done = new ArrayList<>();
    try {
      if (!folder.toString().isEmpty()) {
        Files.createDirectories(folder);
      }
      long shown = r.worstFirst().stream().filter(q -> q.picture() >= 0).count();
      for (int from = 0; from < Math.max(1, shown); from += CROPS) {
        String number = from == 0 ? "" : "-" + (from / CROPS + 1);
        Path sheet = folder.resolve(stem + "-crops" + number + ".png");
        Overlay.sheet(job, r, pictures, from, CROPS, sheet);
        done.add(sheet);
      }
    } catch (IOException e) {
      throw unwritable("-crops.png");
    }
    return done;
  }

  private InputException unwritable(String ending) {
    return new InputException(
        Problem.of(
            folder.resolve(stem + ending).toString(),
            "the file cannot be written",
            "choose another place with --out"));
  }

  /** Writes one overlay and one sheet of crops for each picture and names the files. */
  List<Path> write(Job job, DetectionResult r, List<Path> pictures, OpenPicture open) {
    List<Path> done = new ArrayList<>();
    try {
      if (!folder.toString().isEmpty()) {
        Files.createDirectories(folder);
      }
      for (int i = 0; i < pictures.size(); i++) {
        String number = pictures.size() == 1 ? "" : "-" + (i + 1);
        Path whole = folder.resolve(stem + "-overlay" + number + ".png");
        Path sheet = folder.resolve(stem + "-crops" + number + ".png");
        Overlay.both(job, r, open, pictures.get(i), i, CROPS, whole, sheet);
        done.add(whole);
        done.add(sheet);
      }
    } catch (IOException e) {
      throw unwritable("-overlay.png");
    }
    return done;
  }
}
