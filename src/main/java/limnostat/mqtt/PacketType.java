package limnostat.mqtt;

import java.util.Optional;

/** Packet types, MQTT 3.1.1, table 2.1, in the order of their numbers. */
enum PacketType {
  CONNECT(false),
  CONNACK(true),
  PUBLISH(true),
  PUBACK(true),
  PUBREC(true),
  PUBREL(true),
  PUBCOMP(true),
  SUBSCRIBE(false),
  SUBACK(true),
  UNSUBSCRIBE(false),
  UNSUBACK(true),
  PINGREQ(false),
  PINGRESP(true),
  DISCONNECT(false);

  private static final PacketType[] ALL = values();

  private final boolean fromBroker;

  PacketType(boolean fromBroker) {
    this.fromBroker = fromBroker;
  }

  /** Whether the standard lets a broker send it. */
  boolean fromBroker() {
    return fromBroker;
  }

  /** Bits 3 to 0 of the first byte, table 2.2. In a message they carry information instead. */
  int flags() {
    return this == PUBREL || this == SUBSCRIBE || this == UNSUBSCRIBE ? 2 : 0;
  }

  /** The type in a packet's first byte; 0 and 15 are reserved. */
  static Optional<PacketType> of(int first) {
    int number = first >> 4;
    return number >= 1 && number <= ALL.length ? Optional.of(ALL[number - 1]) : Optional.empty();
  }
}
