package org.padtrue.web.server;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.util.Map;

/** Scripts and style: the files of a list, nothing else. */
public final class Assets {
  private static final Map<String, String> TYPES =
      Map.of(
          "app.css", "text/css; charset=utf-8",
          "app.js", "text/javascript; charset=utf-8",
          "measure.js", "text/javascript; charset=utf-8",
          "map.js", "text/javascript; charset=utf-8",
          "result.js", "text/javascript; charset=utf-8",
          "pictures.js", "text/javascript; charset=utf-8",
          "log.js", "text/javascript; charset=utf-8",
          "drift.js", "text/javascript; charset=utf-8");

  public void routes(RoutesConfig routes) {
    routes.get("/assets/{name}", Assets::send);
  }

  private static void send(Context ctx) throws IOException {
    String name = ctx.pathParam("name");
    String type = TYPES.get(name);
    if (type == null) {
      throw Refusal.notThere("There is no such file.");
    }
    try (InputStream in = Assets.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException(name + " is not in the jar");
      }
      ctx.contentType(type).result(in.readAllBytes());
    }
    ctx.header("Cache-Control", "private, max-age=300");
  }
}
