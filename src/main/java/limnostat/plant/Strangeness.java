package limnostat.plant;

/**
 * Phenomena that a plain pool does not have. Their parameters are drawn elsewhere; here each is off
 * unless it is set.
 */
public record Strangeness(
    ElectrodeErrors.Settings electrode,
    SunLaw sun,
    Algae.Settings algae,
    Organics.Settings organics,
    Fresh.Settings fresh) {
  /** A plain pool. */
  public static final Strangeness NONE =
      new Strangeness(
          ElectrodeErrors.Settings.NONE,
          SunLaw.PLAIN,
          Algae.Settings.NONE,
          Organics.Settings.NONE,
          Fresh.Settings.NONE);

  public Strangeness withElectrode(ElectrodeErrors.Settings with) {
    return new Strangeness(with, sun, algae, organics, fresh);
  }
}
