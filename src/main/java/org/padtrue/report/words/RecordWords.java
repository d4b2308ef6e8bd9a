package org.padtrue.report.words;

import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.padtrue.drift.hint.SeriesWords;
import org.padtrue.history.LoggedArticle;
import org.padtrue.history.LoggedPlacement;
import org.padtrue.history.LoggedTrim;

/** Says what was recorded. */
public final class RecordWords {
  private static final int MOST_TRIMS = 4;

  private RecordWords() {}

  public static List<String> of(long id, @Nullable Long corrects, LoggedArticle a, String history) {
    List<String> lines = new ArrayList<>();
    long used = a.placements().stream().filter(LoggedPlacement::used).count();
    lines.add(
        TextTable.plain(
            "recorded as number "
                + id
                + (corrects == null ? "" : ", in place of " + corrects)
                + ": "
                + a.file()
                + ", machine "
                + a.machine()
                + ", "
                + a.measuredAt().truncatedTo(ChronoUnit.SECONDS)
                + ", "
                + a.placements().size()
                + " placements, "
                + used
                + " used"));
    if (!a.faults().isEmpty()) {
      lines.add("marked as faults: " + ResultWords.faults(a.faults()));
    }
    if (!a.trims().isEmpty()) {
      lines.add(TextTable.plain("ADDED before it: " + trims(a.trims())));
    }
    if (Double.isNaN(a.conditions().temperatureC())) {
      lines.add("no temperature: drift with temperature cannot be told from drift in time");
    }
    lines.add(
        TextTable.plain(
            "log: " + history.replaceFirst("\\?.*", "").replaceFirst("//[^@/]*@", "//")));
    return lines;
  }

  /** With its sign: lengths in um as everywhere on the console. */
  private static String amount(double v, String unit) {
    return switch (unit) {
      case "mm" -> signed(1000 * v, 1) + " um";
      case "ppm" -> signed(v, 1) + " ppm";
      default -> signed(v, 4) + " " + unit;
    };
  }

  private static String signed(double v, int decimals) {
    String s = String.format(Locale.ROOT, "%+." + decimals + "f", v);
    return s.replaceAll("(\\.\\d*?)0+$", "$1").replaceAll("\\.$", "");
  }

  private static String trims(List<LoggedTrim> trims) {
    List<String> some = new ArrayList<>();
    for (LoggedTrim t : trims.subList(0, Math.min(MOST_TRIMS, trims.size()))) {
      some.add(
          String.format(
              Locale.ROOT, "%s %s", SeriesWords.name(t.name()), amount(t.increment(), t.unit())));
    }
    int more = trims.size() - some.size();
    return String.join(", ", some) + (more > 0 ? " and " + more + " more" : "");
  }
}
