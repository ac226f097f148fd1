package limnostat.config;

import java.util.Optional;

/** True or false. */
record Flag() implements Form<Boolean> {
  @Override
  public Optional<Boolean> parse(Object toml, Refusals refusals) {
    if (toml instanceof Boolean value) {
      return Optional.of(value);
    }
    refusals.refuse(
        Written.value(toml) + " is " + Written.type(toml),
        limits(),
        "write true or false without quotes");
    return Optional.empty();
  }

  @Override
  public String limits() {
    return "true or false";
  }

  @Override
  public String show(Boolean value) {
    return value.toString();
  }
}
