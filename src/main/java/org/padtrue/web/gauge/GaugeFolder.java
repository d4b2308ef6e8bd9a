package org.padtrue.web.gauge;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.web.kept.Aside;
import org.padtrue.web.server.FileNames;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.Secret;

/**
 * A study in a job's folder, {@code gauge/ID/readings.csv}: the form as it is filled in. It is
 * written aside and moved whenever a session is kept.
 */
final class GaugeFolder {
  private static final String FOLDER = "gauge";
  private static final String FILE = "readings.csv";
  static final String HEAD = "session,ref,operator,trial,turned,dx (mm),dy (mm),drotation";

  private final String id;
  private final Path file;

  private GaugeFolder(String id, Path file) {
    this.id = id;
    this.file = file;
  }

  String id() {
    return id;
  }

  /** Studies of a job, the newest first. */
  static List<GaugeFolder> all(Path job) throws IOException {
    Path folder = job.resolve(FOLDER);
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> s = Files.list(folder)) {
      return s.filter(p -> FileNames.isId(String.valueOf(p.getFileName())))
          .filter(p -> Files.isRegularFile(p.resolve(FILE)))
          .sorted(Comparator.comparing(GaugeFolder::changed).reversed())
          .map(p -> new GaugeFolder(String.valueOf(p.getFileName()), p.resolve(FILE)))
          .toList();
    }
  }

  private static long changed(Path p) {
    try {
      return Files.getLastModifiedTime(p.resolve(FILE)).toMillis();
    } catch (IOException e) {
      return 0;
    }
  }

  static GaugeFolder of(Path job, String id) {
    Path file = job.resolve(FOLDER).resolve(FileNames.id(id)).resolve(FILE);
    if (!Files.isRegularFile(file)) {
      throw Refusal.notThere("There is no such gauge study in this job.");
    }
    return new GaugeFolder(id, file);
  }

  /** A new study: made aside, and moved to its place when it is whole. */
  static synchronized GaugeFolder make(Path job, List<GaugeRow> rows) throws IOException {
    Path folder = Files.createDirectories(job.resolve(FOLDER));
    int n = 1;
    while (Files.exists(folder.resolve("study-" + n))) {
      n++;
    }
    Path aside = Files.createDirectory(folder.resolve("." + Secret.name() + ".part"));
    Aside.write(aside.resolve(FILE), text(rows));
    Path to = folder.resolve("study-" + n);
    Files.move(aside, to, StandardCopyOption.ATOMIC_MOVE);
    return new GaugeFolder("study-" + n, to.resolve(FILE));
  }

  private static String text(List<GaugeRow> rows) {
    return rows.stream().map(GaugeRow::csv).collect(Collectors.joining("\n", HEAD + "\n", "\n"));
  }

  String csv() throws IOException {
    return Files.readString(file);
  }

  List<GaugeRow> rows() throws IOException {
    List<GaugeRow> rows = new ArrayList<>();
    try {
      for (String line : Files.readAllLines(file).stream().skip(1).toList()) {
        List<String> c = cells(line);
        rows.add(
            new GaugeRow(
                Integer.parseInt(c.get(0)),
                c.get(1),
                c.get(2),
                Integer.parseInt(c.get(3)),
                Integer.parseInt(c.get(4)),
                number(c.get(5)),
                number(c.get(6)),
                number(c.get(7))));
      }
    } catch (NumberFormatException | IndexOutOfBoundsException e) {
      throw new InputException(
          Problem.of(id, "the readings of this gauge study cannot be read", "begin a new one"));
    }
    return rows;
  }

  private static double number(String s) {
    return s.isEmpty() ? Double.NaN : Double.parseDouble(s);
  }

  /** Cells of a line as {@link GaugeRow#csv} writes it. */
  static List<String> cells(String line) {
    List<String> cells = new ArrayList<>();
    StringBuilder cell = new StringBuilder();
    boolean quoted = false;
    for (int i = 0; i < line.length(); i++) {
      char ch = line.charAt(i);
      if (ch == '"') {
        boolean twice = quoted && i + 1 < line.length() && line.charAt(i + 1) == '"';
        if (twice) {
          cell.append(ch);
          i++;
        } else {
          quoted = !quoted;
        }
      } else if (ch == ',' && !quoted) {
        cells.add(cell.toString());
        cell.setLength(0);
      } else {
        cell.append(ch);
      }
    }
    cells.add(cell.toString());
    return cells;
  }

  /**
   * Takes readings by their place in the form; when this returns, they are on disk. Nothing is
   * taken when another page kept something else at one of them that was not seen.
   *
   * @param typed readings as typed: dx, dy, rotation
   * @param seen what the page showed, by the same places; empty where it does not say
   * @return places where something else stands, which then nothing is stored over
   */
  static List<Integer> keep(
      GaugeFolder study, Map<Integer, double[]> typed, Map<Integer, String> seen)
      throws IOException {
    synchronized (GaugeFolder.class) {
      List<GaugeRow> rows = new ArrayList<>(study.rows());
      List<Integer> clashes = new ArrayList<>();
      for (Map.Entry<Integer, double[]> e : typed.entrySet()) {
        int i = e.getKey();
        double[] v = e.getValue();
        GaugeRow stands = rows.get(i);
        GaugeRow mine = stands.with(v[0], v[1], v[2]);
        String saw = seen.getOrDefault(i, "");
        boolean unseen = !saw.isEmpty() && !saw.equals(stands.values());
        if (unseen && mine.values().equals(saw)) {
          // not touched here: what another page kept stays
          continue;
        }
        if (unseen && !mine.values().equals(stands.values())) {
          clashes.add(i);
        }
        rows.set(i, mine);
      }
      if (clashes.isEmpty()) {
        Aside.write(study.file, text(rows));
      }
      return clashes;
    }
  }
}
