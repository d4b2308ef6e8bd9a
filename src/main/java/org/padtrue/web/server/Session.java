package org.padtrue.web.server;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A browser that was let in: {@code id.expires.signature} in a cookie, so that the server need not
 * remember it.
 *
 * @param id name that cannot be guessed
 * @param expires when it ends
 */
public record Session(String id, Instant expires) {
  static final Duration LASTS = Duration.ofHours(12);
  private static final Pattern COOKIE =
      Pattern.compile("([A-Za-z0-9_-]{10,64})\\.(\\d{1,12})\\.([A-Za-z0-9_-]{20,64})");

  public static Session begin(Instant now) {
    return new Session(Secret.name(), now.plus(LASTS));
  }

  /** The session of a cookie that this workspace signed and that has not ended. */
  public static Optional<Session> of(String cookie, Secret secret, Instant now) {
    Matcher m = COOKIE.matcher(cookie);
    if (!m.matches()) {
      return Optional.empty();
    }
    Session s = new Session(m.group(1), Instant.ofEpochSecond(Long.parseLong(m.group(2))));
    boolean ours = secret.alike(s.cookie(secret), cookie);
    return ours && now.isBefore(s.expires) ? Optional.of(s) : Optional.empty();
  }

  public String cookie(Secret secret) {
    String text = id + "." + expires.getEpochSecond();
    return text + "." + secret.sign("session " + text);
  }

  /** What a form of this session's pages carries, so that no other site's form is taken. */
  public String token(Secret secret) {
    return secret.sign("token " + id);
  }

  /** The same browser with its time renewed, once half of it is gone. */
  public Session renewed(Instant now) {
    return now.plus(LASTS.dividedBy(2)).isAfter(expires) ? new Session(id, now.plus(LASTS)) : this;
  }
}
