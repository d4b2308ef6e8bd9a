package org.padtrue.web.server;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.util.Set;

/** Scripts and style: the files of a list, nothing else. */
public final class Assets {
  private static final Set<String> NAMES =
      Set.of(
          "app.css",
          "app.js",
          "drift.js",
          "entries.js",
          "log.js",
          "map.js",
          "measure.js",
          "pictures.js",
          "result.js",
          "scope.js",
          "seen.js",
          "wait.js");

  public void routes(RoutesConfig routes) {
    routes.get("/assets/{name}", Assets::send);
  }

  private static void send(Context ctx) throws IOException {
    String name = ctx.pathParam("name");
    if (!NAMES.contains(name)) {
      throw Refusal.notThere("There is no such file.");
    }
    try (InputStream in = Assets.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException(name + " is not in the jar");
      }
      String type = name.endsWith(".css") ? "text/css" : "text/javascript";
      ctx.contentType(type + "; charset=utf-8").result(in.readAllBytes());
    }
    ctx.header("Cache-Control", "private, max-age=300");
  }
}
