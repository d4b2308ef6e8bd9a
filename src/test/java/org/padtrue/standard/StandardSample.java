package org.padtrue.standard;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.padtrue.load.job.JobLoader;
import org.padtrue.panel.Fiducial;
import org.padtrue.panel.Job;
import org.padtrue.panel.PartType;
import org.padtrue.panel.Placement;
import org.padtrue.panel.Side;

/** Makes samples/standards from the main sample, with three invented parts on the bottom. */
public final class StandardSample {
  static final Path FOLDER = Path.of("samples/standards");

  private StandardSample() {}

  /** The main sample's job. */
  static Job mainJob() {
    return JobLoader.load(Path.of("samples/main-job/job.json")).orThrow();
  }

  static StandardWriter board() {
    Job job = mainJob();
    StandardWriter w = new StandardWriter();
    for (Placement p : job.placements()) {
      PartType t = job.parts().get(p.part());
      w.types.put(p.part(), t);
      w.parts.add(
          new StandardWriter.Part(
              p.ref(),
              p.part(),
              "",
              Side.TOP,
              p.pose().xMm(),
              p.pose().yMm(),
              p.pose().rotationDeg()));
    }
    w.parts.add(new StandardWriter.Part("R901", "R0603", "10k", Side.BOTTOM, 12.5, 20, 90));
    w.parts.add(new StandardWriter.Part("R902", "R0603", "10k", Side.BOTTOM, 30, 11.25, 0));
    w.parts.add(new StandardWriter.Part("R903", "R0603", "4k7", Side.BOTTOM, 41.1, 27.3, 30));
    w.panel =
        new StandardWriter.Panel(
            6,
            6,
            3,
            2,
            50,
            38,
            job.fiducials().stream()
                .filter(f -> f.scope() == Fiducial.Scope.PANEL)
                .map(f -> new StandardWriter.Mark(f.xMm(), f.yMm(), f.diameterMm()))
                .toList());
    return w;
  }

  static Map<String, String> files() {
    StandardWriter w = board();
    Map<String, String> m = new LinkedHashMap<>();
    m.put("board.xml", w.ipc());
    StandardWriter.Panel panel = w.panel;
    w.panel = new StandardWriter.Panel(0, 0, 0, 0, 0, 0, panel.marks());
    m.put("board-top.gbr", w.gerber(Side.TOP));
    m.put("board-bottom.gbr", w.gerber(Side.BOTTOM));
    m.put(
        "job.json",
        """
        {
          "name": "Tide gauge logger, from IPC-2581",
          "placements": "board.xml",
          "parts": "../main-job/parts.json"
        }
        """);
    return m;
  }

  /** Writes them. */
  public static void main(String[] args) throws IOException {
    Files.createDirectories(FOLDER);
    for (Map.Entry<String, String> f : files().entrySet()) {
      Files.writeString(FOLDER.resolve(f.getKey()), f.getValue(), StandardCharsets.UTF_8);
    }
  }
}
