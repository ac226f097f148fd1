package limnostat.mqtt;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import limnostat.config.MqttSettings;

/** A private authority that signs anything: of any time, for any purpose, with any name. */
record Authority(Path folder) {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("yyyyMMddHHmmss'Z'").withZone(ZoneOffset.UTC);

  /** What a broker's certificate should say. */
  static final String GOOD = "subjectAltName=IP:127.0.0.1";

  private static final List<String> CURVE =
      List.of("-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes");

  static Authority make(Path folder) throws IOException, InterruptedException {
    Authority authority = new Authority(folder);
    authority.openssl(
        List.of("req", "-x509", "-days", "30", "-subj", "/CN=test authority"),
        CURVE,
        List.of("-keyout", authority.file("ca.key"), "-out", authority.file("ca.pem")));
    Files.writeString(
        folder.resolve("ca.conf"),
        String.join(
            "\n",
            "[ca]",
            "default_ca=x",
            "[x]",
            "new_certs_dir=" + folder,
            "database=" + authority.file("index"),
            "default_md=sha256",
            "rand_serial=yes",
            "unique_subject=no",
            "policy=p",
            "[p]",
            "commonName=supplied",
            ""));
    Files.createFile(folder.resolve("index"));
    return authority;
  }

  Path certificate() {
    return folder.resolve("ca.pem");
  }

  /**
   * Signs a new key.
   *
   * @param from begin of its time, from now
   * @param until its end, from now
   * @param extensions lines, without a section
   */
  MqttSettings.Identity sign(
      String name, List<String> key, Duration from, Duration until, String... extensions)
      throws IOException, InterruptedException {
    Path text = folder.resolve(name + ".ext");
    Files.writeString(text, String.join("\n", extensions) + "\n");
    openssl(
        List.of("req", "-subj", "/CN=" + name),
        key,
        List.of("-keyout", file(name + ".key"), "-out", file(name + ".csr")));
    openssl(
        List.of("ca", "-batch", "-notext", "-config", file("ca.conf")),
        List.of("-cert", file("ca.pem"), "-keyfile", file("ca.key")),
        List.of("-startdate", TIME.format(Instant.now().plus(from))),
        List.of("-enddate", TIME.format(Instant.now().plus(until))),
        List.of("-extfile", text.toString(), "-in", file(name + ".csr")),
        List.of("-out", file(name + ".pem")));
    return identity(name);
  }

  MqttSettings.Identity sign(String name, Duration from, Duration until, String... extensions)
      throws IOException, InterruptedException {
    return sign(name, CURVE, from, until, extensions);
  }

  MqttSettings.Identity identity(String name) {
    return new MqttSettings.Identity(folder.resolve(name + ".pem"), folder.resolve(name + ".key"));
  }

  @SafeVarargs
  private void openssl(List<String>... parts) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(List.of("openssl"));
    for (List<String> part : parts) {
      command.addAll(part);
    }
    Tool.run(command.toArray(String[]::new));
  }

  private String file(String name) {
    return folder.resolve(name).toString();
  }
}
