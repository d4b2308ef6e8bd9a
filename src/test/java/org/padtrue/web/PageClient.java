package org.padtrue.web;

import java.net.http.HttpResponse;
import java.util.LinkedHashMap;
import java.util.Map;

/** Pages and forms in few words. */
public final class PageClient {
  private final Client client;

  public PageClient(WebServer server) {
    this.client = new Client(server.address());
  }

  public HttpResponse<String> get(String path) {
    return client.get(path);
  }

  /** The text of a page that must be there. */
  public String page(String path) {
    HttpResponse<String> r = get(path);
    if (r.statusCode() != 200) {
      throw new AssertionError(path + " gave " + r.statusCode() + ": " + r.body());
    }
    return r.body();
  }

  /** Sends a form with the session's token. */
  public HttpResponse<String> post(String path, String... namesAndValues) {
    return client.post(path, fields(namesAndValues));
  }

  /** Sends a form without a token. */
  public HttpResponse<String> bare(String path, String... namesAndValues) {
    return client.send(
        client
            .request(path)
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(Client.form(fields(namesAndValues)))
            .build());
  }

  private static Map<String, String> fields(String... namesAndValues) {
    Map<String, String> m = new LinkedHashMap<>();
    for (int i = 0; i < namesAndValues.length; i += 2) {
      m.put(namesAndValues[i], namesAndValues[i + 1]);
    }
    return m;
  }
}
