package org.padtrue.web.server;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Supplier;
import org.eclipse.jetty.http.HttpException;

/** Makes pages of templates and views; every text in a view is escaped where it is put. */
public final class Pages {
  private static final String NOTICES = "notices";
  private final TemplateEngine engine =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, Pages.class.getClassLoader(), "org.padtrue.web.pages");
  private final Guard guard;
  private final PageCache cache = new PageCache();

  /** Stands for a session's token in a page that several sessions share. */
  private final String tokenPlace = "token-" + UUID.randomUUID();

  public Pages(Guard guard) {
    this.guard = guard;
  }

  /** Has the page that answers say something above its own content, once. */
  public static void notice(Context ctx, Notice n) {
    List<Notice> before = ctx.attribute(NOTICES);
    List<Notice> all = new ArrayList<>(before == null ? List.of() : before);
    if (!all.contains(n)) {
      all.add(n);
    }
    ctx.attribute(NOTICES, all);
  }

  /**
   * Answers with a whole page: template NAME.jte with parameters {@code frame} and {@code view}.
   */
  public void show(Context ctx, String name, String title, String here, Object view) {
    // who has not entered yet has nothing to leave
    boolean out = guard.asks() && !name.equals("enter");
    PageFrame frame = new PageFrame(title, here, guard.token(ctx), out, notices(ctx));
    html(ctx, name, Map.of("frame", frame, "view", view));
  }

  private static List<Notice> notices(Context ctx) {
    List<Notice> notices = ctx.attribute(NOTICES);
    return notices == null ? List.of() : notices;
  }

  /**
   * Answers with a whole page that many may ask for at once.
   *
   * @param of everything that the view shows; equal lists show the same
   * @param view makes the view when it is not known yet
   */
  public void show(
      Context ctx, String name, String title, String here, List<Object> of, Supplier<Object> view) {
    List<Notice> notices = notices(ctx);
    List<Object> all = new ArrayList<>(of);
    all.addAll(List.of(name, title, here, notices));
    String html =
        cache.get(
            ctx.path() + "?" + ctx.queryString(),
            all,
            () -> {
              PageFrame frame = new PageFrame(title, here, tokenPlace, guard.asks(), notices);
              return made(name, Map.of("frame", frame, "view", view.get()));
            });
    ctx.contentType("text/html; charset=utf-8").result(html.replace(tokenPlace, guard.token(ctx)));
  }

  /** Answers with the session's token, for a page that is older than the server. */
  public void token(Context ctx) {
    ctx.contentType("text/plain; charset=utf-8").result(guard.token(ctx));
  }

  /** Answers with a piece of a page: template NAME.jte with parameter {@code view}. */
  public void piece(Context ctx, String name, Object view) {
    html(ctx, name, Map.of("view", view));
  }

  private void html(Context ctx, String name, Map<String, Object> parameters) {
    ctx.contentType("text/html; charset=utf-8").result(made(name, parameters));
  }

  private String made(String name, Map<String, Object> parameters) {
    StringOutput out = new StringOutput(1 << 15);
    engine.render(name + ".jte", parameters, out);
    return out.toString();
  }

  /** A request that is refused: a page for people, a line for scripts. */
  public void refused(Refusal r, Context ctx) {
    ctx.status(r.status());
    if (r.status() == HttpStatus.UNAUTHORIZED && guard.asks() && wantsPage(ctx)) {
      boolean tried = ctx.path().equals(Guard.ENTER);
      String wanted = ctx.attribute(Guard.TO);
      String to = tried ? Guard.own(ctx.formParam(Guard.TO)) : Guard.own(wanted);
      show(ctx, "enter", "Pass phrase", "", new EnterView(tried ? r.sentence() : "", to));
    } else if (wantsPage(ctx)) {
      show(ctx, "refused", "Not done", "", new RefusedView(r.sentence().lines().toList()));
    } else {
      ctx.contentType("text/plain; charset=utf-8").result(r.sentence());
    }
  }

  public void fault(Exception e, Context ctx) {
    for (Throwable t = e; t != null; t = t.getCause()) {
      if (t instanceof HttpException) {
        refused(Uploads.cutShort(), ctx);
        return;
      }
    }
    if (FullDisk.is(e)) {
      refused(new Refusal(HttpStatus.INSUFFICIENT_STORAGE, FullDisk.SENTENCE), ctx);
      return;
    }
    ctx.status(HttpStatus.INTERNAL_SERVER_ERROR);
    String s =
        "A fault of the program, not of your files ("
            + e.getClass().getSimpleName()
            + "). What was typed before is on disk. Load the page again.";
    if (wantsPage(ctx)) {
      show(ctx, "refused", "Fault", "", new RefusedView(List.of(s)));
    } else {
      ctx.contentType("text/plain; charset=utf-8").result(s);
    }
  }

  public void nothingHere(Context ctx) {
    if (ctx.result() == null || String.valueOf(ctx.result()).isEmpty()) {
      refused(Refusal.notThere("There is no such page."), ctx);
    } else if (String.valueOf(ctx.result()).startsWith("Endpoint")) {
      refused(Refusal.notThere("There is no such page."), ctx);
    }
  }

  private static boolean wantsPage(Context ctx) {
    String accept = ctx.header("Accept");
    return accept != null && accept.contains("text/html") && ctx.header("X-Piece") == null;
  }
}
