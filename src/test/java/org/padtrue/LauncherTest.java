package org.padtrue;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/**
 * The start file finds itself and a Java, with scripts in the place of Java that say how they were
 * called. That it starts the real jar is tried by the build, which makes the class archive with it.
 */
@DisabledOnOs(OS.WINDOWS)
class LauncherTest {
  @TempDir private Path dir;

  private Path home;
  private Path launcher;

  private record Started(int code, String out, String err) {}

  @BeforeEach
  void installInAFolderWithABlank() throws IOException {
    home = Files.createDirectory(dir.resolve("a place"));
    launcher = home.resolve("padtrue");
    Files.copy(Path.of("src/main/launcher/padtrue"), launcher);
    assertThat(launcher.toFile().setExecutable(true)).isTrue();
  }

  /** A folder of a Java that prints its name and arguments; no release file for no version. */
  private Path java(Path folder, String name, @Nullable String version) throws IOException {
    Path bin = Files.createDirectories(folder.resolve("bin"));
    Path java = bin.resolve("java");
    Files.writeString(
        java,
        "#!/bin/sh\n"
            + "if [ \"$1\" = -version ]; then echo 'openjdk version \"21.0.1\" 2023' >&2; exit;"
            + " fi\n"
            + ("echo " + name + "\nfor a in \"$@\"; do echo \"[$a]\"; done\nexit 3\n"));
    assertThat(java.toFile().setExecutable(true)).isTrue();
    if (version != null) {
      Files.writeString(
          folder.resolve("release"), "IMPLEMENTOR=\"X\"\nJAVA_VERSION=\"" + version + "\"\n");
    }
    return folder;
  }

  private Started start(Path what, @Nullable Path javaHome, @Nullable Path path, String... args)
      throws IOException, InterruptedException {
    List<String> call = new ArrayList<>(List.of(what.toString()));
    call.addAll(List.of(args));
    ProcessBuilder b = new ProcessBuilder(call).directory(dir.toFile());
    b.environment().remove("JAVA_HOME");
    b.environment().remove("PADTRUE_JAVA_OPTS");
    if (javaHome != null) {
      b.environment().put("JAVA_HOME", javaHome.toString());
    }
    b.environment().put("PATH", (path == null ? "" : path.resolve("bin") + ":") + tools());
    Path out = dir.resolve("out");
    Path err = dir.resolve("err");
    Process p = b.redirectOutput(out.toFile()).redirectError(err.toFile()).start();
    int code = p.waitFor();
    return new Started(
        code,
        Files.readString(out, StandardCharsets.UTF_8),
        Files.readString(err, StandardCharsets.UTF_8));
  }

  /** A folder with the tools that the script calls and no Java. */
  private Path tools() throws IOException {
    Path tools = Files.createDirectories(dir.resolve("tools"));
    for (String t : List.of("readlink", "sed")) {
      String at = Files.exists(Path.of("/usr/bin", t)) ? "/usr/bin/" : "/bin/";
      Path tool = tools.resolve(t);
      Files.writeString(tool, "#!/bin/sh\nexec " + at + t + " \"$@\"\n");
      assertThat(tool.toFile().setExecutable(true)).isTrue();
    }
    return tools;
  }

  @Test
  void argumentsAndExitCodeAreHandedOn() throws Exception {
    Path jdk = java(dir.resolve("my jdk"), "home", "17.0.9");
    Started s = start(launcher, jdk, null, "analyse", "my job.json", "--out", "x*");
    assertThat(s.code()).isEqualTo(3);
    assertThat(s.err()).isEmpty();
    assertThat(s.out())
        .startsWith("home\n")
        .contains("[-XX:TieredStopAtLevel=1]\n", "[-XX:SharedArchiveFile=" + home.toRealPath())
        .endsWith(
            "[-jar]\n["
                + home.toRealPath().resolve("padtrue.jar")
                + "]\n[analyse]\n[my job.json]\n[--out]\n[x*]\n");
    assertThat(start(launcher, jdk, null, "serve").out()).contains("[-XX:+TieredCompilation]");
  }

  @Test
  void linksAreFollowed() throws Exception {
    Path jdk = java(dir.resolve("jdk"), "home", "21");
    Path bin = Files.createDirectory(dir.resolve("bin"));
    Files.createSymbolicLink(bin.resolve("first"), Path.of("../a place/padtrue"));
    Path second = Files.createSymbolicLink(bin.resolve("second"), bin.resolve("first"));
    String jar = "[" + home.toRealPath().resolve("padtrue.jar") + "]";
    assertThat(start(second, jdk, null).out()).contains(jar);
    Path folder = Files.createSymbolicLink(dir.resolve("link"), home);
    assertThat(start(folder.resolve("padtrue"), jdk, null).out()).contains(jar);
  }

  @Test
  void theFirstJavaThatIsNewEnough() throws Exception {
    Path old = java(dir.resolve("old"), "old", "11.0.2");
    Path eight = java(dir.resolve("eight"), "eight", "1.8.0_392");
    Path path = java(dir.resolve("path"), "path", null);
    assertThat(start(launcher, old, path).out()).startsWith("path\n");
    assertThat(start(launcher, eight, path).out()).startsWith("path\n");
    assertThat(start(launcher, dir.resolve("nowhere"), path).out()).startsWith("path\n");
    assertThat(start(launcher, java(dir.resolve("n"), "new", "25"), path).out())
        .startsWith("new\n");
    java(home.resolve("runtime"), "own", "17");
    assertThat(start(launcher, old, path).out()).startsWith("own\n");
  }

  @Test
  void noJavaIsOneSentence() throws Exception {
    String sentence =
        "padtrue: no Java 17 or newer was found in JAVA_HOME or on the PATH; install one, or set"
            + " JAVA_HOME to its folder\n";
    assertThat(start(launcher, null, null, "demo")).isEqualTo(new Started(2, "", sentence));
    Path old = java(dir.resolve("old"), "old", "11.0.2");
    assertThat(start(launcher, old, old)).isEqualTo(new Started(2, "", sentence));
  }
}
