package org.padtrue.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Wrong use of {@code serve}: one sentence, exit code 2; what it serves is tested beside it. */
class ServeCommandTest {
  @TempDir Path dir;

  @Test
  void otherMachinesNeedAPassPhrase() throws IOException {
    Run r = Run.of("serve", "--workspace", dir.resolve("ws"), "--listen", "0.0.0.0");
    assertThat(r.code()).isEqualTo(2);
    assertThat(r.err())
        .isEqualToIgnoringNewLines(
            "padtrue: --listen lets other machines in and needs a pass phrase; give"
                + " --pass-phrase-file FILE or set PADTRUE_PASS_PHRASE; see 'padtrue serve --help'");
    Path shortOne = Files.writeString(dir.resolve("phrase.txt"), "tape\n");
    assertThat(Run.of("serve", "--pass-phrase-file", shortOne).err())
        .contains("the pass phrase has 4 characters; take 12 or more");
    assertThat(Run.of("serve", "--pass-phrase-file", dir.resolve("none.txt")).err())
        .contains("none.txt: there is no such file");
    assertThat(dir.resolve("ws")).doesNotExist();
  }

  @Test
  void aPortThatIsTakenIsOneSentence() throws IOException {
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      int port = taken.getLocalPort();
      Run r = Run.of("serve", "--workspace", dir.resolve("ws"), "--port", Integer.toString(port));
      assertThat(r.code()).isEqualTo(2);
      assertThat(r.err()).startsWith("--port: port " + port + " cannot be used").hasLineCount(1);
    }
    assertThat(Run.of("serve", "--port", "70000").err())
        .contains("--port is 70000; expected 0 to 65535");
    Path file = Files.writeString(dir.resolve("file"), "");
    assertThat(Run.of("serve", "--workspace", file).err()).contains("the workspace cannot be used");
  }
}
