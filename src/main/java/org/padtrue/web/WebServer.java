package org.padtrue.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.config.SizeUnit;
import io.javalin.http.HttpStatus;
import java.io.IOException;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.UnknownHostException;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.padtrue.problem.InputException;
import org.padtrue.problem.Problem;
import org.padtrue.problem.QuestionException;
import org.padtrue.web.begin.BeginPages;
import org.padtrue.web.bench.Analyses;
import org.padtrue.web.bench.Bench;
import org.padtrue.web.bench.HomePages;
import org.padtrue.web.bench.MeasurePages;
import org.padtrue.web.bench.Recorder;
import org.padtrue.web.bench.Workspace;
import org.padtrue.web.check.CheckPages;
import org.padtrue.web.check.EnteredPages;
import org.padtrue.web.corrected.CorrectedPages;
import org.padtrue.web.gauge.GaugePages;
import org.padtrue.web.inspect.InspectPages;
import org.padtrue.web.log.CorrectionPages;
import org.padtrue.web.log.DriftPages;
import org.padtrue.web.log.EventPages;
import org.padtrue.web.log.LogPages;
import org.padtrue.web.picture.CameraPages;
import org.padtrue.web.picture.PicturePages;
import org.padtrue.web.picture.PictureWork;
import org.padtrue.web.plan.PlanPages;
import org.padtrue.web.record.RecordPages;
import org.padtrue.web.result.ResultPages;
import org.padtrue.web.room.RoomPages;
import org.padtrue.web.server.Assets;
import org.padtrue.web.server.EnterPages;
import org.padtrue.web.server.Guard;
import org.padtrue.web.server.PageWords;
import org.padtrue.web.server.Pages;
import org.padtrue.web.server.Refusal;
import org.padtrue.web.server.RestOfBody;
import org.padtrue.web.server.SlowBodies;
import org.padtrue.web.server.Uploads;
import org.padtrue.web.server.WebOptions;
import org.padtrue.web.store.DeletePages;
import org.padtrue.web.store.FilePages;

/**
 * Serves the pages until it is closed.
 *
 * <p>Limits: requests without files 1 MB, files 64 MB each and 256 MB together.
 */
public final class WebServer implements AutoCloseable {
  private static final long MOST_TEXT = 1 << 20;

  private final Workspace workspace;
  private final Javalin javalin;
  private final PictureWork work;
  private final String host;

  private WebServer(Workspace workspace, Javalin javalin, PictureWork work, String host) {
    this.workspace = workspace;
    this.javalin = javalin;
    this.work = work;
    this.host = host;
  }

  /**
   * Starts serving.
   *
   * @throws InputException when the workspace cannot be used or the port is taken
   */
  public static WebServer start(WebOptions options) {
    return start(options, s -> {});
  }

  /**
   * Starts serving.
   *
   * @param console hears what whoever started the server should know, a sentence each
   * @throws InputException when the workspace cannot be used or the port is taken
   */
  public static WebServer start(WebOptions options, Consumer<String> console) {
    Workspace workspace = Workspace.open(options.workspace());
    try {
      workspace.tell(console);
      Guard guard = new Guard(workspace.secret(), workspace.ended(), options.passPhrase());
      Pages pages = new Pages(guard);
      Bench bench = new Bench(workspace, options.historyUrl(), pages, new Analyses());
      PictureWork work = new PictureWork();
      Javalin javalin = Javalin.create(c -> configure(c, guard, pages, bench, work));
      checkAddress(options.host());
      javalin.start(options.host(), options.port());
      return new WebServer(workspace, javalin, work, options.host());
    } catch (IOException | RuntimeException e) {
      workspace.close();
      if (e instanceof InputException known) {
        throw known;
      }
      throw new InputException(
          Problem.of(
              "--port",
              "port " + options.port() + " cannot be used (" + e.getMessage() + ")",
              "give another port, or 0 for any free one"));
    }
  }

