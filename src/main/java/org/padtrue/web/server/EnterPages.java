package org.padtrue.web.server;

import io.javalin.config.RoutesConfig;
import io.javalin.http.HttpStatus;

/** In by the pass phrase, and out again. */
public final class EnterPages {
  private final Guard guard;
  private final Pages pages;

  public EnterPages(Guard guard, Pages pages) {
    this.guard = guard;
    this.pages = pages;
  }

  public void routes(RoutesConfig routes) {
    routes.get(
        Guard.ENTER,
        ctx ->
            pages.show(
                ctx,
                "enter",
                "Pass phrase",
                "",
                new EnterView("", Guard.own(ctx.queryParam(Guard.TO)))));
    routes.post(
        Guard.ENTER,
        ctx -> {
          guard.enter(ctx);
          ctx.redirect(Guard.own(ctx.formParam(Guard.TO)), HttpStatus.SEE_OTHER);
        });
    routes.post(
        "/leave",
        ctx -> {
          guard.leave(ctx);
          ctx.redirect(Guard.ENTER, HttpStatus.SEE_OTHER);
        });
  }
}
