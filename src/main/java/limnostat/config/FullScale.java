package limnostat.config;

import java.util.Optional;
import java.util.Set;

/** A programmable range of a 16-bit converter of the ADS1115 class. */
record FullScale(Quantity quantity) implements Form<Integer> {
  private static final Set<Integer> RANGES_MV = Set.of(256, 512, 1024, 2048, 4096, 6144);

  FullScale() {
    this(Quantity.of(Dimension.POTENTIAL, "mV", 256, 6144));
  }

  @Override
  public Optional<Integer> parse(Object toml, Refusals refusals) {
    Optional<Double> valueMv = quantity.parse(toml, refusals);
    if (valueMv.isPresent() && !RANGES_MV.contains((int) Math.round(valueMv.get()))) {
      refusals.refuse(
          Written.value(toml) + " is not a range of the converter", limits(), "choose one of them");
      return Optional.empty();
    }
    return valueMv.map(value -> (int) Math.round(value));
  }

  @Override
  public String limits() {
    return "256, 512, 1024, 2048, 4096 or 6144 mV";
  }

  @Override
  public String show(Integer value) {
    return value + " mV";
  }
}
