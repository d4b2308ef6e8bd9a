package org.padtrue.web.server;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * The workspace's own key: signs sessions and tokens (HMAC-SHA-256), so that they outlive a restart
 * of the server. Readable by its owner only where the file system can say so.
 */
public final class Secret {
  private static final int BYTES = 32;
  private static final String ALGORITHM = "HmacSHA256";
  private static final SecureRandom RANDOM = new SecureRandom();

  private final SecretKeySpec key;

  private Secret(byte[] bytes) {
    key = new SecretKeySpec(bytes, ALGORITHM);
  }

  /** The key of a file, made when it is not there or not whole. */
  public static Secret of(Path file) throws IOException {
    if (Files.exists(file) && Files.size(file) == BYTES) {
      return new Secret(Files.readAllBytes(file));
    }
    byte[] bytes = random(BYTES);
    Path part = file.resolveSibling(file.getFileName() + ".part");
    Files.write(part, bytes);
    if (Files.getFileStore(part).supportsFileAttributeView("posix")) {
      Files.setPosixFilePermissions(part, PosixFilePermissions.fromString("rw-------"));
    }
    Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    return new Secret(bytes);
  }

  /** A key made of this one and a text: another text, another key. */
  Secret with(String text) {
    return new Secret(sign("key " + text).getBytes(StandardCharsets.US_ASCII));
  }

  /** Signature of a text, URL-safe. */
  String sign(String text) {
    try {
      Mac mac = Mac.getInstance(ALGORITHM);
      mac.init(key);
      return encode(mac.doFinal(text.getBytes(StandardCharsets.UTF_8)));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java has " + ALGORITHM, e);
    }
  }

  /** True when two texts are alike; takes as long whatever differs. */
  boolean alike(String a, String b) {
    return MessageDigest.isEqual(
        sign(a).getBytes(StandardCharsets.US_ASCII), sign(b).getBytes(StandardCharsets.US_ASCII));
  }

  /** A name that cannot be guessed, URL-safe. */
  public static String name() {
    return encode(random(18));
  }

  private static byte[] random(int n) {
    byte[] bytes = new byte[n];
    RANDOM.nextBytes(bytes);
    return bytes;
  }

  private static String encode(byte[] bytes) {
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }
}
