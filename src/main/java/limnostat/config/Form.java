package limnostat.config;

import java.util.Optional;

/** The form of an option's value: how it is read from the file, checked and shown. */
interface Form<T> {

  /** The value in the program's unit, or empty with at least one refusal. */
  Optional<T> parse(Object toml, Refusals refusals);

  /** What is accepted, for people, with the unit. */
  String limits();

  /** A value as a person would write it in the file, without quotes. */
  String show(T value);

  /** The program's own bound in this form, for people; empty if it has none. */
  default Optional<String> hardBound() {
    return Optional.empty();
  }
}
