package org.padtrue.web;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.padtrue.web.server.WebOptions;

/** The pages in a process of their own, to be killed. */
final class ServeProcess {
  private ServeProcess() {}

  /** Serves a workspace until it is killed; says the address first. */
  public static void main(String[] args) throws InterruptedException {
    WebServer s =
        WebServer.start(
            WebOptions.local(Path.of(args[0]), args[0] + "/log.db", Integer.parseInt(args[1])));
    System.out.println(s.address());
    Thread.sleep(Long.MAX_VALUE);
  }

  record Running(Process process, String address) {
    int port() {
      return java.net.URI.create(address).getPort();
    }

    /** kill -9. */
    void kill() throws InterruptedException {
      process.toHandle().destroyForcibly();
      process.waitFor();
    }
  }

  static Running start(Path workspace, int port) throws IOException {
    return started(command(workspace, port));
  }

  /** The same where no file may grow beyond so many kB. */
  static Running startLimited(Path workspace, int limitKb) throws IOException {
    List<String> all =
        new ArrayList<>(
            List.of("/bin/bash", "-c", "ulimit -f " + limitKb + "; exec \"$@\"", "serve"));
    all.addAll(command(workspace, 0));
    return started(all);
  }

  private static List<String> command(Path workspace, int port) {
    return List.of(
        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
        "-XX:TieredStopAtLevel=1",
        "-XX:-UsePerfData",
        "-cp",
        System.getProperty("java.class.path"),
        ServeProcess.class.getName(),
        workspace.toString(),
        Integer.toString(port));
  }

  private static Running started(List<String> command) throws IOException {
    Process p = new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    BufferedReader r =
        new BufferedReader(new InputStreamReader(p.getInputStream(), StandardCharsets.UTF_8));
    String address = r.readLine();
    if (address == null) {
      throw new IOException("the server did not start");
    }
    return new Running(p, address);
  }
}
