package limnostat.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateException;
import java.security.cert.CertificateFactory;
import java.util.Optional;
import javax.net.ssl.KeyManager;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.SSLSocketFactory;
import javax.net.ssl.TrustManagerFactory;
import limnostat.config.MqttSettings;

/** Encrypted sockets that trust the given authorities and can always be closed. */
final class TlsSockets extends SSLSocketFactory {
  /**
   * Closing an encrypted socket first sends a close notice, and for that it waits for the writer.
   * With a frozen broker the writer is stuck forever, unless a linger time limits the wait (the
   * JDK's {@code SSLSocketImpl} tries the lock only for that long).
   */
  private static final int LINGER_S = 1;

  private final SSLSocketFactory sockets;

  private TlsSockets(SSLSocketFactory sockets) {
    this.sockets = sockets;
  }

  /**
   * @param caFile PEM file with the only certificates to trust; absent: the system's authorities
   * @throws ConnectionFault the file cannot be used
   */
  static TlsSockets trusting(Optional<Path> caFile) throws ConnectionFault {
    return trusting(caFile, Optional.empty());
  }

  /**
   * @param identity presented to a broker that asks for it
   */
  static TlsSockets trusting(Optional<Path> caFile, Optional<MqttSettings.Identity> identity)
      throws ConnectionFault {
    KeyManager[] own =
        identity.isPresent() ? ClientKey.managers(identity.get()) : new KeyManager[0];
    try {
      SSLContext context = SSLContext.getInstance("TLS");
      TrustManagerFactory trust =
          TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
      trust.init(caFile.isPresent() ? authorities(caFile.get()) : null);
      context.init(own, trust.getTrustManagers(), null);
      return new TlsSockets(context.getSocketFactory());
    } catch (IOException | GeneralSecurityException e) {
      throw new ConnectionFault(
          "CA file "
              + caFile.map(Path::toString).orElse("of the system")
              + " cannot be used ("
              + e
              + "); it must hold PEM certificates and be readable to this user",
          false,
          e);
    }
  }

  private static KeyStore authorities(Path pem) throws IOException, GeneralSecurityException {
    KeyStore store = KeyStore.getInstance(KeyStore.getDefaultType());
    store.load(null, null);
    try (InputStream in = Files.newInputStream(pem)) {
      int n = 0;
      for (Certificate c : CertificateFactory.getInstance("X.509").generateCertificates(in)) {
        store.setCertificateEntry("ca" + n++, c);
      }
    }
    if (store.size() == 0) {
      throw new CertificateException("no certificate in it");
    }
    return store;
  }

  private static Socket prepared(Socket socket) throws IOException {
    socket.setSoLinger(true, LINGER_S);
    if (socket instanceof SSLSocket encrypted) {
      SSLParameters parameters = encrypted.getSSLParameters();
      parameters.setAlgorithmConstraints(LongKeys.REQUIRED);
      encrypted.setSSLParameters(parameters);
    }
    return socket;
  }

  @Override
  public Socket createSocket() throws IOException {
    return prepared(sockets.createSocket());
  }

  @Override
  public Socket createSocket(Socket plain, String host, int port, boolean autoClose)
      throws IOException {
    return prepared(sockets.createSocket(plain, host, port, autoClose));
  }

  @Override
  public Socket createSocket(String host, int port) throws IOException {
    return prepared(sockets.createSocket(host, port));
  }

  @Override
  public Socket createSocket(String host, int port, InetAddress localHost, int localPort)
      throws IOException {
    return prepared(sockets.createSocket(host, port, localHost, localPort));
  }

  @Override
  public Socket createSocket(InetAddress host, int port) throws IOException {
    return prepared(sockets.createSocket(host, port));
  }

  @Override
  public Socket createSocket(InetAddress host, int port, InetAddress localHost, int localPort)
      throws IOException {
    return prepared(sockets.createSocket(host, port, localHost, localPort));
  }

  @Override
  public String[] getDefaultCipherSuites() {
    return sockets.getDefaultCipherSuites();
  }

  @Override
  public String[] getSupportedCipherSuites() {
    return sockets.getSupportedCipherSuites();
  }
}
