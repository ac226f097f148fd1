package limnostat.daemon;

/** The program's version, read from its jar. */
public final class Version {
  private Version() {}

  public static String text() {
    String version = Version.class.getPackage().getImplementationVersion();
    return version == null ? "(not packaged)" : version;
  }
}