  /** An address that this machine does not have is said so, before the port is blamed. */
  private static void checkAddress(String host) throws IOException {
    String found;
    try {
      InetAddress a = InetAddress.getByName(host);
      if (a.isAnyLocalAddress()
          || NetworkInterface.getByInetAddress(a) != null
          || a.isLoopbackAddress()) {
        return;
      }
      found = "'" + host + "' is no address of this machine";
    } catch (UnknownHostException e) {
      found = "'" + host + "' is no address, and no name that is known here";
    }
    String own =
        NetworkInterface.networkInterfaces()
            .flatMap(NetworkInterface::inetAddresses)
            .filter(a -> a instanceof Inet4Address && !a.isLoopbackAddress())
            .map(InetAddress::getHostAddress)
            .sorted()
            .collect(Collectors.joining(", "));
    throw new InputException(
        Problem.of(
            "--listen",
            found,
            "give 0.0.0.0 for all" + (own.isEmpty() ? "" : ", or one of its own: " + own)));
  }

  private static void configure(
      JavalinConfig c, Guard guard, Pages pages, Bench bench, PictureWork work) {
    c.startup.showJavalinBanner = false;
    c.http.maxRequestSize = MOST_TEXT;
    c.http.generateEtags = false;
    c.jetty.multipartConfig.maxFileSize(Uploads.MOST_TOGETHER_MB, SizeUnit.MB);
    c.jetty.multipartConfig.maxTotalRequestSize(Uploads.MOST_TOGETHER_MB, SizeUnit.MB);
    c.jetty.multipartConfig.maxInMemoryFileSize(1, SizeUnit.MB);
    c.jetty.modifyHttpConfiguration(
        h -> {
          h.setSendServerVersion(false);
          h.setRequestHeaderSize(16 * 1024);
        });
    c.jetty.modifyServer(SlowBodies::keepOff);
    c.jetty.modifyServer(RestOfBody::taken);
    c.routes.before(guard::before);
    c.routes.exception(Refusal.class, pages::refused);
    c.routes.exception(
        QuestionException.class,
        (e, ctx) -> pages.refused(Refusal.bad(PageWords.plain(e.question().sentence())), ctx));
    c.routes.exception(
        InputException.class,
        (e, ctx) ->
            pages.refused(
                Refusal.bad(
                    e.problems().stream()
                        .map(p -> PageWords.plain(p.sentence()))
                        .collect(Collectors.joining("\n"))),
                ctx));
    c.routes.exception(Exception.class, (e, ctx) -> pages.fault(e, ctx));
    c.routes.error(HttpStatus.NOT_FOUND.getCode(), pages::nothingHere);
    new Assets().routes(c.routes);
    new EnterPages(guard, pages).routes(c.routes);
    new HomePages(bench).routes(c.routes);
    new BeginPages(bench).routes(c.routes);
    new MeasurePages(bench).routes(c.routes);
    new ResultPages(bench).routes(c.routes);
    new CheckPages(bench).routes(c.routes);
    new EnteredPages(bench).routes(c.routes);
    new CorrectedPages(bench).routes(c.routes);
    new PlanPages(bench).routes(c.routes);
    new GaugePages(bench).routes(c.routes);
    new RecordPages(bench).routes(c.routes);
    new RoomPages(bench).routes(c.routes);
    new InspectPages(bench).routes(c.routes);
    new PicturePages(bench, work).routes(c.routes);
    new CameraPages(bench, work).routes(c.routes);
    new EventPages(bench).routes(c.routes);
    new CorrectionPages(bench).routes(c.routes);
    new LogPages(bench).routes(c.routes);
    new DriftPages(bench).routes(c.routes);
    new Recorder(bench).routes(c.routes);
    new FilePages(bench).routes(c.routes);
    new DeletePages(bench).routes(c.routes);
    new HelpPages(pages).routes(c.routes);
  }

  /** Address for a browser on this machine. */
  public String address() {
    return "http://" + (host.equals("0.0.0.0") ? "localhost" : host) + ":" + port() + "/";
  }

  /** The port in use. */
  public int port() {
    return javalin.port();
  }

  @Override
  public void close() {
    javalin.stop();
    work.close();
    workspace.close();
  }
}
