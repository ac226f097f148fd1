package limnostat.cli;

/** Entry point. */
public final class Limnostat {
  private Limnostat() {}

  public static void main(String[] args) {
    System.out.println("limnostat");
  }
}
