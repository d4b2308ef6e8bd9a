package org.padtrue.report.words;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.padtrue.imaging.DetectionResult;
import org.padtrue.imaging.camera.ReversalResult;
import org.padtrue.imaging.map.MapReport;
import org.padtrue.imaging.map.MarkReport;
import org.padtrue.imaging.map.RegisteredOn;
import org.padtrue.imaging.pose.PlacementReading;
import org.padtrue.imaging.pose.ReadingStatus;

/** What detection found, for the console: the map, the poses, what cannot be known. */
public final class DetectionSummary {
  private static final int MOST_LINES = 15;

  private final List<String> lines = new ArrayList<>();

  private DetectionSummary() {}

  public static List<String> of(DetectionResult r, boolean placesTakenAsExact) {
    DetectionSummary s = new DetectionSummary();
    boolean closeUps = r.maps().stream().allMatch(m -> m.registeredOn() == RegisteredOn.CAMERA);
    if (closeUps) {
      s.lines.add("Close-ups   " + r.maps().size() + ", placed by the camera's position");
    } else {
      r.maps().forEach(s::map);
    }
    s.counts(r);
    s.uncertainty(r);
    r.reversal().ifPresent(s::reversal);
    if (placesTakenAsExact) {
      s.lines.add(
          "Note        the camera's position was taken as exact; --axis-u states its error");
    }
    if (r.partsRegistered()) {
      s.lines.add(
          "Not known   panel offset and rotation: the picture was registered on the parts"
              + " themselves; type offsets and scatter remain");
    }
    r.notes().stream().distinct().forEach(n -> s.lines.add("Note        " + n));
    return s.lines;
  }

  private void map(MapReport m) {
    lines.add("Picture     " + m.picture());
    lines.add(
        String.format(
            Locale.ROOT,
            "  registered on %s; %s%s, %.2f px/mm, turned %.2f degrees, tilt %.1f degrees",
            m.registeredOn().word(),
            m.family().word(),
            m.mirrored() ? ", mirrored" : "",
            m.pxPerMm(),
            m.rotationDeg(),
            m.tiltDeg()));
    lines.add(
        Double.isNaN(m.residualMm())
            ? String.format(
                Locale.ROOT,
                "  residual  none: nothing is left over to check the map by; map known to %.1f um",
                1000 * m.uncertaintyMm())
            : String.format(
                Locale.ROOT,
                "  residual  %.1f um with %d to spare; map known to %.1f um",
                1000 * m.residualMm(),
                m.redundancy(),
                1000 * m.uncertaintyMm()));
    for (MarkReport f : m.marks()) {
      lines.add("  " + mark(f));
    }
  }

  private static String mark(MarkReport f) {
    String what = f.used() ? "used" : "not used";
    String off =
        Double.isNaN(f.residualMm())
            ? ""
            : String.format(Locale.ROOT, ", off %.1f um", 1000 * f.residualMm());
    return String.format(Locale.ROOT, "fiducial %s %s%s; %s", f.name(), what, off, f.note());
  }

  private void counts(DetectionResult r) {
    StringBuilder b = new StringBuilder("Placements  ");
    b.append(r.count(ReadingStatus.FOUND)).append(" of ").append(r.readings().size());
    b.append(" measured");
    for (ReadingStatus s : ReadingStatus.values()) {
      if (s != ReadingStatus.FOUND && r.count(s) > 0) {
        b.append(", ").append(r.count(s)).append(' ').append(s.words());
      }
    }
    lines.add(b.toString());
    List<PlacementReading> open =
        r.worstFirst().stream().filter(p -> p.status() != ReadingStatus.FOUND).toList();
    open.stream().limit(MOST_LINES).forEach(p -> lines.add("  " + line(p)));
    if (open.size() > MOST_LINES) {
      lines.add("  and " + (open.size() - MOST_LINES) + " more, see the notes of the article");
    }
  }

  private static String line(PlacementReading p) {
    String note = p.note().isEmpty() ? "" : ": " + p.note();
    return p.panel() + " " + p.id() + "  " + p.status().words() + note;
  }

  private void uncertainty(DetectionResult r) {
    double[] u = sorted(r, true);
    double[] turn = sorted(r, false);
    if (u.length == 0) {
      return;
    }
    lines.add(
        String.format(
            Locale.ROOT,
            "Uncertainty position median %.1f um, largest %.1f um; rotation median %.2f degrees",
            1000 * u[u.length / 2],
            1000 * u[u.length - 1],
            turn.length == 0 ? Double.NaN : turn[turn.length / 2]));
  }

  private static double[] sorted(DetectionResult r, boolean position) {
    double[] v =
        r.readings().stream()
            .filter(p -> p.status() == ReadingStatus.FOUND)
            .mapToDouble(p -> position ? p.uMm() : p.uRotationDeg())
            .filter(Double::isFinite)
            .toArray();
    Arrays.sort(v);
    return v;
  }

  private void reversal(ReversalResult v) {
    if (v.bend() == null) {
      return;
    }
    lines.add(
        String.format(
            Locale.ROOT,
            "Device      bends up to %.0f um over the panel (taken out); left %.1f um",
            1000 * v.deviceMm(),
            1000 * v.residualMm()));
  }
}
