package org.padtrue.imaging.picture;

import java.io.IOException;
import java.io.InputStream;
import java.net.URL;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import org.bytedeco.javacpp.Loader;
import org.bytedeco.opencv.global.opencv_calib3d;
import org.bytedeco.opencv.global.opencv_core;
import org.bytedeco.opencv.global.opencv_imgcodecs;
import org.bytedeco.opencv.global.opencv_imgproc;

/**
 * Loads the few native modules that are used, once, on first use.
 *
 * <p>The general loader unpacks and probes every module and its companions, which takes seconds at
 * each start. Here the files needed are unpacked once into a cache folder and loaded by name in the
 * order of their dependencies. On a host whose file names are not known the general loader does it.
 */
public final class NativeLibraries {
  /** Folder, file; in the order of dependencies. A file that a platform lacks is passed over. */
  private static final List<String[]> LINUX =
      List.of(
          new String[] {"openblas", "libgcc_s.so.1"},
          new String[] {"openblas", "libquadmath.so.0"},
          new String[] {"openblas", "libgfortran.so.5"},
          new String[] {"openblas", "libopenblas.so.0"},
          new String[] {"javacpp", "libjnijavacpp.so"},
          new String[] {"opencv", "libopencv_core.so.413"},
          new String[] {"opencv", "libopencv_imgproc.so.413"},
          new String[] {"opencv", "libopencv_imgcodecs.so.413"},
          new String[] {"opencv", "libopencv_flann.so.413"},
          new String[] {"opencv", "libopencv_features2d.so.413"},
          new String[] {"opencv", "libopencv_calib3d.so.413"},
          new String[] {"opencv", "libjniopencv_core.so"},
          new String[] {"opencv", "libjniopencv_imgproc.so"},
          new String[] {"opencv", "libjniopencv_imgcodecs.so"},
          new String[] {"opencv", "libjniopencv_calib3d.so"});

  private static final String LOAD_PROPERTY = "org.bytedeco.javacpp.loadlibraries";

  private static boolean loaded;

  private NativeLibraries() {}

  /** Makes sure that the modules are there. */
  public static synchronized void load() {
    if (loaded) {
      return;
    }
    if (!loadQuickly()) {
      loadGenerally();
    }
    loaded = true;
  }

  /** The library's own loader: works on every host, slower. */
  static void loadGenerally() {
    System.clearProperty(LOAD_PROPERTY);
    Loader.load(opencv_core.class);
    Loader.load(opencv_imgproc.class);
    Loader.load(opencv_imgcodecs.class);
    Loader.load(opencv_calib3d.class);
  }

  private static boolean loadQuickly() {
    String platform = Loader.getPlatform();
    if (!platform.startsWith("linux") || resource(LINUX.get(5), platform) == null) {
      return false;
    }
    try {
      Path folder = cacheFolder(platform);
      // Without this each class would start the general search again.
      System.setProperty(LOAD_PROPERTY, "false");
      for (String[] lib : LINUX) {
        URL url = resource(lib, platform);
        if (url != null) {
          System.load(unpacked(url, folder.resolve(lib[1])).toString());
        }
      }
      return true;
    } catch (IOException | UnsatisfiedLinkError e) {
      // A read-only home or a file damaged in the cache: the general loader has its own ways.
      System.clearProperty(LOAD_PROPERTY);
      return false;
    }
  }

  private static @org.jspecify.annotations.Nullable URL resource(String[] lib, String platform) {
    return NativeLibraries.class.getResource(
        "/org/bytedeco/" + lib[0] + "/" + platform + "/" + lib[1]);
  }

  private static Path unpacked(URL from, Path to) throws IOException {
    long size = from.openConnection().getContentLengthLong();
    if (Files.isRegularFile(to) && Files.size(to) == size) {
      return to;
    }
    // Another process may unpack the same file: write aside, then move in one step.
    Path aside = Files.createTempFile(to.getParent(), "unpack", ".tmp");
    try (InputStream in = from.openStream()) {
      Files.copy(in, aside, StandardCopyOption.REPLACE_EXISTING);
    }
    Files.move(aside, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    return to;
  }

  private static Path cacheFolder(String platform) throws IOException {
    String cache = System.getenv("XDG_CACHE_HOME");
    Path base =
        cache != null && !cache.isBlank()
            ? Path.of(cache)
            : Path.of(System.getProperty("user.home"), ".cache");
    try {
      return Files.createDirectories(
          base.resolve("padtrue").resolve("opencv-4.13.0-1.5.13-" + platform));
    } catch (IOException e) {
      // No home to write to: a private folder for this run.
      Path folder = Files.createTempDirectory("padtrue");
      folder.toFile().deleteOnExit();
      return folder;
    }
  }
}
