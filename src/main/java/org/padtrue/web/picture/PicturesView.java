package org.padtrue.web.picture;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.padtrue.panel.Job;
import org.padtrue.report.words.ResultWords;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.bench.Entry;
import org.padtrue.web.bench.MapView;
import org.padtrue.web.server.ShownNumbers;

/**
 * The page of an article's pictures.
 *
 * @param id article
 * @param name its name
 * @param job id of its job
 * @param jobName its name
 * @param running true while pictures are measured
 * @param done placements looked at
 * @param all placements to look at
 * @param stage what is done meanwhile, in words; empty where the numbers say it
 * @param problems why nothing came of it
 * @param shots the pictures with their outlines
 * @param cards one for every reading, worst first
 * @param open readings found that nobody has decided about
 * @param doubtful doubtful ones with a position that nobody has decided about
 * @param counts how many of what, in words
 * @param notes what a reader should know
 * @param kept what pictures may be measured with
 */
public record PicturesView(
    String id,
    String name,
    String job,
    String jobName,
    boolean running,
    int done,
    int all,
    String stage,
    List<String> problems,
    List<ShotView> shots,
    List<Card> cards,
    int open,
    int doubtful,
    String counts,
    List<String> notes,
    Kept kept) {
  static final String ACCEPTED = "accepted in ";
  static final String MOVED = "moved in ";
  static final String REJECTED = "rejected in a picture";
  private static final double AROUND = 1.6;

  /** What a person said of a reading. */
  enum Verdict {
    ACCEPTED,
    MOVED,
    REJECTED
  }

  /**
   * What is kept for measuring.
   *
   * @param cameras names of cameras
   * @param taught part types of which the job has taught looks
   * @param device true when these pictures told about their device
   */
  public record Kept(List<String> cameras, List<String> taught, boolean device) {
    public Kept {
      cameras = List.copyOf(cameras);
      taught = List.copyOf(taught);
    }
  }

  /** A picture with the outlines of its readings. */
  public record ShotView(
      int number, String file, int width, int height, String sentence, List<Card> cards) {}

  /**
   * One reading with its crop.
   *
   * @param box view box of the crop, px
   * @param points outline, px
   * @param xPx middle of the outline, px
   * @param yPx middle of the outline, px
   */
  public record Card(
      String key,
      String label,
      String part,
      String status,
      String kind,
      String value,
      String note,
      String verdict,
      int shot,
      int width,
      int height,
      String box,
      String points,
      String xPx,
      String yPx) {}

  static PicturesView of(
      BenchArticle a,
      Job job,
      PictureWork.Progress p,
      @Nullable PictureReadings readings,
      Kept kept) {
    List<ShotView> shots = new ArrayList<>();
    List<Card> cards = new ArrayList<>();
    int open = 0;
    int doubtful = 0;
    Map<String, Integer> counts = new java.util.TreeMap<>();
    if (readings != null) {
      Map<String, Verdict> said = verdicts(a);
      for (PictureReading q : readings.readings()) {
        counts.merge(q.status(), 1, Integer::sum);
        open += q.status().equals(PictureReading.FOUND) && !said.containsKey(q.key()) ? 1 : 0;
        boolean unsure = q.status().equals(PictureReading.DOUBTFUL) && q.measured();
        doubtful += unsure && !said.containsKey(q.key()) ? 1 : 0;
        cards.add(card(q, job, readings.shots(), said.get(q.key())));
      }
      for (int i = 0; i < readings.shots().size(); i++) {
        Shot s = readings.shots().get(i);
        int n = i + 1;
        List<Card> own = cards.stream().filter(c -> c.shot() == n).toList();
        shots.add(new ShotView(n, s.file(), s.width(), s.height(), s.sentence(), own));
      }
    }
    StringBuilder words = new StringBuilder();
    counts.forEach((k, v) -> words.append(words.isEmpty() ? "" : ", ").append(v + " " + k));
    return new PicturesView(
        a.id(),
        a.about().name(),
        a.about().job(),
        job.name(),
        p.running(),
        p.done(),
        p.all(),
        p.stage(),
        p.problems(),
        shots,
        cards,
        open,
        doubtful,
        words.toString(),
        readings == null ? List.of() : readings.notes().stream().map(PicturesView::words).toList(),
        kept);
  }

  /** A note of the detection for a page: what stands behind a ± is said. */
  static String words(String note) {
    String s = ResultWords.page(note);
    return s.contains("\u00b1") ? s + " (behind \u00b1 one standard error)" : s;
  }

  /** What was said of readings, by placement. */
  static Map<String, Verdict> verdicts(BenchArticle a) {
    Map<String, Verdict> m = new HashMap<>();
    for (Entry e : a.journal().since(0)) {
      if (e.text().startsWith(ACCEPTED)) {
        m.put(e.placement(), Verdict.ACCEPTED);
      } else if (e.text().startsWith(MOVED)) {
        m.put(e.placement(), Verdict.MOVED);
      } else if (e.text().equals(REJECTED)) {
        m.put(e.placement(), Verdict.REJECTED);
      }
    }
    return m;
  }

  /** The crop of one placement, or null when no picture shows it. */
  public static @Nullable Card card(PictureReadings readings, Job job, String key) {
    return readings.readings().stream()
        .filter(q -> q.key().equals(key) && q.shot() >= 0 && Double.isFinite(q.xPx()))
        .findFirst()
        .map(q -> card(q, job, readings.shots(), null))
        .orElse(null);
  }

  private static Card card(PictureReading q, Job job, List<Shot> shots, @Nullable Verdict said) {
    boolean boards = job.array().boards().size() > 1;
    String[] at = q.key().split("/", 4);
    String label =
        (at[0].equals("P1") ? "" : at[0] + " ")
            + (boards ? at[1] + "/" + at[2] + "/" + at[3] : at[3]);
    String value =
        q.measured()
            ? "x "
                + ShownNumbers.um(q.dxMm())
                + ", y "
                + ShownNumbers.um(q.dyMm())
                + " \u00b5m, "
                + ShownNumbers.signed(q.dRotationDeg(), 2)
                + "\u00b0; u "
                + ShownNumbers.number(q.uMm() * 1000, 1)
                + " \u00b5m"
            : "not measured";
    String verdict = said == null ? "" : said.name().toLowerCase(java.util.Locale.ROOT);
    String kind = q.status().replace(' ', '-');
    if (q.shot() < 0 || !Double.isFinite(q.xPx())) {
      return new Card(
          q.key(),
          label,
          q.part(),
          q.status(),
          kind,
          value,
          q.note(),
          verdict,
          0,
          0,
          0,
          "",
          "",
          "",
          "");
    }
    Shot s = shots.get(q.shot());
    double half = AROUND * Math.max(1, Math.max(q.length(), q.width())) * s.pxPerMm() / 2 + 6;
    return new Card(
        q.key(),
        label,
        q.part(),
        q.status(),
        kind,
        value,
        q.note(),
        verdict,
        q.shot() + 1,
        s.width(),
        s.height(),
        MapView.number(q.xPx() - half)
            + " "
            + MapView.number(q.yPx() - half)
            + " "
            + MapView.number(2 * half)
            + " "
            + MapView.number(2 * half),
        points(q, s),
        MapView.number(q.xPx()),
        MapView.number(q.yPx()));
  }

  /** Corners of the outline around the reading's middle, px. */
  private static String points(PictureReading q, Shot s) {
    double c = org.padtrue.quantity.Angles.cosDeg(q.poseDeg());
    double n = org.padtrue.quantity.Angles.sinDeg(q.poseDeg());
    StringBuilder b = new StringBuilder();
    for (int[] corner : new int[][] {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
      double x = corner[0] * q.length() / 2;
      double y = corner[1] * q.width() / 2;
      double[] d = s.toPicture(c * x - n * y, n * x + c * y);
      b.append(b.isEmpty() ? "" : " ");
      b.append(MapView.number(q.xPx() + d[0])).append(',').append(MapView.number(q.yPx() + d[1]));
    }
    return b.toString();
  }
}
