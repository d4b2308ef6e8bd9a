package org.padtrue.web.server;

import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.util.Callback;

/**
 * Takes in and forgets what a client still sends after its request was answered. Closing the
 * connection with bytes unread resets it, and the answer, such as which file is too large, would be
 * lost on its way. No thread waits for them.
 */
public final class RestOfBody extends Handler.Wrapper {
  /** More than this is not waited for, bytes. */
  private static final long MOST = 1L << 30;

  /** Stands before everything else that the server does. */
  public static void taken(Server server) {
    server.insertHandler(new RestOfBody());
  }

  @Override
  public boolean handle(Request request, Response response, Callback callback) throws Exception {
    return super.handle(
        new Request.Wrapper(request) {
          @Override
          public boolean consumeAvailable() {
            // what has not come yet would count as an error; it is taken below
            return true;
          }
        },
        response,
        new Callback.Nested(callback) {
          @Override
          public void succeeded() {
            new Rest(request, callback).run();
          }
        });
  }

  /** Reads as long as there is something, and comes back when more has come. */
  private record Rest(Request request, Callback done, long[] taken) implements Runnable {
    Rest(Request request, Callback done) {
      this(request, done, new long[1]);
    }

    @Override
    public void run() {
      while (taken[0] < MOST) {
        Content.Chunk chunk = request.read();
        if (chunk == null) {
          request.demand(this);
          return;
        }
        taken[0] += chunk.remaining();
        chunk.release();
        if (chunk.isLast() || Content.Chunk.isFailure(chunk)) {
          break;
        }
      }
      done.succeeded();
    }
  }
}
