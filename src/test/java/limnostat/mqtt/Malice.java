package limnostat.mqtt;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;

/**
 * A broker that keeps the rules for a while and then does not: packets mutated, cut, too long, in
 * drips, out of order, twice, of kinds that no broker sends; connections closed, reset, left half
 * open; a session that is taken over again and again. What a connection gets follows from the seed
 * and its number.
 */
public final class Malice implements HostileBroker.Manner {
  private final long seed;
  private final AtomicLong exchanges = new AtomicLong();

  public Malice(long seed) {
    this.seed = seed;
  }

  /** Packets that were sent to clients. */
  public long exchanges() {
    return exchanges.get();
  }

  @Override
  public void serve(Caller caller) throws IOException {
    new Line(caller, new Random(seed * 1_000_003 + caller.number())).run();
  }

  /** One connection. */
  private final class Line {
    private final Caller caller;
    private final Random random;
    private final List<Caller.Packet> unanswered = new ArrayList<>();
    private String command = "";
    private byte[] last = Frames.PINGRESP;
    private int id;

    Line(Caller caller, Random random) {
      this.caller = caller;
      this.random = random;
    }

    void run() throws IOException {
      if (random.nextInt(20) == 0) {
        Closing[] all = Closing.values();
        exchanges.incrementAndGet();
        all[random.nextInt(all.length)].serve(caller);
        return;
      }
      Caller.Packet connect = caller.await(Caller.CONNECT);
      command = "base/" + connect.clientId().replaceFirst("limnostat-", "") + "/command";
      send(Frames.connack(0), 50);
      Caller.Packet subscribe = caller.await(Caller.SUBSCRIBE);
      send(Frames.suback(subscribe.id(), subscribe.filters().size()), 50);
      if (random.nextInt(20) == 0) {
        return; // as a broker does to a session that another client takes over
      }
      for (int rounds = 20 + random.nextInt(400); rounds > 0; rounds--) {
        round();
      }
    }

    private void round() throws IOException {
      while (caller.waiting()) {
        Caller.Packet packet = caller.next();
        if (packet.type() == Caller.PUBLISH || packet.type() == Caller.PINGREQ) {
          unanswered.add(packet);
        }
      }
      if (unanswered.size() > random.nextInt(8)) {
        Collections.shuffle(unanswered, random);
        Caller.Packet one = unanswered.remove(0);
        send(one.type() == Caller.PUBLISH ? Frames.puback(one.id()) : Frames.PINGRESP, 300);
        return;
      }
      int choice = random.nextInt(1000);
      if (choice < 600) {
        send(Frames.message(2, command, nextId(), payload(40)), 300);
      } else if (choice < 800) {
        send(Frames.message(random.nextInt(2), command, 0, payload(40)), 300);
      } else if (choice < 850) {
        send(Frames.message(2 + 8 * random.nextInt(2), command, nextId(), payload(6000)), 300);
      } else if (choice < 853) {
        send(Frames.message(2, command, nextId(), new byte[200_000]), 0);
      } else if (choice < 930) {
        drip(Frames.message(3, command, nextId(), payload(20)));
      } else if (choice < 985) {
        send(last, 0); // once more; of a message that is allowed
      } else if (choice < 990) {
        List<WrongPacket> all = WrongPacket.all(command);
        send(all.get(random.nextInt(all.size())).bytes().apply(nextId()), 0);
      } else if (choice < 996) {
        send(garbage(), 0);
      } else if (choice < 998) {
        caller.reset();
      } else if (choice < 999) {
        throw new IOException("closed");
      } else {
        caller.listenOnly(); // half open: nothing is said any more
      }
    }

    private int nextId() {
      id = id % 0xFFFF + 1;
      return id;
    }

    private byte[] payload(int most) {
      byte[] payload = new byte[random.nextInt(most)];
      random.nextBytes(payload);
      return payload;
    }

    private byte[] garbage() {
      byte[] garbage = new byte[1 + random.nextInt(300)];
      random.nextBytes(garbage);
      return garbage;
    }

    /**
     * @param oneIn so many goes out mutated; 0: none does
     */
    private void send(byte[] packet, int oneIn) throws IOException {
      byte[] bytes = oneIn > 0 && random.nextInt(oneIn) == 0 ? mutated(packet) : packet;
      exchanges.incrementAndGet();
      caller.send(bytes);
      last = bytes;
    }

    private void drip(byte[] packet) throws IOException {
      exchanges.incrementAndGet();
      for (byte b : packet) {
        caller.send(new byte[] {b});
      }
    }

    private byte[] mutated(byte[] packet) {
      byte[] bytes = packet.clone();
      int at = random.nextInt(Math.min(bytes.length, 12));
      switch (random.nextInt(5)) {
        case 0 -> bytes[at] ^= (byte) (1 << random.nextInt(8));
        case 1 -> bytes[at] = (byte) random.nextInt(256);
        case 2 -> bytes = Arrays.copyOf(bytes, at + 1);
        case 3 -> bytes = Arrays.copyOf(bytes, bytes.length + 1 + random.nextInt(9));
        default -> {
          for (int i = 0; i < bytes.length / 2; i++) {
            byte other = bytes[i];
            bytes[i] = bytes[bytes.length - 1 - i];
            bytes[bytes.length - 1 - i] = other;
          }
        }
      }
      return bytes;
    }
  }
}
