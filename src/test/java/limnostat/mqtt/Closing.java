package limnostat.mqtt;

import java.io.IOException;
import java.net.Socket;
import javax.net.ssl.SSLSocket;

/** How a peer can end a connection, or leave it half open, and when. */
enum Closing {
  AT_ONCE {
    @Override
    void serve(Caller caller) throws IOException {}
  },
  RESET_AT_ONCE {
    @Override
    void serve(Caller caller) throws IOException {
      caller.reset();
    }
  },
  HALF_CLOSED_AT_ONCE {
    @Override
    void serve(Caller caller) throws IOException {
      halfClose(caller);
    }
  },
  WITHIN_CONNECT {
    @Override
    void serve(Caller caller) throws IOException {
      caller.socket().getInputStream().read();
    }
  },
  RESET_WITHIN_CONNECT {
    @Override
    void serve(Caller caller) throws IOException {
      caller.socket().getInputStream().read();
      caller.reset();
    }
  },
  AFTER_CONNECT {
    @Override
    void serve(Caller caller) throws IOException {
      caller.next();
    }
  },
  RESET_AFTER_CONNECT {
    @Override
    void serve(Caller caller) throws IOException {
      caller.next();
      caller.reset();
    }
  },
  HALF_CLOSED_AFTER_CONNECT {
    @Override
    void serve(Caller caller) throws IOException {
      caller.next();
      halfClose(caller);
    }
  },
  WITHIN_CONNACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.next();
      caller.send(new byte[] {0x20, 2, 0});
    }
  },
  REFUSED {
    @Override
    void serve(Caller caller) throws IOException {
      caller.next();
      caller.send(Frames.connack(3));
    }
  },
  AFTER_CONNACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.CONNECT);
    }
  },
  RESET_AFTER_CONNACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.CONNECT);
      caller.reset();
    }
  },
  HALF_CLOSED_AFTER_CONNACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.CONNECT);
      halfClose(caller);
    }
  },
  BEFORE_SUBACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.CONNECT);
      caller.next();
    }
  },
  WITHIN_SUBACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.CONNECT);
      caller.next();
      caller.send(new byte[] {(byte) 0x90, 3, 0});
    }
  },
  AFTER_SUBACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.SUBSCRIBE);
    }
  },
  RESET_AFTER_SUBACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.SUBSCRIBE);
      caller.reset();
    }
  },
  BEFORE_PUBACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.SUBSCRIBE);
      caller.next();
    }
  },
  AFTER_PUBACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.PUBLISH);
    }
  },
  HALF_CLOSED_AFTER_PUBACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.PUBLISH);
      halfClose(caller);
    }
  },
  WITHIN_A_MESSAGE {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.PUBLISH);
      caller.send(new byte[] {0x30, 100, 0, 5, 'a'});
    }
  },
  SILENT_AFTER_CONNECT {
    @Override
    void serve(Caller caller) throws IOException {
      caller.next();
      caller.listenOnly();
    }
  },
  SILENT_AFTER_CONNACK {
    @Override
    void serve(Caller caller) throws IOException {
      caller.serveThrough(Caller.CONNECT);
      caller.listenOnly();
    }
  };

  abstract void serve(Caller caller) throws IOException;

  /** Says that nothing more comes, and reads on. */
  private static void halfClose(Caller caller) throws IOException {
    Socket socket = caller.socket();
    if (socket instanceof SSLSocket encrypted) {
      encrypted.shutdownOutput();
    } else {
      socket.shutdownOutput();
    }
    socket.getInputStream().readAllBytes();
  }
}
