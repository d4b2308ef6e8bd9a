package org.padtrue.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import org.padtrue.web.help.Handbook;
import org.padtrue.web.help.HelpPage;
import org.padtrue.web.help.HelpView;
import org.padtrue.web.server.Pages;
import org.padtrue.web.server.Refusal;

/** The handbook: its pages and pictures by their names, nothing else. */
final class HelpPages {
  private final Pages pages;

  HelpPages(Pages pages) {
    this.pages = pages;
  }

  void routes(RoutesConfig routes) {
    routes.get("/help", ctx -> show(ctx, Handbook.START));
    routes.get("/help/{page}", ctx -> show(ctx, ctx.pathParam("page")));
    routes.get("/help/images/{name}", HelpPages::picture);
  }

  private void show(Context ctx, String name) {
    Handbook book = Handbook.get();
    HelpPage page = book.page(name).orElseThrow(() -> Refusal.notThere("There is no such page."));
    pages.show(ctx, "help", page.title(), "help", new HelpView(book.pages(), page));
  }

  private static void picture(Context ctx) {
    byte[] png =
        Handbook.get()
            .picture(ctx.pathParam("name"))
            .orElseThrow(() -> Refusal.notThere("There is no such picture."));
    ctx.contentType("image/png").result(png);
    ctx.header("Cache-Control", "private, max-age=300");
  }
}
