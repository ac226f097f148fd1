package limnostat.mqtt;

import java.io.IOException;

/**
 * What came breaks a rule of MQTT 3.1.1 (OASIS Standard, 29 October 2014). The connection on which
 * it came has to be closed (section 4.8).
 */
final class NotMqtt extends IOException {
  private static final long serialVersionUID = 1L;

  /**
   * @param what a noun phrase without numbers of the packet, so that a log tells it once
   * @param section of the standard
   */
  NotMqtt(String what, String section) {
    super(what + " (MQTT 3.1.1, " + section + ")");
  }
}
