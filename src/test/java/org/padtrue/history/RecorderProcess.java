package org.padtrue.history;

/**
 * Records articles until it is killed, saying so after each; run in a process of its own by tests.
 */
final class RecorderProcess {
  private RecorderProcess() {}

  /** Arguments: URL, first seed, how many. */
  public static void main(String[] args) {
    long first = Long.parseLong(args[1]);
    int count = Integer.parseInt(args[2]);
    try (ArticleLog log = ArticleLog.open(args[0])) {
      for (long k = first; k < first + count; k++) {
        LoggedArticle a = Articles.article(k, 60);
        log.record(a);
        System.out.println("ack " + k + " " + a.contentHash());
        System.out.flush();
      }
    }
  }

  static Process start(String url, long first, int count) throws java.io.IOException {
    return new ProcessBuilder(
            java.nio.file.Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx256m",
            "-XX:TieredStopAtLevel=1",
            "-Dslf4j.internal.verbosity=ERROR",
            "-XX:TieredStopAtLevel=1",
            "-cp",
            System.getProperty("java.class.path"),
            RecorderProcess.class.getName(),
            url,
            Long.toString(first),
            Integer.toString(count))
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }
}
