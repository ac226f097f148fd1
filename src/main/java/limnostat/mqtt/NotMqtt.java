package limnostat.mqtt;

import java.io.IOException;

/**
 * A received packet breaks a rule of MQTT 3.1.1 (OASIS Standard, 29 October 2014). The connection
 * on which it arrived must be closed (section 4.8).
 */
final class NotMqtt extends IOException {
  private static final long serialVersionUID = 1L;

  /**
   * @param what a noun phrase without numbers from the packet, so that it is logged only once
   * @param section section of the standard
   */
  NotMqtt(String what, String section) {
    super(what + " (MQTT 3.1.1, " + section + ")");
  }
}
