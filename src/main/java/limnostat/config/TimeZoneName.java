package limnostat.config;

import java.time.ZoneId;
import java.util.Optional;
import java.util.Set;

/**
 * A time zone of the IANA database. A fixed offset is refused: it would shift the pump windows by
 * an hour in summer.
 */
record TimeZoneName() implements Form<ZoneId> {
  @Override
  public Optional<ZoneId> parse(Object toml, Refusals refusals) {
    Set<String> known = ZoneId.getAvailableZoneIds();
    if (toml instanceof String text && known.contains(text)) {
      return Optional.of(ZoneId.of(text));
    }
    refusals.refuse(
        Written.value(toml) + " is not a known time zone",
        limits(),
        Optional.of(toml)
            .filter(String.class::isInstance)
            .flatMap(text -> Nearest.to((String) text, known))
            .map(name -> "perhaps \"" + name + "\" is meant")
            .orElse("write for instance \"Europe/Berlin\" or \"UTC\""));
    return Optional.empty();
  }

  @Override
  public String limits() {
    return "a zone of the IANA database";
  }

  @Override
  public String show(ZoneId value) {
    return value.getId();
  }
}
