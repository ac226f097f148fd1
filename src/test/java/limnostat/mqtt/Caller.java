package limnostat.mqtt;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.net.Socket;
import java.util.ArrayList;
import java.util.List;

/** A client at a {@link HostileBroker}, by its connection. */
public final class Caller {
  public static final int CONNECT = 1;
  public static final int PUBLISH = 3;
  public static final int SUBSCRIBE = 8;
  static final int PINGREQ = 12;
  static final int DISCONNECT = 14;

  /** What the client sent. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  public record Packet(int first, byte[] rest) {
    public int type() {
      return first >> 4;
    }

    /** The identifier of a message or of a subscription. */
    public int id() {
      int at = type() == PUBLISH ? 2 + number(0) : 0;
      return number(at);
    }

    /** Of a subscription: for what it asks. */
    public List<String> filters() {
      List<String> filters = new ArrayList<>();
      for (int at = 2; at < rest.length; at += 2 + number(at) + 1) {
        filters.add(new String(rest, at + 2, number(at), UTF_8));
      }
      return filters;
    }

    /** Of a CONNECT: behind name, level, flags and keep-alive. */
    String clientId() {
      return new String(rest, 12, number(10), UTF_8);
    }

    private int number(int at) {
      return (rest[at] & 0xFF) << 8 | (rest[at + 1] & 0xFF);
    }
  }

  private final Socket socket;
  private final int number;
  private final DataInputStream in;

  Caller(Socket socket, int number) throws IOException {
    this.socket = socket;
    this.number = number;
    // Opened late: over TLS the first read or write shakes hands.
    in = new DataInputStream(new BufferedInputStream(socket.getInputStream()));
  }

  /** Of the connection, from 0. */
  public int number() {
    return number;
  }

  Socket socket() {
    return socket;
  }

  /** The client's next packet. */
  public Packet next() throws IOException {
    int first = in.readUnsignedByte();
    int length = 0;
    for (int shift = 0, b = 0x80; b >= 0x80; shift += 7) {
      b = in.readUnsignedByte();
      length |= (b & 0x7F) << shift;
    }
    byte[] rest = new byte[length];
    in.readFully(rest);
    return new Packet(first, rest);
  }

  /** Reads on until a packet of that type; what comes before it is not answered. */
  public Packet await(int type) throws IOException {
    Packet packet = next();
    while (packet.type() != type) {
      packet = next();
    }
    return packet;
  }

  /** Whether the client has sent something that was not read yet. */
  boolean waiting() throws IOException {
    return in.available() > 0;
  }

  public synchronized void send(byte[] bytes) throws IOException {
    socket.getOutputStream().write(bytes);
  }

  /** The answer that the standard asks for. */
  public void answer(Packet packet) throws IOException {
    switch (packet.type()) {
      case CONNECT -> send(Frames.connack(0));
      case SUBSCRIBE -> send(Frames.suback(packet.id(), packet.filters().size()));
      case PUBLISH -> send(Frames.puback(packet.id()));
      case PINGREQ -> send(Frames.PINGRESP);
      case DISCONNECT -> throw new IOException("the client has said good-bye");
      default -> {}
    }
  }

  /** Keeps the rules until a packet of that type has been answered. */
  public void serveThrough(int type) throws IOException {
    Packet packet;
    do {
      packet = next();
      answer(packet);
    } while (packet.type() != type);
  }

  public void serveForEver() throws IOException {
    while (true) {
      answer(next());
    }
  }

  /** Reads until the client closes and answers nothing. */
  public void listenOnly() throws IOException {
    while (true) {
      next();
    }
  }

  /** Closes by a reset, as a process that is killed with unread bytes does. */
  void reset() throws IOException {
    socket.setSoLinger(true, 0);
    socket.close();
  }
}
