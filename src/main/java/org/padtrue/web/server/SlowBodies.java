package org.padtrue.web.server;

import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.handler.EagerContentHandler;

/**
 * Keeps clients that send slowly from holding up others: what a form sends is gathered, up to 1 MB,
 * before a thread is given to it. A client that sends nothing for 30 s is cut off by the server.
 */
public final class SlowBodies {
  private static final long GATHERED = 1 << 20;

  private SlowBodies() {}

  /** Gathers before everything else that the server does. */
  public static void keepOff(Server server) {
    server.insertHandler(
        new EagerContentHandler(
            new EagerContentHandler.RetainedContentLoaderFactory(GATHERED, 0, false)));
  }
}
