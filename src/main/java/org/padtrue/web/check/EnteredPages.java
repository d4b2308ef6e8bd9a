package org.padtrue.web.check;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.padtrue.apply.EnteredLine;
import org.padtrue.firstarticle.result.TrimLine;
import org.padtrue.quantity.LengthUnit;
import org.padtrue.report.json.StoredAnalysis;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.BenchArticle;
import org.padtrue.web.kept.Before;
import org.padtrue.web.kept.Entered;
import org.padtrue.web.server.Fields;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.TypedNumbers;

/** Which trims were entered before a panel was placed, and with which values. */
public final class EnteredPages {
  private static final double MOST_MM = 1000;
  private static final double MOST_DEG = 360;
  private static final double MOST_PPM = 1e6;

  private final Bench bench;

  public EnteredPages(Bench bench) {
    this.bench = bench;
  }

  public void routes(RoutesConfig routes) {
    routes.get("/articles/{article}/entered", this::page);
    routes.post("/articles/{article}/entered", this::say);
  }

  private static StoredAnalysis before(BenchArticle a) {
    if (a.about().after().isEmpty() || !Before.in(a.folder())) {
      throw Refusal.notThere(
          "Nobody said which article's trims were entered before "
              + a.about().name()
              + "; say that first, under Check.");
    }
    return Before.read(a.folder());
  }

  private void page(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    List<TrimLine> sheet = before(a).trims();
    String name = bench.workspace().nameOf(a.about().after());
    EnteredView view = EnteredView.of(a, name, sheet, Entered.read(a.folder(), sheet));
    bench.pages().show(ctx, "entered", "Entered before " + a.about().name(), "jobs", view);
  }

  private void say(Context ctx) throws IOException {
    BenchArticle a = bench.article(ctx);
    List<TrimLine> sheet = before(a).trims();
    List<EnteredLine> lines = new ArrayList<>();
    for (int i = 0; i < sheet.size(); i++) {
      lines.add(line(ctx, i, sheet.get(i)));
    }
    if (lines.stream().noneMatch(EnteredLine::entered)) {
      throw Refusal.bad(
          "No trim is ticked as entered. If this panel was placed without any, say under Check"
              + " that it was not placed with these trims.");
    }
    Entered.write(a.folder(), lines);
    ctx.redirect("/articles/" + a.id() + "/check", HttpStatus.SEE_OTHER);
  }

  private static EnteredLine line(Context ctx, int i, TrimLine t) {
    if (!Fields.line(ctx, "entered" + i).equals("yes")) {
      return EnteredLine.not(t);
    }
    boolean ppm = t.unit().startsWith("ppm");
    return new EnteredLine(
        true,
        value(ctx, "x" + i, t, t.addX(), ppm),
        value(ctx, "y" + i, t, t.addY(), ppm),
        Double.isNaN(t.addRotation())
            ? Double.NaN
            : within(degrees(Fields.line(ctx, "rotation" + i), t), MOST_DEG, "degrees", t),
        t.addTurn() == 0 ? 0 : turn(Fields.line(ctx, "turn" + i), t),
        Double.isNaN(t.addSquareness())
            ? Double.NaN
            : within(plain(Fields.line(ctx, "squareness" + i), t), MOST_MM, "mrad", t));
  }

  private static double value(Context ctx, String name, TrimLine t, double proposed, boolean ppm) {
    if (Double.isNaN(proposed)) {
      return Double.NaN;
    }
    String text = Fields.line(ctx, name);
    return ppm
        ? within(plain(text, t), MOST_PPM, "ppm", t)
        : within(
            text.isEmpty() ? 0 : TypedNumbers.mm(text, LengthUnit.MM).orElseThrow(no(text, t)),
            MOST_MM,
            "mm",
            t);
  }

  private static double degrees(String text, TrimLine t) {
    return text.isEmpty() ? 0 : TypedNumbers.degrees(text).orElseThrow(no(text, t));
  }

  private static double plain(String text, TrimLine t) {
    return text.isEmpty() ? 0 : TypedNumbers.plain(text).orElseThrow(no(text, t));
  }

  private static int turn(String text, TrimLine t) {
    if (!text.matches("0|90|180|270")) {
      throw Refusal.bad("The turn of " + t.where() + " is 0, 90, 180 or 270 degrees.");
    }
    return Integer.parseInt(text);
  }

  private static java.util.function.Supplier<Refusal> no(String text, TrimLine t) {
    return () ->
        Refusal.bad("'" + text + "' at " + t.where() + " is no number; write digits, like -0.025.");
  }

  private static double within(double v, double most, String unit, TrimLine t) {
    if (!(Math.abs(v) <= most)) {
      throw Refusal.bad(
          "What was entered at "
              + t.where()
              + " is beyond "
              + (long) most
              + " "
              + unit
              + "; correct it.");
    }
    return v;
  }
}
