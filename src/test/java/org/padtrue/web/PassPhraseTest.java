package org.padtrue.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.padtrue.web.server.Attempts;
import org.padtrue.web.server.Secret;
import org.padtrue.web.server.Session;
import org.padtrue.web.server.WebOptions;

/** Pages that other machines can reach ask for the pass phrase, and not for ever. */
class PassPhraseTest {
  private static final String PHRASE = "three coils of tape";

  @TempDir Path dir;

  private WebServer serve() {
    return WebServer.start(
        new WebOptions(
            dir.resolve("ws"), dir.resolve("log.db").toString(), "127.0.0.1", 0, PHRASE));
  }

  private static HttpResponse<String> enter(Client c, String phrase) {
    return c.send(
        c.request("/enter")
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(Client.form(Map.of("passPhrase", phrase)))
            .build());
  }

  @Test
  void nothingIsShownBefore() {
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      for (String page : new String[] {"/", "/jobs/x", "/articles/x/result", "/token", "/log"}) {
        HttpResponse<String> r = c.get(page);
        assertThat(r.statusCode()).as(page).isEqualTo(401);
        assertThat(r.body()).as(page).doesNotContain("New job");
      }
      assertThat(enter(c, "not it, I am afraid").statusCode()).isEqualTo(401);
      assertThat(enter(c, PHRASE).statusCode()).isEqualTo(303);
      HttpResponse<String> in = c.get("/");
      assertThat(in.statusCode()).isEqualTo(200);
      assertThat(in.body()).contains("New job").contains("Sign out");
      assertThat(c.post("/leave", Map.of()).statusCode()).isEqualTo(303);
      assertThat(c.get("/").statusCode()).isEqualTo(401);
    }
  }

  @Test
  void guessingIsLockedOut() {
    try (WebServer s = serve()) {
      Client c = new Client(s.address());
      for (int k = 0; k < 5; k++) {
        assertThat(enter(c, "guess number " + k).statusCode()).isEqualTo(401);
      }
      HttpResponse<String> locked = enter(c, PHRASE);
      assertThat(locked.statusCode()).isEqualTo(429);
      assertThat(locked.body()).contains("Too many wrong pass phrases; wait 30 s");
    }
  }

  @Test
  void waitsGrowAndEnd() {
    Attempts a = new Attempts();
    Instant now = Instant.parse("2026-01-05T06:00:00Z");
    for (int k = 0; k < 4; k++) {
      a.wrong("x", now);
    }
    assertThat(a.wait("x", now)).isZero();
    a.wrong("x", now);
    assertThat(a.wait("x", now)).isEqualTo(Duration.ofSeconds(30));
    assertThat(a.wait("y", now)).isZero();
    Instant later = now.plusSeconds(31);
    assertThat(a.wait("x", later)).isZero();
    a.wrong("x", later);
    assertThat(a.wait("x", later)).isEqualTo(Duration.ofSeconds(60));
    a.right("x");
    assertThat(a.wait("x", later)).isZero();
    for (int k = 0; k < 50; k++) {
      a.wrong("address " + k, later);
    }
    assertThat(a.wait("somebody else", later)).isPositive();
  }

  @Test
  void aSessionEnds() throws Exception {
    Secret secret = Secret.of(dir.resolve("secret"));
    Instant now = Instant.parse("2026-01-05T06:00:00Z");
    Session s = Session.begin(now);
    String cookie = s.cookie(secret);
    assertThat(Session.of(cookie, secret, now.plus(Duration.ofHours(11)))).isPresent();
    assertThat(Session.of(cookie, secret, now.plus(Duration.ofHours(12)))).isEmpty();
    Session renewed = s.renewed(now.plus(Duration.ofHours(7)));
    assertThat(renewed.expires()).isEqualTo(now.plus(Duration.ofHours(19)));
    assertThat(renewed.token(secret)).isEqualTo(s.token(secret));
    // the same key after a restart, another one in another workspace
    assertThat(Session.of(cookie, Secret.of(dir.resolve("secret")), now)).isPresent();
    assertThat(Session.of(cookie, Secret.of(dir.resolve("other")), now)).isEmpty();
  }
}
