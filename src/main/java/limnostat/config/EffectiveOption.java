package limnostat.config;

import java.util.List;
import java.util.Optional;

/**
 * An option with its effective value.
 *
 * @param table dotted name of its table
 * @param key its key there
 * @param value as a person would write it; empty if there is none
 * @param origin where the value comes from
 * @param limits what is accepted, with the unit
 * @param hardBound the program's own bound, where it depends on this option alone
 */
public record EffectiveOption(
    String table, String key, String value, Origin origin, String limits, String hardBound) {

  /** Where a value comes from. */
  public enum Origin {
    FILE,
    DEFAULT,
    /** There is no value; the value field says what that means. */
    ABSENT
  }

  public String path() {
    return table + "." + key;
  }

  /** All options of the file. An optional table is included only if it is present. */
  static List<EffectiveOption> all(Values values) {
    return Options.ALL.stream()
        .filter(option -> !Options.mayBeAbsent(option.table()) || values.hasTable(option.table()))
        .map(option -> of(option, values))
        .toList();
  }

  private static <T> EffectiveOption of(Option<T> option, Values values) {
    Optional<T> value = values.find(option);
    Origin origin =
        value.isEmpty() ? Origin.ABSENT : values.isWritten(option) ? Origin.FILE : Origin.DEFAULT;
    String shown =
        value
            .map(option.form()::show)
            .orElse(
                option.absence() instanceof Option.Absence.Means<T> means ? means.meaning() : "");
    return new EffectiveOption(
        option.table(),
        option.key(),
        shown,
        origin,
        option.form().limits(),
        option.form().hardBound().orElse(""));
  }
}
