package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.WebOptions;

/** Sessions end when they are signed out or the pass phrase changes, and lead back afterwards. */
class SessionEndsTest {
  private static final String PHRASE = "three coils of tape";

  @TempDir Path dir;

  private WebServer serve(String workspace, String phrase) {
    return WebServer.start(
        new WebOptions(
            dir.resolve(workspace), dir.resolve("log.db").toString(), "127.0.0.1", 0, phrase));
  }

  private static HttpResponse<String> enter(Client c, String phrase, String to) {
    return c.send(
        c.request("/enter")
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(Client.form(Map.of("passPhrase", phrase, "to", to)))
            .build());
  }

  private static HttpResponse<String> with(String cookie, String address, String path) {
    HttpRequest r =
        HttpRequest.newBuilder(URI.create(address.substring(0, address.length() - 1) + path))
            .header("Cookie", cookie)
            .header("Accept", "text/html")
            .build();
    try {
      return HttpClient.newHttpClient().send(r, HttpResponse.BodyHandlers.ofString());
    } catch (IOException | InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void aSessionThatWasSignedOutIsRefusedWithItsCookie() {
    String cookie;
    try (WebServer s = serve("ws", PHRASE)) {
      Client c = new Client(s.address());
      enter(c, PHRASE, "/");
      cookie = c.cookie();
      assertThat(with(cookie, s.address(), "/").statusCode()).isEqualTo(200);
      assertThat(c.post("/leave", Map.of()).statusCode()).isEqualTo(303);
      assertThat(with(cookie, s.address(), "/").statusCode()).isEqualTo(401);
      Client other = new Client(s.address());
      enter(other, PHRASE, "/");
      assertThat(other.get("/").statusCode()).isEqualTo(200);
    }
    try (WebServer s = serve("ws", PHRASE)) {
      assertThat(with(cookie, s.address(), "/").statusCode()).as("after a restart").isEqualTo(401);
    }
  }

  @Test
  void anotherPassPhraseEndsSessions() {
    String cookie;
    try (WebServer s = serve("ws", PHRASE)) {
      Client c = new Client(s.address());
      enter(c, PHRASE, "/");
      cookie = c.cookie();
    }
    try (WebServer s = serve("ws", PHRASE)) {
      assertThat(with(cookie, s.address(), "/").statusCode()).isEqualTo(200);
    }
    try (WebServer s = serve("ws", "four coils of tape")) {
      assertThat(with(cookie, s.address(), "/").statusCode()).isEqualTo(401);
    }
  }

  @Test
  void twoServersOfOneMachineKeepTheirSessionsApart() {
    try (WebServer one = serve("one", PHRASE);
        WebServer two = serve("two", PHRASE)) {
      Client a = new Client(one.address());
      Client b = new Client(two.address());
      enter(a, PHRASE, "/");
      enter(b, PHRASE, "/");
      String both = a.cookie() + "; " + b.cookie();
      assertThat(a.cookie().split("=", 2)[0]).isNotEqualTo(b.cookie().split("=", 2)[0]);
      assertThat(with(both, one.address(), "/").statusCode()).isEqualTo(200);
      assertThat(with(both, two.address(), "/").statusCode()).isEqualTo(200);
    }
  }

  @Test
  void whoeverTypesIsToldWhereToSignInAndComesBack() {
    try (WebServer s = serve("ws", PHRASE)) {
      Client c = new Client(s.address());
      HttpResponse<String> r =
          c.send(
              HttpRequest.newBuilder(URI.create(s.address() + "articles/a/entries"))
                  .header("X-Piece", "1")
                  .header("Referer", s.address() + "articles/a?x=1")
                  .header("Content-Type", "application/x-www-form-urlencoded")
                  .POST(Client.form(Map.of("x", "0.025")))
                  .build());
      assertThat(r.statusCode()).isEqualTo(401);
      assertThat(r.headers().firstValue("Content-Type").orElse("")).startsWith("text/plain");
      assertThat(r.headers().firstValue("X-Sign-In")).contains("/enter?to=%2Farticles%2Fa%3Fx%3D1");
      assertThat(r.body()).startsWith("The session has ended").contains("Sign in again at /enter");
      assertThat(c.get("/enter?to=%2Farticles%2Fa%3Fx%3D1").body())
          .contains("name=\"to\" value=\"/articles/a?x=1\"");
      assertThat(c.get("/log?machine=M1").body()).contains("value=\"/log?machine=M1\"");
      assertThat(enter(c, "wrong wrong wrong", "/log").body()).contains("value=\"/log\"");
      assertThat(Client.to(enter(c, PHRASE, "/articles/a?x=1"))).isEqualTo("/articles/a?x=1");
    }
  }

  @Test
  void signingInLeadsToOwnPagesOnly() {
    try (WebServer s = serve("ws", PHRASE)) {
      for (String to :
          new String[] {
            "//evil.example/",
            "https://evil.example/",
            "/\\evil.example",
            "javascript:alert(1)",
            "evil",
            "",
            "/x\r\nSet-Cookie: a=b",
            "/enter?to=/",
            "/leave",
            "/" + "a".repeat(600)
          }) {
        HttpResponse<String> r = enter(new Client(s.address()), PHRASE, to);
        assertThat(Client.to(r)).as(to).isEqualTo("/");
      }
    }
  }

  @Test
  void anAddressOfAnotherMachineIsSaidSo() {
    for (String host : new String[] {"192.0.2.7", "no-such-name.invalid"}) {
      assertThatThrownBy(
              () ->
                  WebServer.start(
                      new WebOptions(
                          dir.resolve("w"), dir.resolve("l.db").toString(), host, 0, PHRASE)))
          .hasMessageContaining("--listen: '" + host + "' is no address")
          .hasMessageContaining("give 0.0.0.0 for all");
    }
  }
}
