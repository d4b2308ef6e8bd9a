package org.padtrue.web.log;

import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.padtrue.history.ArticleEntry;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Times;

/**
 * Which articles of the log are asked for; texts as the form has them, empty for all.
 *
 * @param machine name
 * @param job name
 * @param shift name
 * @param operator name
 * @param from first day, yyyy-mm-dd
 * @param to last day, that day included
 * @param text part of a note, a file name or a reason, upper and lower case alike
 */
public record LogFilter(
    String machine,
    String job,
    String shift,
    String operator,
    String from,
    String to,
    String text) {

  static LogFilter of(Context ctx) {
    return new LogFilter(
        Fields.query(ctx, "machine"),
        Fields.query(ctx, "job"),
        Fields.query(ctx, "shift"),
        Fields.query(ctx, "operator"),
        Fields.query(ctx, "from"),
        Fields.query(ctx, "to"),
        Fields.query(ctx, "text"));
  }

  /** True when nothing is asked for. */
  public boolean open() {
    return fields().values().stream().allMatch(String::isEmpty);
  }

  /** What is wrong with it, one sentence each; a wrong day is then not looked at. */
  List<String> problems() {
    List<String> all = new ArrayList<>();
    for (String day : List.of(from, to)) {
      if (!day.isEmpty() && Times.day(day, 0).isEmpty()) {
        all.add("'" + day + "' is no day; write it like 2026-03-02.");
      }
    }
    return all;
  }

  boolean takes(ArticleEntry e) {
    return same(machine, e.machine())
        && same(job, e.job())
        && same(shift, e.conditions().shift())
        && same(operator, e.conditions().operator())
        && within(e.measuredAt())
        && (text.isEmpty() || has(e.notes()) || has(e.file()) || has(e.reason()));
  }

  private static boolean same(String wanted, String is) {
    return wanted.isEmpty() || wanted.equals(is);
  }

  private boolean within(Instant t) {
    boolean early = Times.day(from, 0).map(t::isBefore).orElse(false);
    boolean late = Times.day(to, 1).map(d -> !t.isBefore(d)).orElse(false);
    return !early && !late;
  }

  private boolean has(String s) {
    return s.toLowerCase(Locale.ROOT).contains(text.toLowerCase(Locale.ROOT));
  }

  private Map<String, String> fields() {
    Map<String, String> m = new LinkedHashMap<>();
    m.put("machine", machine);
    m.put("job", job);
    m.put("shift", shift);
    m.put("operator", operator);
    m.put("from", from);
    m.put("to", to);
    m.put("text", text);
    return m;
  }

  /** Address of a page of the list. */
  String address(int page) {
    Map<String, String> m = fields();
    m.put("page", page <= 1 ? "" : Integer.toString(page));
    return address("/log", m);
  }

  /** An address with its query, the empty fields left out. */
  static String address(String path, Map<String, String> query) {
    StringBuilder b = new StringBuilder(path);
    query.forEach(
        (k, v) -> {
          if (!v.isEmpty()) {
            b.append(b.indexOf("?") < 0 ? '?' : '&').append(k).append('=');
            b.append(URLEncoder.encode(v, StandardCharsets.UTF_8));
          }
        });
    return b.toString();
  }
}
