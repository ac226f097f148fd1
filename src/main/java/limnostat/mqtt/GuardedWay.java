package limnostat.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.internal.NetworkModule;

/**
 * The library's network connection to the broker, plain or encrypted. It enforces the rules of the
 * conversation.
 */
record GuardedWay(NetworkModule module, Conversation conversation) implements NetworkModule {
  @Override
  public void start() throws IOException, MqttException {
    module.start();
  }

  @Override
  public InputStream getInputStream() throws IOException {
    return new BoundedInput(module.getInputStream(), conversation);
  }

  @Override
  public OutputStream getOutputStream() throws IOException {
    return new SentPackets(module.getOutputStream(), conversation);
  }

  /** Closes only the socket. A thread that waits for its turn to read keeps waiting. */
  void cut() throws IOException {
    module.stop();
  }

  @Override
  public void stop() throws IOException {
    conversation.end();
    module.stop();
  }

  @Override
  public String getServerURI() {
    return module.getServerURI();
  }
}
