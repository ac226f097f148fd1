package limnostat.mqtt;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import limnostat.config.MqttSettings;

/** A private authority and a broker's certificate from it, made by {@code openssl} for a day. */
record Certificates(Path folder) {

  /**
   * @param names of the broker, as {@code IP:...} or {@code DNS:...}
   */
  static Certificates make(Path folder, String names) throws IOException, InterruptedException {
    Certificates made = new Certificates(folder);
    Path request = folder.resolve("request");
    Path extensions = folder.resolve("extensions");
    Files.writeString(extensions, "subjectAltName=" + names);
    Tool.run(
        "openssl",
        "req",
        "-x509",
        "-newkey",
        "ec",
        "-pkeyopt",
        "ec_paramgen_curve:P-256",
        "-nodes",
        "-days",
        "1",
        "-subj",
        "/CN=test authority",
        "-keyout",
        made.file("ca.key"),
        "-out",
        made.file("ca.pem"));
    Tool.run(
        "openssl",
        "req",
        "-newkey",
        "ec",
        "-pkeyopt",
        "ec_paramgen_curve:P-256",
        "-nodes",
        "-subj",
        "/CN=test broker",
        "-keyout",
        made.file("broker.key"),
        "-out",
        request.toString());
    Tool.run(
        "openssl",
        "x509",
        "-req",
        "-days",
        "1",
        "-in",
        request.toString(),
        "-CA",
        made.file("ca.pem"),
        "-CAkey",
        made.file("ca.key"),
        "-CAcreateserial",
        "-extfile",
        extensions.toString(),
        "-out",
        made.file("broker.pem"));
    readableToTheBroker(folder);
    return made;
  }

  /** The broker changes to a user of its own when it is started as root. */
  static void readableToTheBroker(Path folder) throws IOException {
    Files.setPosixFilePermissions(folder.getParent(), PosixFilePermissions.fromString("rwxr-xr-x"));
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.toList()) {
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
      }
    }
  }

  /** A client's certificate from the same authority, with its key. */
  MqttSettings.Identity client(String keyAlgorithm) throws IOException, InterruptedException {
    Path request = folder.resolve("client.request");
    List<String> make =
        new ArrayList<>(List.of("openssl", "req", "-newkey", keyAlgorithm, "-nodes"));
    if (keyAlgorithm.equals("ec")) {
      make.addAll(List.of("-pkeyopt", "ec_paramgen_curve:P-256"));
    }
    make.addAll(
        List.of("-subj", "/CN=garden", "-keyout", file("client.key"), "-out", request.toString()));
    Tool.run(make.toArray(String[]::new));
    Tool.run(
        "openssl",
        "x509",
        "-req",
        "-days",
        "1",
        "-in",
        request.toString(),
        "-CA",
        file("ca.pem"),
        "-CAkey",
        file("ca.key"),
        "-CAcreateserial",
        "-out",
        file("client.pem"));
    readableToTheBroker(folder);
    return new MqttSettings.Identity(folder.resolve("client.pem"), folder.resolve("client.key"));
  }

  /** Of a broker that lets in nobody without a certificate. */
  List<String> demandingLines() {
    List<String> lines = new ArrayList<>(brokerLines());
    lines.add("cafile " + file("ca.pem"));
    lines.add("require_certificate true");
    return lines;
  }

  /** The broker's own, with its key. */
  MqttSettings.Identity broker() {
    return new MqttSettings.Identity(folder.resolve("broker.pem"), folder.resolve("broker.key"));
  }

  Path authority() {
    return folder.resolve("ca.pem");
  }

  List<String> brokerLines() {
    return List.of(
        "allow_anonymous true", "certfile " + file("broker.pem"), "keyfile " + file("broker.key"));
  }

  private String file(String name) {
    return folder.resolve(name).toString();
  }
}
