package org.padtrue.web.server;

import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpStatus;
import io.javalin.http.SameSite;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Stands before every request: the name the browser used for this server, the session, the pass
 * phrase, the token of a form; and sets the headers that keep a page to itself.
 *
 * <p>Reading asks for a session; changing anything asks for its token as well and for a browser
 * that says it comes from these very pages. Sources: Fetch Metadata (W3C), RFC 6265bis (SameSite),
 * Content Security Policy Level 3 (W3C).
 */
public final class Guard {
  static final String TOKEN = "token";
  static final String TOKEN_HEADER = "X-Token";
  static final String ENTER = "/enter";
  static final String TO = "to";
  private static final String SESSION = "session";
  private static final Set<String> OWN_NAMES = Set.of("localhost", "127.0.0.1", "[::1]");
  private static final String POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:;"
          + " connect-src 'self'; font-src 'self'; form-action 'self'; frame-ancestors 'none';"
          + " base-uri 'none'";

  private static final String SIGN_IN_HEADER = "X-Sign-In";
  private static final int LONGEST_ADDRESS = 500;

  private final Secret secret;
  private final EndedSessions ended;
  private final String cookie;
  private final @Nullable String passPhrase;
  private final Attempts attempts = new Attempts();

  /**
   * @param secret key of the workspace; sessions are signed with it and the pass phrase, so that
   *     another pass phrase ends them
   * @param ended sessions that were signed out
   */
  public Guard(Secret secret, EndedSessions ended, @Nullable String passPhrase) {
    this.secret = secret.with(passPhrase == null ? "" : "pass phrase " + passPhrase);
    this.ended = ended;
    // browsers send cookies to every port of a machine
    this.cookie = "padtrue-" + secret.sign("name of the cookie").substring(0, 8);
    this.passPhrase = passPhrase;
  }

  /** Refuses what may not pass, by an exception; else leaves the session with the request. */
  public void before(Context ctx) {
    headers(ctx);
    host(ctx);
    if (ctx.path().startsWith("/assets/")) {
      return;
    }
    Uploads.limit(ctx);
    Instant now = Instant.now();
    Optional<Session> known =
        Optional.ofNullable(ctx.cookie(cookie))
            .flatMap(c -> Session.of(c, secret, now))
            .filter(s -> !ended.has(s));
    boolean changes = ctx.method() != HandlerType.GET && ctx.method() != HandlerType.HEAD;
    if (changes) {
      sameSite(ctx);
    }
    if (ctx.path().equals(ENTER)) {
      return;
    }
    if (known.isEmpty()) {
      stranger(ctx, changes, now);
      return;
    }
    Session s = known.get();
    if (changes && !hasToken(ctx, s)) {
      throw new Refusal(
          HttpStatus.FORBIDDEN,
          "This form is not from a page of this session; load the page again and send it once"
              + " more.");
    }
    Session renewed = s.renewed(now);
    if (renewed != s) {
      give(ctx, renewed);
    }
    ctx.attribute(SESSION, renewed);
  }

  private void stranger(Context ctx, boolean changes, Instant now) {
    if (passPhrase != null) {
      String to = back(ctx, changes);
      String address = ENTER + "?to=" + URLEncoder.encode(to, StandardCharsets.UTF_8);
      ctx.header(SIGN_IN_HEADER, address);
      ctx.attribute(TO, to);
      throw new Refusal(
          HttpStatus.UNAUTHORIZED,
          changes
              ? "The session has ended, and what was sent now is not stored. Sign in again at "
                  + address
                  + " and send it once more."
              : "The pass phrase is asked for first, at " + address + ".");
    }
    if (changes) {
      throw new Refusal(
          HttpStatus.UNAUTHORIZED, "There is no session, or it has ended; load the page again.");
    }
    Session s = Session.begin(now);
    give(ctx, s);
    ctx.attribute(SESSION, s);
  }

  /** The page to come back to after signing in: the one asked for, or the one that sent. */
  private static String back(Context ctx, boolean changes) {
    if (!changes && ctx.header("X-Piece") == null) {
      return own(ctx.path() + (ctx.queryString() == null ? "" : "?" + ctx.queryString()));
    }
    String from = ctx.header("Referer");
    try {
      URI page = URI.create(from == null ? "" : from);
      boolean here = String.valueOf(ctx.host()).equalsIgnoreCase(page.getAuthority());
      return here
          ? own(page.getRawPath() + (page.getRawQuery() == null ? "" : "?" + page.getRawQuery()))
          : "/";
    } catch (IllegalArgumentException e) {
      return "/";
    }
  }

