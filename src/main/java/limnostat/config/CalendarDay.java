package limnostat.config;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Optional;

/** A day, {@code 2026-05-01}, as a TOML date or in quotes. */
record CalendarDay() implements Form<LocalDate> {
  @Override
  public Optional<LocalDate> parse(Object toml, Refusals refusals) {
    if (toml instanceof LocalDate day) {
      return Optional.of(day);
    }
    if (toml instanceof String text) {
      try {
        return Optional.of(LocalDate.parse(text.strip()));
      } catch (DateTimeParseException e) {
        refusals.refuse(Written.value(toml) + " is not a day", limits(), MEND);
        return Optional.empty();
      }
    }
    refusals.refuse(Written.value(toml) + " is " + Written.type(toml), limits(), MEND);
    return Optional.empty();
  }

  private static final String MEND = "write for instance \"2026-05-01\"";

  @Override
  public String limits() {
    return "a day, year-month-day";
  }

  @Override
  public String show(LocalDate value) {
    return value.toString();
  }
}
