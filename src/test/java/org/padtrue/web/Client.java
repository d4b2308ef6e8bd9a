package org.padtrue.web;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** A browser without a screen: cookies, tokens, forms and files. */
public final class Client {
  private static final Pattern TOKEN = Pattern.compile("name=\"token\" content=\"([^\"]*)\"");
  private static final String BOUNDARY = "----boundary7d1a";

  private final HttpClient http;
  private final CookieManager cookies = new CookieManager();
  private final String base;

  Client(String address) {
    base = address.substring(0, address.length() - 1);
    http =
        HttpClient.newBuilder()
            .cookieHandler(cookies)
            .followRedirects(HttpClient.Redirect.NEVER)
            .build();
  }

  HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create(base + path)).header("Accept", "text/html");
  }

  HttpResponse<String> send(HttpRequest r) {
    try {
      return http.send(r, HttpResponse.BodyHandlers.ofString());
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  /** The session's cookie as a request carries it; empty before there is one. */
  String cookie() {
    return cookies.getCookieStore().getCookies().stream()
        .map(c -> c.getName() + "=" + c.getValue())
        .collect(Collectors.joining("; "));
  }

  HttpResponse<byte[]> bytes(String path) throws IOException, InterruptedException {
    return http.send(request(path).build(), HttpResponse.BodyHandlers.ofByteArray());
  }

  /** A page; one that says it is being calculated is asked for again, as a browser does. */
  HttpResponse<String> get(String path) {
    HttpResponse<String> r = send(request(path).build());
    while (r.headers().firstValue("X-Wait").isPresent()) {
      try {
        Thread.sleep(300);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
      r = send(request(path).build());
    }
    return r;
  }

  /** The piece that says what was measured so far, once it knows all that was entered. */
  String fit(String article) {
    for (int k = 0; k < 200; k++) {
      String piece = get("/articles/" + article + "/fit").body();
      if (piece.contains("data-current=\"yes\"")) {
        return piece;
      }
      try {
        Thread.sleep(200);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
    throw new IllegalStateException("the fit of " + article + " is not done after 40 s");
  }

  /** The token of this session's pages. */
  String token() {
    Matcher m = TOKEN.matcher(get("/").body());
    return m.find() ? m.group(1) : "";
  }

  static HttpRequest.BodyPublisher form(Map<String, String> fields) {
    return HttpRequest.BodyPublishers.ofString(
        fields.entrySet().stream()
            .map(e -> encode(e.getKey()) + "=" + encode(e.getValue()))
            .collect(Collectors.joining("&")));
  }

  private static String encode(String s) {
    return URLEncoder.encode(s, StandardCharsets.UTF_8);
  }

  /** A form with this session's token. */
  HttpResponse<String> post(String path, Map<String, String> fields) {
    return send(
        request(path)
            .header("Content-Type", "application/x-www-form-urlencoded")
            .header("X-Token", token())
            .POST(form(fields))
            .build());
  }

  /** Files of a form, by name. */
  HttpResponse<String> files(String path, Map<String, byte[]> files) throws IOException {
    return files(path, files, Map.of());
  }

  /** Files of a form, by name, and its other fields. */
  HttpResponse<String> files(String path, Map<String, byte[]> files, Map<String, String> fields)
      throws IOException {
    ByteArrayOutputStream b = new ByteArrayOutputStream();
    for (Map.Entry<String, String> f : fields.entrySet()) {
      b.write(
          ("--"
                  + BOUNDARY
                  + "\r\nContent-Disposition: form-data; name=\""
                  + f.getKey()
                  + "\"\r\n\r\n"
                  + f.getValue()
                  + "\r\n")
              .getBytes(StandardCharsets.UTF_8));
    }
    for (Map.Entry<String, byte[]> f : files.entrySet()) {
      String head =
          "--"
              + BOUNDARY
              + "\r\nContent-Disposition: form-data; name=\"files\"; filename=\""
              + f.getKey()
              + "\"\r\nContent-Type: application/octet-stream\r\n\r\n";
      b.write(head.getBytes(StandardCharsets.UTF_8));
      b.write(f.getValue());
      b.write("\r\n".getBytes(StandardCharsets.UTF_8));
    }
    b.write(("--" + BOUNDARY + "--\r\n").getBytes(StandardCharsets.UTF_8));
    return send(
        request(path)
            .header("Content-Type", "multipart/form-data; boundary=" + BOUNDARY)
            .header("X-Token", token())
            .POST(HttpRequest.BodyPublishers.ofByteArray(b.toByteArray()))
            .build());
  }

  /** Where a redirect leads. */
  public static String to(HttpResponse<String> r) {
    return r.headers().firstValue("Location").orElse("(no redirect: " + r.statusCode() + ")");
  }
}