  /** The address if it is one of these pages, else that of the first page. */
  static String own(@Nullable String to) {
    if (to == null || to.length() > LONGEST_ADDRESS) {
      return "/";
    }
    boolean ok =
        to.matches("/(?![/\\\\])[\\w.~/%?=&+:@!$'()*,;#-]*")
            && !to.startsWith(ENTER)
            && !to.startsWith("/leave");
    return ok ? to : "/";
  }

  /** Pages of this machine alone answer to its own names only, whatever a name server says. */
  private void host(Context ctx) {
    String host = String.valueOf(ctx.host()).toLowerCase(Locale.ROOT).replaceAll(":\\d+$", "");
    if (passPhrase == null && !OWN_NAMES.contains(host)) {
      throw new Refusal(
          HttpStatus.MISDIRECTED_REQUEST, "This server is reached as localhost or 127.0.0.1 only.");
    }
  }

  private static void sameSite(Context ctx) {
    String site = ctx.header("Sec-Fetch-Site");
    String origin = ctx.header("Origin");
    boolean foreign = site != null && !site.equals("same-origin");
    if (foreign || origin != null && !sameHost(origin, ctx.host())) {
      throw new Refusal(HttpStatus.FORBIDDEN, "A page of another site may not send this.");
    }
  }

  private static boolean sameHost(String origin, @Nullable String host) {
    try {
      String own = URI.create(origin).getAuthority();
      return own != null && own.equalsIgnoreCase(host);
    } catch (IllegalArgumentException e) {
      return false;
    }
  }

  private boolean hasToken(Context ctx, Session s) {
    String given = ctx.header(TOKEN_HEADER);
    if (given == null) {
      given = ctx.formParam(TOKEN);
    }
    return given != null && secret.alike(given, s.token(secret));
  }

  /** Token for the forms of a page. */
  String token(Context ctx) {
    Session s = ctx.attribute(SESSION);
    return s == null ? "" : s.token(secret);
  }

  /** True when a pass phrase is asked for. */
  boolean asks() {
    return passPhrase != null;
  }

  /** Lets somebody in who knows the pass phrase, or refuses. */
  void enter(Context ctx) {
    Instant now = Instant.now();
    Duration wait = attempts.wait(ctx.ip(), now);
    if (!wait.isZero()) {
      throw new Refusal(
          HttpStatus.TOO_MANY_REQUESTS,
          "Too many wrong pass phrases; wait " + (wait.toSeconds() + 1) + " s and try again.");
    }
    String given = ctx.formParam("passPhrase");
    if (passPhrase == null || given == null || !secret.alike(given, passPhrase)) {
      attempts.wrong(ctx.ip(), now);
      throw new Refusal(HttpStatus.UNAUTHORIZED, "That is not the pass phrase.");
    }
    attempts.right(ctx.ip());
    give(ctx, Session.begin(now));
  }

  /** Ends the session of this browser, for whoever has its cookie. */
  void leave(Context ctx) throws IOException {
    ctx.removeCookie(cookie, "/");
    Session s = ctx.attribute(SESSION);
    if (s != null) {
      ended.end(s, Instant.now());
    }
  }

  private void give(Context ctx, Session s) {
    ctx.cookie(
        new Cookie(
            cookie,
            s.cookie(secret),
            "/",
            (int) Session.LASTS.toSeconds(),
            false,
            true,
            null,
            SameSite.STRICT));
  }

  private static void headers(Context ctx) {
    ctx.header("Content-Security-Policy", POLICY);
    ctx.header("X-Content-Type-Options", "nosniff");
    ctx.header("Referrer-Policy", "same-origin");
    ctx.header("Cross-Origin-Opener-Policy", "same-origin");
    ctx.header("Cross-Origin-Resource-Policy", "same-origin");
    ctx.header("Permissions-Policy", "camera=(), microphone=(), geolocation=()");
    ctx.header("Cache-Control", "no-store");
  }
}
