package org.padtrue.web.room;

import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Set;
import java.util.TreeSet;
import org.padtrue.apply.RoomAnswer;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.room.RoomOptions;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/**
 * What a person asks for, as typed.
 *
 * @param article id of an article; empty = as drawn
 * @param gap mm
 * @param probability with which it is kept
 * @param max longest move, mm
 * @param fix refs or part types that stay
 * @param turn refs or part types that may be turned
 */
record RoomAsked(
    String article, String gap, String probability, String max, String fix, String turn) {
  private static final double MOST_MM = 100;

  static RoomAsked of(Context ctx) {
    return new RoomAsked(
        Fields.query(ctx, "article"),
        or(ctx, "gap", RoomOptions.GAP_MM),
        or(ctx, "probability", RoomOptions.PROBABILITY),
        or(ctx, "max", RoomOptions.MAX_MM),
        Fields.query(ctx, "fix"),
        Fields.query(ctx, "turn"));
  }

  private static String or(Context ctx, String field, double otherwise) {
    String s = Fields.query(ctx, field);
    return s.isEmpty() ? Double.toString(otherwise) : s;
  }

  /** The numbers, or a refusal that names the field. */
  RoomAnswer.Asked numbers() {
    double g = length(gap, "gap");
    double m = length(max, "longest move");
    double p =
        TypedNumbers.plain(probability)
            .orElseThrow(() -> Refusal.bad("'" + probability + "' is no probability; write 0.99."));
    require(g >= 0 && g < MOST_MM, "The gap is 0 to 100 mm.");
    require(p > 0.5 && p < 1, "The probability is more than 0.5 and less than 1, such as 0.99.");
    require(m > 0 && m < MOST_MM, "The longest move is more than 0 and less than 100 mm.");
    return new RoomAnswer.Asked(g, p, m, names(fix), names(turn), false);
  }

  private static double length(String text, String field) {
    return TypedNumbers.mm(text, LengthUnit.MM)
        .orElseThrow(
            () ->
                Refusal.bad(
                    "'" + text + "' is no length for the " + field + "; write mm, as 0.1."));
  }

  private static void require(boolean good, String sentence) {
    if (!good) {
      throw Refusal.bad(sentence);
    }
  }

  private static Set<String> names(String text) {
    Set<String> out = new TreeSet<>();
    Arrays.stream(text.split("\\s*[,;]\\s*|\\s+")).filter(s -> !s.isBlank()).forEach(out::add);
    return out;
  }

  String query() {
    return "?article="
        + encoded(article)
        + "&gap="
        + encoded(gap)
        + "&probability="
        + encoded(probability)
        + "&max="
        + encoded(max)
        + "&fix="
        + encoded(fix)
        + "&turn="
        + encoded(turn);
  }

  private static String encoded(String s) {
    return URLEncoder.encode(s, StandardCharsets.UTF_8);
  }
}
