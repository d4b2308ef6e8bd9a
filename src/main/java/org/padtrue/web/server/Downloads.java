package org.padtrue.web.server;

import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;

/** Files that a browser keeps. Names as RFC 6266 and RFC 8187 have them. */
public final class Downloads {
  private Downloads() {}

  /** Answers with a file to keep under a name. */
  public static void send(Context ctx, String name, String type, byte[] content) {
    String plain =
        Normalizer.normalize(name, Normalizer.Form.NFKD).replaceAll("[^A-Za-z0-9._ -]", "_");
    String exact = URLEncoder.encode(name, StandardCharsets.UTF_8).replace("+", "%20");
    ctx.header(
        "Content-Disposition", "attachment; filename=\"" + plain + "\"; filename*=UTF-8''" + exact);
    ctx.contentType(type).result(content);
  }
}
