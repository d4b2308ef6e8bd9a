package org.padtrue.load.corrected;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.padtrue.load.job.JobText;
import org.padtrue.load.job.JobTextReader;
import org.padtrue.load.text.ProblemList;
import org.padtrue.load.text.TextFile;

/** The files that a job is made of: itself and those that it names. */
public final class CorrectedFileInputs {
  private CorrectedFileInputs() {}

  /** The job file, its placement file, its parts file and its bill of materials. */
  public static List<Path> of(Path job) {
    JobText text = JobTextReader.read(TextFile.read(job), new ProblemList(job.toString()));
    List<Path> files = new ArrayList<>();
    files.add(job);
    if (!text.placements().isEmpty()) {
      files.add(job.resolveSibling(text.placements()));
    }
    if (text.parts() != null) {
      files.add(job.resolveSibling(text.parts()));
    }
    JobText.BomText bom = text.bom();
    if (bom != null) {
      files.add(job.resolveSibling(bom.file()));
    }
    return files;
  }
}
